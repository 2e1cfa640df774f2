"""Listening to several pipes: both ways keep to the same rules."""

import os
import threading
from collections.abc import Iterator, Sequence
from typing import IO, NamedTuple

import pytest

from netaudit.machine.hearing import CHUNK_BYTES, CHUNKS_AT_MOST, Hearing, PolledPipes, ThreadedPipes, listen_to

WAYS = [ThreadedPipes, *([PolledPipes] if os.name == "posix" else [])]


class Pipes(NamedTuple):
    hearing: Hearing
    writers: Sequence[IO[bytes]]


@pytest.fixture(params=WAYS)
def pipes(request: pytest.FixtureRequest) -> Iterator[Pipes]:
    ends = [os.pipe() for _ in range(2)]
    writers = [os.fdopen(writer, "wb", buffering=0) for _, writer in ends]
    hearing = request.param([os.fdopen(reader, "rb", buffering=0) for reader, _ in ends])
    yield Pipes(hearing, writers)
    for writer in writers:
        writer.close()
    hearing.close()


def all_heard(pipes: Pipes) -> list[tuple[int, bytes]]:
    heard = []
    while pipes.hearing.open:
        heard += pipes.hearing.hear(5)
    return heard


def test_what_comes_is_told_apart_by_its_pipe(pipes: Pipes) -> None:
    pipes.writers[1].write(b"error")
    first = pipes.hearing.hear(5)
    pipes.writers[0].write(b"answer")
    second = pipes.hearing.hear(5)

    assert [[(1, b"error")], [(0, b"answer")]] == [first, second]


def test_silence_is_empty_and_the_pipes_stay_open(pipes: Pipes) -> None:
    assert [] == pipes.hearing.hear(0) == pipes.hearing.hear(0.01)
    assert pipes.hearing.open


def test_one_pipe_that_ends_leaves_the_other_open(pipes: Pipes) -> None:
    pipes.writers[0].close()

    assert [] == pipes.hearing.hear(0.1)
    assert pipes.hearing.open
    pipes.writers[1].write(b"still here")
    assert [(1, b"still here")] == pipes.hearing.hear(5)


def test_it_is_over_once_every_writer_has_closed(pipes: Pipes) -> None:
    pipes.writers[0].write(b"last words")
    for writer in pipes.writers:
        writer.close()

    assert [(0, b"last words")] == all_heard(pipes)
    assert [] == pipes.hearing.hear(5)


def test_closing_leaves_nothing_to_hear(pipes: Pipes) -> None:
    pipes.writers[0].write(b"unheard")
    pipes.hearing.close()

    assert not pipes.hearing.open
    assert [] == pipes.hearing.hear(5)


def test_a_thread_ends_with_its_writer_even_where_nobody_hears_what_it_read() -> None:
    before = set(threading.enumerate())
    reader, writer = os.pipe()
    hearing = ThreadedPipes([os.fdopen(reader, "rb", buffering=0)])
    own = set(threading.enumerate()) - before
    with os.fdopen(writer, "wb", buffering=0) as pipe:
        talker = threading.Thread(target=_talk, args=(pipe, (CHUNKS_AT_MOST + 4) * CHUNK_BYTES))
        talker.start()
        while not hearing.hear(5):
            pass
        hearing.close()
        talker.join(timeout=20)
    for thread in own:
        thread.join(timeout=20)

    assert not [thread for thread in (*own, talker) if thread.is_alive()]


def _talk(pipe: IO[bytes], count: int) -> None:
    try:
        for _ in range(count // CHUNK_BYTES):
            pipe.write(bytes(CHUNK_BYTES))
    except BrokenPipeError:
        return


@pytest.mark.skipif(os.name != "posix", reason="other systems wait for one pipe at a time")
def test_a_system_that_can_wait_for_several_pipes_needs_no_thread() -> None:
    before = threading.active_count()
    reader, writer = os.pipe()
    hearing = listen_to([os.fdopen(reader, "rb", buffering=0)])
    os.close(writer)
    during = threading.active_count()
    hearing.close()

    assert before == during
