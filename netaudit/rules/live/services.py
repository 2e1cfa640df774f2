"""Live rules about services: does the storage answer, and does it serve files."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.citation import OBSERVED
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.observation import FarAddress
from netaudit.model.services import SSH, service_text
from netaudit.model.situation import Situation
from netaudit.rules.live.between import way_first
from netaudit.rules.live.names import Destination, destinations
from netaudit.rules.live.remedies import far_end_of
from netaudit.rules.live.roads import with_rate
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place


def _knocked(situation: Situation) -> Iterator[Destination]:
    """What was asked for, without the addresses that nobody could knock at."""
    for to in destinations(situation, lambda far: far.answers is True):
        addresses = tuple(far for far in to.addresses if far.knocks)
        if addresses:
            yield Destination(addresses, to.what)


def _judge_answer(to: Destination, situation: Situation) -> Judgement:
    if any(far.answers for far in to.addresses):
        return None
    where = [address_place(far.address) for far in to.addresses]
    outcomes = {knock.outcome for far in to.addresses for knock in far.knocks.values()}
    if "blocked" in outcomes:
        return NO_ANSWER.not_checked(
            *where,
            reason="This system forbids this program to talk to devices on the local network, so that nothing is heard",
            decides="allow it in the system's privacy settings (on macOS Privacy & Security, Local Network), or probe "
            "from the system's own terminal",
        )
    first = to.addresses[0]
    how = "says that there is no way there" if outcomes == {"unreachable"} else "heard nothing in time"
    echo = next((far for far in to.addresses if far.path_mtu is not None), None)
    if echo is not None:
        how = f"{how}, although {echo.address} answers to ping"
    return NO_ANSWER.finding(
        *where,
        message=f"{to.what} does not answer at {listed(far.address for far in to.addresses)}{_by(first, situation)}: "
        f"this system {how}",
        remedy=_wake(first, situation, pings=echo is not None),
        source=OBSERVED,
    )


def _by(far: FarAddress, situation: Situation) -> str:
    return "" if far.route is None else f", asked by {with_rate(far.route.interface, situation)}"


def _wake(far: FarAddress, situation: Situation, *, pings: bool) -> str:
    first = way_first(far.address, situation)
    if first:
        return f"{first}probe again; nothing that is asked by the wrong way tells whether the storage is there."
    if pings:
        return (
            f"The host is there but keeps silent on its file services: look whether file sharing is started on "
            f"{situation.storage_name}, and whether its firewall lets this subnet in."
        )
    end = "the switch" if far.route is None else far_end_of(situation, far.route.interface)
    return (
        f"Look whether {situation.storage_name} is on and its lamp at the switch is lit, then whether it still has "
        f"the address {far.address}; then follow the cable from {end} on."
    )


NO_ANSWER = Rule(
    name="no-answer",
    family="live",
    severity="fail",
    subjects=_knocked,
    judge=_judge_answer,
    what="A storage that does not answer at any of its addresses, or at none of the planned ones.",
    why="It is off, unplugged behind the switch, or has another address since the last power cut.",
    todo="Look whether it is on, whether its lamp at the switch is lit, and which address it has.",
    sources=observed,
)


def _serving(situation: Situation) -> Iterator[FarAddress]:
    """The addresses in use that answer at all."""
    return (far for far in situation.used_addresses if far.answers)


def _there(far: FarAddress, situation: Situation) -> str:
    """That the storage is at an address, which is told once where it has no other name."""
    name = situation.storage_name
    return f"{name} is there" if name == str(far.address) else f"{name} is there at {far.address}"


def _judge_service(far: FarAddress, situation: Situation) -> Judgement:
    mount = situation.seen.mount
    wanted = None if mount is None else mount.port
    knocks = {port: knock for port, knock in far.knocks.items() if wanted in (None, port)} or dict(far.knocks)
    files = {port: knock for port, knock in knocks.items() if port != SSH} or knocks
    refused = [port for port, knock in files.items() if knock.outcome == "refused"]
    if not refused or any(knock.outcome == "open" for knock in files.values()):
        return None
    names = [service_text(port) for port in refused]
    return SERVICE_REFUSED.finding(
        address_place(far.address),
        message=f"{_there(far, situation)} but refuses {listed(names)}: no file service runs on that address",
        remedy=f"Start file sharing on {situation.storage_name}, and look whether it is bound to this address and "
        "not to another port alone. If it serves on a port of its own, name that with --port.",
        source=OBSERVED,
    )


SERVICE_REFUSED = Rule(
    name="service-refused",
    family="live",
    severity="fail",
    subjects=_serving,
    judge=_judge_service,
    what="A storage that answers but refuses every file service at the address in use.",
    why="The network is fine: the file server is stopped, or serves only on another of its ports.",
    todo="Start file sharing on the storage, and let it serve on this address.",
    sources=observed,
)
