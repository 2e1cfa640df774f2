"""Reading and writing one file, bounded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pytest
from machines import VAULT, FakeMachine, growth, session

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.files import Step
from netaudit.machine.knocking import Knocked
from netaudit.model.machine_state import Endpoint
from netaudit.probing import transfers as room
from netaudit.probing.asking import Notebook
from netaudit.probing.request import TRANSFER_BYTES, Request
from netaudit.probing.transfers import STEP_BYTES, WARM_BYTES, transfers

SMB = Endpoint(VAULT, 445)


class _Transfer:
    """A transfer that brings the steps it was given and then is done."""

    begun: list[tuple[str, str, int, int]]
    steps_each: Sequence[Step] = (Step(STEP_BYTES, 0.01), Step(STEP_BYTES, 0.02))
    failure: str | None = None
    left_behind: str | None = None

    def __init__(self, path: str, direction: str, most_bytes: int, step_bytes: int) -> None:
        type(self).begun.append((path, direction, most_bytes, step_bytes))
        self.done = False
        self.failed, self.cpu_share, self.left = None, 0.5, None

    def __enter__(self) -> _Transfer:
        return self

    def __exit__(self, *_: object) -> None:
        self.left = self.left_behind

    def steps(self, timeout_s: float) -> list[Step]:
        if self.steps_each and not self.done:
            self.done, self.failed = True, self.failure
            return list(self.steps_each)
        self.done, self.failed = True, self.failure
        return []


@pytest.fixture
def transfer(monkeypatch: pytest.MonkeyPatch) -> type[_Transfer]:
    fake = type("Fake", (_Transfer,), {"begun": []})
    monkeypatch.setattr(room, "Transfer", fake)
    monkeypatch.setattr(room, "pick", lambda folder, least_bytes, timeout_s: f"{folder}/take-1.mov")
    return fake


def _made(request: Request, end: Endpoint | None = None, machine: FakeMachine | None = None):
    notes = Notebook(Deadline(20))
    counters = [{"en5": growth(0, 0)}, {"en5": growth(10, 2 * STEP_BYTES), "wlan0": growth(1, 1)}]
    return transfers(machine or FakeMachine(counters=counters), request, end, notes), notes


def test_nothing_is_read_or_written_unasked(transfer: type[_Transfer]) -> None:
    assert ((), []) == (_made(Request("/mnt"))[0], transfer.begun)


def test_a_file_is_read_cold_and_the_same_part_once_more(transfer: type[_Transfer]) -> None:
    timings, _ = _made(Request("/mnt", read=True))

    assert [
        ("/mnt/take-1.mov", "read", WARM_BYTES, STEP_BYTES),
        ("/mnt/take-1.mov", "read", 2 * STEP_BYTES, STEP_BYTES),
    ] == transfer.begun
    assert [(True, 2 * STEP_BYTES, (0.01, 0.02)), (False, 2 * STEP_BYTES, (0.01, 0.02))] == [
        (timing.cold, timing.bytes, timing.steps_s) for timing in timings
    ]


def test_the_busiest_interface_is_told_with_what_it_moved(transfer: type[_Transfer]) -> None:
    cold = _made(Request("/mnt", read=True))[0][0]

    assert ("en5", 2 * STEP_BYTES, 10, 0.5) == (cold.interface, cold.received_bytes, cold.sent_bytes, cold.cpu_share)


def test_an_interface_whose_counter_is_not_told_or_that_carried_little_is_not_the_busiest(
    transfer: type[_Transfer],
) -> None:
    before = {"en9": growth(0, None), "wlan0": growth(0, 5), "en5": growth(0, 100)}
    slight = before | {"wlan0": growth(900, 6)}
    busy = slight | {"en5": growth(9, 300)}

    assert [("en5", 200), ("wlan0", 1)] == [
        (timing.interface, timing.received_bytes)
        for after in (busy, slight)
        for timing in _made(Request("/mnt", read=True), machine=FakeMachine(counters=[before, after]))[0]
        if timing.cold
    ]


def test_one_file_is_written_in_the_other_direction(transfer: type[_Transfer]) -> None:
    timings, _ = _made(Request("/mnt", write=True))

    assert [("/mnt", "write", TRANSFER_BYTES, STEP_BYTES)] == transfer.begun
    assert [("write", None)] == [(timing.direction, timing.cold) for timing in timings]


def test_waiting_for_the_storage_to_have_everything_is_no_step(transfer: type[_Transfer]) -> None:
    transfer.steps_each = (Step(STEP_BYTES, 0.01), Step(0, 2.0))

    assert (0.01,) == _made(Request("/mnt", write=True))[0][0].steps_s


def test_no_file_that_is_large_enough_is_noted(transfer: type[_Transfer], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "pick", lambda *_: None)
    timings, notes = _made(Request("/mnt", read=True))

    assert ((), ["no file large enough lies there"]) == (timings, [each.why for each in notes.skipped])
    assert "give a folder or a file of at least 64 MiB" == notes.skipped[0].remedy


def test_a_share_that_is_silent_is_noted_once(transfer: type[_Transfer], monkeypatch: pytest.MonkeyPatch) -> None:
    def silent(*_: object) -> None:
        raise AnswerError("/mnt did not answer")

    monkeypatch.setattr(room, "pick", silent)
    timings, notes = _made(Request("/mnt", read=True))

    assert ((), ["/mnt did not answer"]) == (timings, [each.why for each in notes.skipped])


def test_a_file_that_cannot_be_read_is_noted_in_the_systems_words(transfer: type[_Transfer]) -> None:
    transfer.steps_each, transfer.failure = (), "Permission denied"
    timings, notes = _made(Request("/mnt", read=True))

    assert ((), ["Permission denied"]) == (timings, [each.why for each in notes.skipped])


def test_a_test_file_that_could_not_be_removed_is_named(transfer: type[_Transfer]) -> None:
    transfer.left_behind = "/mnt/.netaudit-1"

    assert ["remove /mnt/.netaudit-1 by hand"] == [
        each.remedy for each in _made(Request("/mnt", write=True))[1].skipped
    ]


def test_handshakes_are_made_while_a_file_is_on_its_way(
    transfer: type[_Transfer], monkeypatch: pytest.MonkeyPatch
) -> None:
    def slowly(self: _Transfer, timeout_s: float) -> list[Step]:
        self.done = len(knocked) >= 3
        return [Step(STEP_BYTES, 0.01)]

    def knock(ends: Sequence[Endpoint], timeout_s: float) -> Iterator[Knocked]:
        knocked.append(ends[0])
        yield Knocked(ends[0], "open", 0.001)

    knocked: list[Endpoint] = []
    monkeypatch.setattr(room, "knocks", knock)
    monkeypatch.setattr(transfer, "steps", slowly)
    timings, _ = _made(Request("/mnt", write=True), SMB)

    assert ((0.001,) * 3, [SMB] * 3) == (timings[0].handshakes_s, knocked)


def test_a_step_that_was_waited_for_in_vain_counts_with_the_time_it_was_waited_for(
    transfer: type[_Transfer], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(transfer, "steps", lambda self, timeout_s: [])
    monkeypatch.setattr(room, "TRANSFER_S", 0.05)
    [timing] = _made(Request("/mnt", write=True))[0]

    assert (0, 1, None) == (timing.bytes, len(timing.steps_s), timing.rate_bit_per_s)
    assert timing.steps_s[0] > 0.04


@pytest.mark.parametrize(
    ("done", "took_s", "steps_s"), [(True, 0.5, (0.25,)), (False, 0.5, (0.25, 0.25)), (False, 0.25, (0.25,))]
)
def test_only_a_file_that_is_not_whole_was_waited_for_in_vain(
    transfer: type[_Transfer],
    monkeypatch: pytest.MonkeyPatch,
    done: bool,
    took_s: float,
    steps_s: tuple[float, ...],
) -> None:
    def steps(self: _Transfer, timeout_s: float) -> list[Step]:
        self.done = done
        return [] if clock.pop() else [Step(STEP_BYTES, 0.25)]

    clock = [*[1] * 99_999, 0]
    monkeypatch.setattr(transfer, "steps", steps)
    monkeypatch.setattr(room, "TRANSFER_S", 0.01)
    monkeypatch.setattr(room, "now_s", iter([100.0, 100.0 + took_s]).__next__)
    [timing] = _made(Request("/mnt", write=True))[0]

    assert (took_s, steps_s) == (timing.seconds, timing.steps_s)


def test_what_the_sessions_did_meanwhile_is_told(transfer: type[_Transfer]) -> None:
    machine = FakeMachine(living=(session(received_bytes=7),), counters=[{"en5": growth(0, 0)}])
    [timing] = _made(Request("/mnt", write=True), SMB, machine)[0]

    assert {("10.44.20.11:50001", "10.44.20.10:445"): 0} == {
        ends: grew.received_bytes for ends, grew in timing.sessions.items()
    }
