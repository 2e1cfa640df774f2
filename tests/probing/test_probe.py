"""A whole probe."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

import pytest
from machines import AIR, BY_WIRE, VAULT, WIRE, FakeMachine, growth, session

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.knocking import Knocked
from netaudit.model.machine_state import Endpoint, SessionCount
from netaudit.model.observation import Growth, Observation, Offer, Outcome, SmbFacts, SwitchPort, Timing
from netaudit.probing import far_end, handshakes, target, transfers
from netaudit.probing import probe as room
from netaudit.probing.probe import HANDSHAKES_AT_LEAST, HANDSHAKES_TO_SEE_LOSS, Probe
from netaudit.probing.request import Request
from netaudit.rules.counted import LEAST_HANDSHAKES


class _Storage:
    """A storage that answers every knock on a port alike."""

    def __init__(self) -> None:
        self.doors: dict[int, Outcome] = {445: "open", 2049: "refused"}
        self.knocked: list[Endpoint] = []

    def __call__(self, ends: Sequence[Endpoint], timeout_s: float, source: object = None) -> Iterator[Knocked]:
        for end in ends:
            self.knocked.append(end)
            outcome = self.doors[end.port]
            yield Knocked(end, outcome, 0.001 if outcome in ("open", "refused") else None)


@pytest.fixture
def storage(monkeypatch: pytest.MonkeyPatch) -> _Storage:
    storage = _Storage()
    monkeypatch.setattr(handshakes, "knocks", storage)
    monkeypatch.setattr(handshakes, "pause", lambda seconds: None)
    monkeypatch.setattr(room, "pause", lambda seconds: None)
    monkeypatch.setattr(target, "addresses_of", lambda host, timeout_s: ((VAULT, "dns"),) if host == "vault" else ())
    monkeypatch.setattr(far_end.arp, "ask", lambda *_: ("02:44:20:00:00:10",))
    monkeypatch.setattr(far_end.smb, "negotiate", lambda *_: SmbFacts("3.1.1"))
    monkeypatch.setattr(far_end.smb, "offers", lambda *_, **__: (SmbFacts("3.1.1", signed_in=True), (Offer(VAULT),)))
    return storage


def _probed(machine: FakeMachine, wanted: tuple[str, ...] = (), **asked: object) -> Observation:
    probe = Probe(machine, Request("vault", **{"seconds": 0.01, **asked}))  # type: ignore[arg-type]
    return probe.closer_look(probe.first_look(), wanted)


def test_the_first_look_sends_nothing(storage: _Storage) -> None:
    seen = Probe(FakeMachine(), Request("vault")).first_look()

    assert ([], False, BY_WIRE) == (storage.knocked, seen.complete, seen.addresses[0].route)


def test_the_time_taken_counts_from_the_start_and_the_interval_from_one_counting_to_the_next(
    storage: _Storage, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = [1000.0]

    def takes(question: Callable[[], object], seconds: float) -> Callable[[], object]:
        def answer() -> object:
            clock[0] += seconds
            return question()

        return answer

    machine = FakeMachine()
    monkeypatch.setattr(room, "now_s", lambda: clock[0])
    monkeypatch.setattr(machine, "interfaces", takes(machine.interfaces, 3))
    monkeypatch.setattr(machine, "counts", takes(machine.counts, 2))
    probe = Probe(machine, Request("vault", seconds=0))
    first = probe.first_look()
    seen = probe.closer_look(first)
    assert seen.moved is not None

    assert (3, 7, 2) == (first.took_s, seen.took_s, seen.moved.seconds)


def test_without_an_interval_there_are_just_the_handshakes_that_the_rules_want_to_see(storage: _Storage) -> None:
    knocks = _probed(FakeMachine(), seconds=0).addresses[0].knocks

    assert 1 + LEAST_HANDSHAKES == len(knocks[445].round_trips_s)


def test_every_service_is_knocked_and_the_open_one_again_and_again(storage: _Storage) -> None:
    seen = _probed(FakeMachine())
    knocks = seen.addresses[0].knocks

    assert ("open", "refused") == (knocks[445].outcome, knocks[2049].outcome)
    assert len(knocks[445].round_trips_s) >= HANDSHAKES_AT_LEAST + 1
    assert len(knocks[2049].round_trips_s) == 1
    assert seen.complete


def test_a_host_that_only_refuses_is_timed_by_its_refusals(storage: _Storage) -> None:
    storage.doors = {445: "refused", 2049: "refused"}

    assert len(_probed(FakeMachine()).addresses[0].knocks[445].round_trips_s) >= HANDSHAKES_AT_LEAST + 1


def test_a_silent_host_is_greeted_once_more_and_not_asked_any_further(storage: _Storage) -> None:
    storage.doors = {445: "silent", 2049: "silent"}
    machine = FakeMachine()
    seen = _probed(machine)

    assert [Endpoint(VAULT, 445), Endpoint(VAULT, 2049)] * 2 == storage.knocked
    assert ((), None, None) == (seen.addresses[0].frames, seen.addresses[0].smb, seen.offers)
    assert not [word for word in machine.asked if word.startswith("frame")]


def test_one_silent_greeting_is_a_loss_where_the_next_is_answered(
    storage: _Storage, monkeypatch: pytest.MonkeyPatch
) -> None:
    def greeted(*words: object) -> list[Knocked]:
        greetings.append(words)
        return [Knocked(Endpoint(VAULT, 445), "silent" if len(greetings) == 1 else "open", None)]

    greetings: list[object] = []
    monkeypatch.setattr(handshakes, "knock_all", greeted)
    knock = _probed(FakeMachine()).addresses[0].knocks[445]

    assert (2, "open", 1) == (len(greetings), knock.outcome, knock.lost)


def test_the_far_end_is_told_with_frames_hardware_and_what_it_says_of_itself(storage: _Storage) -> None:
    each = _probed(FakeMachine()).addresses[0]

    assert (9000, ("02:44:20:00:00:10",), ()) == (each.path_mtu, each.neighbours and each.neighbours.macs, each.routers)
    assert SmbFacts("3.1.1", signed_in=True) == each.smb


def test_counters_and_sessions_are_told_with_what_they_did_meanwhile(storage: _Storage) -> None:
    machine = FakeMachine(
        living=(session(sent_bytes=7),), counters=[{"en5": growth(100, 1000)}, {"en5": growth(150, 5000)}]
    )
    moved = _probed(machine).moved
    assert moved is not None

    assert growth(50, 4000) == moved.interfaces["en5"]
    assert {("10.44.20.11:50001", "10.44.20.10:445"): SessionCount(sent_bytes=0)} == moved.sessions
    assert moved.handshakes[VAULT] >= HANDSHAKES_AT_LEAST + HANDSHAKES_TO_SEE_LOSS + 1


def test_counters_that_cannot_be_told_leave_what_moved_open(storage: _Storage, monkeypatch: pytest.MonkeyPatch) -> None:
    machine = FakeMachine()

    def forbidden() -> None:
        raise PrivilegeError("root")

    monkeypatch.setattr(machine, "counts", forbidden)
    seen = _probed(machine)

    assert (None, True) == (seen.moved, seen.complete)
    assert any("root" in each.why for each in seen.skipped)


@pytest.mark.parametrize("failing", [1, 2])
def test_counters_that_are_told_only_once_leave_what_moved_open(
    storage: _Storage, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    def counts() -> Mapping[str, Growth]:
        asked.append(1)
        if len(asked) == failing:
            raise AnswerError("no answer this time")
        return {"en5": growth(9, 9)}

    asked: list[int] = []
    machine = FakeMachine()
    monkeypatch.setattr(machine, "counts", counts)

    assert (None, 2) == (_probed(machine).moved, len(asked))


def test_sessions_are_told_as_they_are_in_the_end_or_as_they_were_where_that_is_not_told(storage: _Storage) -> None:
    before, after = session(sent_bytes=7), session(sent_bytes=9)
    for living, expected in (((after,), (after,)), ((), ()), (AnswerError("no answer this time"), (before,))):
        machine = FakeMachine(living=(before,))
        probe = Probe(machine, Request("vault", seconds=0))
        seen = probe.first_look()
        machine.living = living

        assert expected == probe.closer_look(seen).sessions


@pytest.mark.parametrize("asked", [{"read": True}, {"write": True}])
def test_a_file_is_moved_when_asked_for(
    storage: _Storage, monkeypatch: pytest.MonkeyPatch, asked: dict[str, bool]
) -> None:
    timing = Timing("/mnt/take-1.mov", "read", 1, 1.0, (1.0,), 1, cold=True)
    monkeypatch.setattr(transfers, "transfers", lambda machine, request, end, notes: (timing, end))

    assert (timing, Endpoint(VAULT, 445)) == _probed(FakeMachine(), **asked).timings
    assert () == _probed(FakeMachine()).timings


def test_a_link_that_went_meanwhile_is_told_as_it_is_now(storage: _Storage) -> None:
    machine = FakeMachine(counters=[{"en5": growth(0, 0, 1)}, {"en5": growth(9, 9, 2)}])
    probe = Probe(machine, Request("vault", seconds=0.01))
    seen = probe.first_look()
    machine.known_interfaces = {"en5": WIRE._replace(carrier=False, mtu=1500)}
    links = probe.closer_look(seen).interfaces

    assert (True, False, 9000) == (seen.interfaces["en5"].carrier, links["en5"].carrier, links["en5"].mtu)
    assert AIR == links["wlan0"]


def test_the_links_are_not_asked_again_where_none_changed(storage: _Storage) -> None:
    machine = FakeMachine()
    _probed(machine)

    assert 1 == machine.asked.count("interfaces")


def test_interfaces_in_use_and_of_the_plan_are_looked_at_closely(storage: _Storage) -> None:
    machine = FakeMachine()
    seen = _probed(machine, ("wlan0", "en9"))

    assert {"detailed en5", "detailed wlan0"} == {word for word in machine.asked if word.startswith("detailed")}
    assert (10**10, 10**9) == seen.interfaces["en5"].offered
    assert seen.interfaces["en5"].mac is not None


def test_an_interface_that_a_session_goes_by_is_looked_at_closely(storage: _Storage) -> None:
    machine = FakeMachine(living=(session()._replace(interface="wlan0"), session()._replace(interface=None)))
    _probed(machine)

    assert {"detailed en5", "detailed wlan0"} == {word for word in machine.asked if word.startswith("detailed")}


def test_the_switch_is_listened_to_only_when_asked_on_the_planned_interface_first(storage: _Storage) -> None:
    port = SwitchPort("wlan0", "core", "7")

    assert _probed(FakeMachine(announced=port)).switch_port is None
    machine = FakeMachine(announced=port)
    assert port == _probed(machine, ("wlan0",), listen_s=1.0).switch_port
    assert "listen wlan0" in machine.asked
    machine = FakeMachine(announced=PrivilegeError("CAP_NET_RAW"))
    assert any("CAP_NET_RAW" in each.why for each in _probed(machine, listen_s=1.0).skipped)
    assert "listen en5" in machine.asked


def test_an_address_without_a_route_is_not_knocked(storage: _Storage) -> None:
    seen = _probed(FakeMachine(routes={VAULT: "Network is unreachable"}))

    assert ([], "Network is unreachable") == (storage.knocked, seen.addresses[0].no_route)


def test_a_guard_of_this_system_is_told_from_a_host_that_is_out_of_reach(storage: _Storage) -> None:
    """Apple, TN3179 Understanding local network privacy: the system's own ping is not guarded."""
    storage.doors = {445: "unreachable", 2049: "unreachable"}
    guarded = _probed(FakeMachine(system="macos"))
    away = _probed(FakeMachine(system="macos", passes=0))
    elsewhere = _probed(FakeMachine())

    assert ["blocked", "unreachable", "unreachable"] == [
        seen.addresses[0].knocks[445].outcome for seen in (guarded, away, elsewhere)
    ]
