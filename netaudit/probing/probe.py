"""A whole probe: the first look, then the talk with the storage, all within one bound."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from netaudit.machine.clock import Deadline, now_s, pause
from netaudit.machine.knocking import Knocked
from netaudit.machine.privacy import blocked_by_privacy
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Endpoint, Route, Session
from netaudit.model.observation import FarAddress, Growth, Moved, Observation, SwitchPort, Timing
from netaudit.model.vocabulary import Address
from netaudit.probing import far_end, handshakes
from netaudit.probing.asking import Notebook
from netaudit.probing.interval import grown, sessions_grown
from netaudit.probing.request import Request
from netaudit.probing.road import SESSION_RULES, first_look
from netaudit.probing.target import find_goal

HANDSHAKES_AT_LEAST = 10
"""Handshakes that are made in any case: as many as the rules on loss and replies want to see."""
GREETINGS = 2
"""How often a storage is greeted of which nothing is heard."""
HANDSHAKES_TO_SEE_LOSS = 30
"""Handshakes that are made more where there is an interval, however long they take.

With the others 40: where each of the two packets is lost one time in twenty, two or more of them show it in 91 of 100
cases (binomial distribution).
"""
COUNTING_RULES = ("replies-on-other-port", "link-full", "receive-errors", "link-flapping")


class _Interval(NamedTuple):
    """The time in which counters are watched."""

    before: Mapping[str, Growth]
    """The counters at its beginning."""
    started_s: float
    until: Deadline


class Probe:
    """One probe in two steps, so that the first answer need not wait for the second."""

    def __init__(self, machine: Machine, request: Request) -> None:
        self._machine = machine
        self._request = request
        self._started_s = now_s()
        self._notes = Notebook(Deadline(request.bound_s))
        self._knocked: list[Knocked] = []

    def first_look(self) -> Observation:
        """Where the traffic goes right now; nothing is sent to the storage.

        Raises InputError for an unknown name or folder, MachineError where this machine cannot be asked.
        """
        goal = find_goal(self._machine, self._request)
        seen = first_look(self._machine, self._request, goal, self._notes)
        return seen._replace(took_s=now_s() - self._started_s)

    def closer_look(self, seen: Observation, wanted: Sequence[str] = ()) -> Observation:
        """The same with all that the talk with the storage brings.

        Parameters: the first look; interfaces of the plan that are to be looked at closely beside those in use.
        """
        interval = self._opened()
        greeted = self._greeted(seen)
        end = _end_of(greeted)
        examined = self._examined(greeted, end)
        counted = self._closed(examined, interval, end)
        detailed = self._detailed(self._with_links_now(counted), wanted)
        whole = detailed._replace(timings=self._timed(end), switch_port=self._switch_port(detailed, wanted))
        return whole._replace(
            skipped=self._notes.skipped, took_s=now_s() - self._started_s, bound_s=self._request.bound_s, complete=True
        )

    def _opened(self) -> _Interval:
        before = self._notes.ask("the counters of the interfaces", COUNTING_RULES, self._machine.counts) or {}
        return _Interval(before, now_s(), Deadline(self._request.seconds))

    def _greeted(self, seen: Observation) -> Observation:
        """After a handshake with every service; another where all keep silent, which a lossy link does too."""
        for _ in range(GREETINGS):
            knocked = handshakes.knock_all(seen.addresses, seen.ports, self._notes.deadline)
            self._knocked += self._unguarded(seen, knocked)
            if any(one.outcome != "silent" for one in knocked):
                break
        return _with_knocks(seen, self._knocked)

    def _unguarded(self, seen: Observation, knocked: list[Knocked]) -> list[Knocked]:
        """The same answers; where this system's own guard forbids the host, it is not the host that is out of reach."""
        if self._machine.system != "macos":
            return knocked
        guarded = [one.end.address for one in knocked if one.outcome == "unreachable"]
        ways = [(each.address, each.route) for each in seen.addresses if each.address in guarded]
        blocked = {address for address, route in ways if route is not None and self._forbidden(address, route)}
        return [one._replace(outcome="blocked") if one.end.address in blocked else one for one in knocked]

    def _forbidden(self, address: Address, route: Route) -> bool:
        size = far_end.LEAST_OCTETS
        question = partial(self._machine.frame, address, size, route, self._notes.deadline.at_most(far_end.FRAME_S))
        test = self._notes.ask(f"whether the system's own ping reaches {address}", ("no-answer",), question)
        return blocked_by_privacy("unreachable", route, answers_the_system=test is not None and test.passed is True)

    def _examined(self, seen: Observation, end: Endpoint | None) -> Observation:
        """After handshakes with one service, with what each address answers and which ports the storage offers."""
        if end is not None:
            self._knocked += handshakes.series(end, HANDSHAKES_AT_LEAST, Deadline(0), self._notes.deadline)
        known = seen._replace(addresses=tuple(self._addresses(seen)))
        share = None if seen.mount is None else seen.mount.share
        offers, teller = far_end.offers_of(far_end.in_use(known), share, self._request, self._notes)
        return _with_address(known, teller)._replace(offers=offers)

    def _addresses(self, seen: Observation) -> Iterator[FarAddress]:
        """Each address with what it answers; frames and routers only of those in use."""
        used = {each.address for each in far_end.in_use(seen)}
        for each in seen.addresses:
            known = each._replace(neighbours=far_end.neighbours_of(self._machine, each, self._notes))
            if each.answers and each.address in used:
                interface = None if each.route is None else seen.interfaces.get(each.route.interface)
                known = known._replace(
                    frames=far_end.frames_of(self._machine, each, interface, self._request.mtu, self._notes),
                    routers=far_end.routers_of(self._machine, each, self._notes),
                )
            yield far_end.with_smb(known, self._notes)

    def _closed(self, seen: Observation, interval: _Interval, end: Endpoint | None) -> Observation:
        """After handshakes until the interval is over, with what interfaces and sessions did in it."""
        if end is not None:
            least = HANDSHAKES_TO_SEE_LOSS if self._request.seconds else 0
            self._knocked += handshakes.series(end, least, interval.until, self._notes.deadline)
        pause(self._notes.deadline.at_most(interval.until.left_s))
        return self._counted(_with_knocks(seen, self._knocked), interval)

    def _counted(self, seen: Observation, interval: _Interval) -> Observation:
        remotes = [each.address for each in seen.addresses]
        services = {session.service for session in seen.sessions} | set(seen.ports)
        after = self._notes.ask("the counters of the interfaces", COUNTING_RULES, self._machine.counts)
        sessions = self._notes.ask(
            "living sessions with the storage", SESSION_RULES, lambda: self._machine.sessions(remotes, services)
        )
        if not interval.before or after is None:
            return seen
        moved = Moved(
            now_s() - interval.started_s,
            grown(interval.before, after),
            sessions_grown(seen.sessions, sessions or ()),
            handshakes.accepted(self._knocked),
        )
        return seen._replace(moved=moved, sessions=_living(seen.sessions, sessions))

    def _with_links_now(self, seen: Observation) -> Observation:
        """Those interfaces whose link came or went within the interval with what became of it."""
        growths = {} if seen.moved is None else seen.moved.interfaces
        changed = {name for name, growth in growths.items() if growth.carrier_changes}
        found = dict(seen.interfaces)
        if changed:
            now = self._notes.ask("the links of the interfaces", ("carrier-lost",), self._machine.interfaces) or {}
            for name in changed & found.keys() & now.keys():
                found[name] = found[name]._replace(up=now[name].up, carrier=now[name].carrier)
        return seen._replace(interfaces=found)

    def _detailed(self, seen: Observation, wanted: Sequence[str]) -> Observation:
        """The interfaces in use and of the plan with what takes longer to find out."""
        used = {each.route.interface for each in seen.addresses if each.route is not None}
        used |= {session.interface for session in seen.sessions if session.interface is not None}
        names = used | set(wanted)
        found = dict(seen.interfaces)
        for name in names & found.keys():
            rules = ("link-below-capability", "adapter-bus-below-link")
            question = partial(self._machine.detailed, found[name])
            closer = self._notes.ask(f"bus and offered rates of {name}", rules, question)
            found[name] = closer or found[name]
        return seen._replace(interfaces=found)

    def _timed(self, end: Endpoint | None) -> tuple[Timing, ...]:
        """The files that were to be read or written."""
        if not (self._request.read or self._request.write):
            return ()
        from netaudit.probing.transfers import transfers  # noqa: PLC0415 - only whoever asks for it pays for it

        return transfers(self._machine, self._request, end, self._notes)

    def _switch_port(self, seen: Observation, wanted: Sequence[str]) -> SwitchPort | None:
        """What the switch announces on the planned interface, or else on that in use, where it was asked for."""
        routed = [each.route.interface for each in far_end.in_use(seen) if each.route is not None]
        names = [name for name in (*wanted, *routed) if name in seen.interfaces]
        if not self._request.listen_s or not names:
            return None
        interface = seen.interfaces[names[0]]
        seconds = self._notes.deadline.at_most(self._request.listen_s)
        what = f"which switch port {interface.name} is plugged into"
        return self._notes.ask(what, (), lambda: self._machine.listen(interface, seconds))


def _with_knocks(seen: Observation, knocked: Sequence[Knocked]) -> Observation:
    answers = handshakes.gathered(knocked)
    addresses = (each._replace(knocks=answers.get(each.address, each.knocks)) for each in seen.addresses)
    return seen._replace(addresses=tuple(addresses))


def _with_address(seen: Observation, known: FarAddress | None) -> Observation:
    if known is None:
        return seen
    addresses = (known if each.address == known.address else each for each in seen.addresses)
    return seen._replace(addresses=tuple(addresses))


def _end_of(seen: Observation) -> Endpoint | None:
    """The service that handshakes are made with: an open one in use, else one that at least refuses."""
    for outcome in ("open", "refused"):
        for each in far_end.in_use(seen):
            for port, knock in each.knocks.items():
                if knock.outcome == outcome:
                    return Endpoint(each.address, port)
    return None


def _living(then: Sequence[Session], now: Sequence[Session] | None) -> tuple[Session, ...]:
    """The sessions as they are now; as they were where that could not be asked again."""
    return tuple(then) if now is None else tuple(now)
