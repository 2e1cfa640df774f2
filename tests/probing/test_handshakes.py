"""Handshakes with the storage's services."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pytest
from machines import BY_WIRE, SLOW_VAULT, VAULT

from netaudit.machine.clock import Deadline
from netaudit.machine.knocking import Knocked
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import FarAddress, Knock, Outcome
from netaudit.probing import handshakes

SMB = Endpoint(VAULT, 445)


class _Door:
    """Answers every knock alike and counts them."""

    def __init__(self, outcome: Outcome = "open") -> None:
        self.outcome = outcome
        self.knocked: list[Endpoint] = []

    def __call__(self, ends: Sequence[Endpoint], timeout_s: float, source: object = None) -> Iterator[Knocked]:
        for end in ends:
            self.knocked.append(end)
            yield Knocked(end, self.outcome, 0.001 if self.outcome in ("open", "refused") else None)


@pytest.fixture
def door(monkeypatch: pytest.MonkeyPatch) -> _Door:
    door = _Door()
    monkeypatch.setattr(handshakes, "knocks", door)
    monkeypatch.setattr(handshakes, "pause", lambda seconds: None)
    return door


def test_every_service_of_every_address_that_has_a_route_is_knocked_at_once(door: _Door) -> None:
    addresses = [FarAddress(VAULT, "dns", BY_WIRE), FarAddress(SLOW_VAULT, "dns", None, "Network is unreachable")]
    found = handshakes.knock_all(addresses, (445, 2049), Deadline(5))

    assert [SMB, Endpoint(VAULT, 2049)] == [one.end for one in found] == door.knocked


def test_a_series_goes_on_until_its_time_but_makes_a_few_in_any_case(door: _Door) -> None:
    assert len(handshakes.series(SMB, 10, Deadline(0), Deadline(5))) == 10
    assert len(handshakes.series(SMB, 0, Deadline(5), Deadline(5))) == handshakes.SERIES_AT_MOST
    assert handshakes.series(SMB, 0, Deadline(0), Deadline(5)) == []


def test_the_few_that_are_made_in_any_case_follow_quickly_and_the_others_without_haste(
    door: _Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    pauses_s: list[float] = []
    monkeypatch.setattr(handshakes, "pause", pauses_s.append)
    monkeypatch.setattr(handshakes, "SERIES_AT_MOST", 5)
    handshakes.series(SMB, 3, Deadline(5), Deadline(5))

    assert pytest.approx([0.02, 0.02, 0.1, 0.1, 0.1]) == pauses_s


def test_a_series_ends_with_the_first_silence_and_when_all_time_is_up(door: _Door) -> None:
    assert handshakes.series(SMB, 10, Deadline(5), Deadline(0)) == []
    door.outcome = "silent"

    assert len(handshakes.series(SMB, 10, Deadline(5), Deadline(5))) == 1


def series_of(monkeypatch: pytest.MonkeyPatch, outcomes: Sequence[Outcome | float], until_s: float = 0) -> int:
    """How many handshakes a series of 30 at least makes that end so, and answered at once after that."""
    rest = iter(outcomes)

    def knocks(ends: Sequence[Endpoint], timeout_s: float) -> Iterator[Knocked]:
        then = next(rest, 0.001)
        yield Knocked(ends[0], "open", then) if isinstance(then, float) else Knocked(ends[0], then, None)

    monkeypatch.setattr(handshakes, "knocks", knocks)
    monkeypatch.setattr(handshakes, "pause", lambda seconds: None)
    return len(handshakes.series(SMB, 30, Deadline(until_s), Deadline(5)))


def test_past_its_time_a_series_goes_on_to_its_least_number_though_one_got_lost(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert 30 == series_of(monkeypatch, [0.001, 1.02])
    assert 30 == series_of(monkeypatch, [0.001, "silent"])


def test_two_lost_ones_tell_enough_past_its_time_and_not_before(monkeypatch: pytest.MonkeyPatch) -> None:
    assert 4 == series_of(monkeypatch, [0.001, 1.02, 0.001, "silent"])
    assert handshakes.SERIES_AT_MOST == series_of(monkeypatch, [0.001, 1.02, 0.001, "silent"], until_s=5)


def test_two_silences_in_a_row_end_a_series(monkeypatch: pytest.MonkeyPatch) -> None:
    assert 3 == series_of(monkeypatch, [0.001, "silent", "silent"], until_s=5)


def test_the_answers_of_a_service_are_put_together() -> None:
    rows = [
        Knocked(SMB, "open", 0.0001),
        Knocked(SMB, "open", 1.02),
        Knocked(SMB, "silent", None),
        Knocked(SMB, "open", 0.9),
    ]
    rows += [Knocked(Endpoint(VAULT, 2049), "refused", 0.0002), Knocked(Endpoint(SLOW_VAULT, 445), "silent", None)]
    expected = {
        VAULT: {445: Knock("open", (0.0001, 1.02, 0.9), 3), 2049: Knock("refused", (0.0002,), 0)},
        SLOW_VAULT: {445: Knock("silent", (), 0)},
    }

    assert expected == handshakes.gathered(rows)


def test_a_service_that_answered_once_counts_as_answering() -> None:
    rows = [Knocked(SMB, "silent", None), Knocked(SMB, "refused", 0.1), Knocked(SMB, "unreachable", None)]

    assert {VAULT: {445: Knock("refused", (0.1,), 1)}} == handshakes.gathered(rows)


def test_only_an_answer_of_the_host_has_a_round_trip() -> None:
    rows = [Knocked(SMB, "open", None), Knocked(SMB, "unreachable", 0.5), Knocked(SMB, "open", 0.2)]

    assert {VAULT: {445: Knock("open", (0.2,), 0)}} == handshakes.gathered(rows)


def test_the_largest_segment_is_that_of_the_first_connection_that_tells_it() -> None:
    rows = [Knocked(SMB, "open", 0.1), Knocked(SMB, "open", 0.1, mss=8948), Knocked(SMB, "open", 0.1, mss=1448)]

    assert 8948 == handshakes.gathered(rows)[VAULT][445].mss


def test_only_what_was_accepted_came_from_the_host_for_sure() -> None:
    """A packet filter on this machine may refuse in the host's stead: nft(8), reject statement."""
    outcomes: tuple[Outcome, ...] = ("open", "refused", "silent", "unreachable", "blocked")

    rows = [Knocked(end, outcome, None) for end in (SMB, Endpoint(VAULT, 2049)) for outcome in outcomes]

    assert {VAULT: 2, SLOW_VAULT: 1} == handshakes.accepted([*rows, Knocked(Endpoint(SLOW_VAULT, 445), "open", 0.1)])
