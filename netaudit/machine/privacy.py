"""Whether a guard of this system, and not the storage, keeps a program from an address on the link."""

from __future__ import annotations

from netaudit.model.machine_state import Route
from netaudit.model.observation import Outcome


def blocked_by_privacy(outcome: Outcome, route: Route | None, *, answers_the_system: bool) -> bool:
    """Whether macOS itself keeps this program from a host on its own link.

    From macOS 15 on a program that was not given leave for the local network is told "No route to host", though there
    is a route and the system's own tools get through; addresses behind a router are not guarded. Source: Apple, TN3179
    Understanding local network privacy.

    Parameters: how this program's handshake ended; the route; whether the system's own ping had an answer from there.
    """
    on_link = route is not None and route.gateway is None and not route.local
    return outcome == "unreachable" and on_link and answers_the_system
