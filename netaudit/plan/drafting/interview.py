"""Interviews: the answers of a whole conversation, and those of a file, with every error told at its place."""

from __future__ import annotations

from netaudit.model.plan import Pool
from netaudit.plan.drafting.answers import Answers, Run, Seat
from netaudit.plan.drafting.questions import QUESTIONS
from netaudit.plan.drafting.readers import rooms_given
from netaudit.plan.drafting.replies import Given, ReplyError
from netaudit.plan.reading.files import decoded
from netaudit.plan.reading.problems import Problems, StoppedError
from netaudit.plan.reading.raw import Spot
from netaudit.plan.reading.read import Contents, read
from netaudit.plan.scalars.text import quoted

ANSWERS = Contents("a file of answers", "a question's key, such as 'seats: 3'")
"""What a file of answers is; `{}` takes every default."""


def answers_of(given: Given) -> Answers:
    """The answers, once every question has its value."""
    of_seats = zip(given["seats"], given["systems"], given["wants"], given["rooms"], strict=True)
    of_rooms = zip(rooms_given(given), given["distances"], given["walls"], strict=True)
    disks = None
    if given["drives"] is not None:
        disks = Pool(given["drives"], given["drive_size"], given["drive_read"], layout=given["layout"])
    return Answers(
        name=given["name"],
        seats=tuple(Seat(*facts) for facts in of_seats),
        runs={room: Run(*facts) for room, *facts in of_rooms},
        switched=given["switch"],
        storage=given["storage"],
        storage_port=given["storage_port"],
        storage_rate_bit_per_s=given["storage_rate"],
        disks=disks,
        wifi=given["wifi"],
        office_subnet=given["office_subnet"],
    )


def answers_in(text: str | bytes, file: str) -> Answers:
    """The answers in a text, questions that it leaves out answered by their defaults.

    Raises InputError with every problem of the text, in its order, where there is any.
    """
    problems = Problems(file)
    try:
        top = read(decoded(text, file), problems, ANSWERS).spot
        given = _given(top, problems)
    except StoppedError:
        raise problems.error() from None
    if problems:
        raise problems.error()
    return answers_of(given)


def _given(top: Spot, problems: Problems) -> Given:
    known = {question.key: None for question in QUESTIONS}
    for key, index, spot in top.entries():
        if key not in known:
            message = f"{quoted(key)} is not a question: the questions are {' '.join(known)}"
            problems.add(index, spot.path, message, key, known)
    given: dict[str, object] = {}
    unsound: set[str] = set()
    for question in QUESTIONS:
        reply = top.get(question.key)
        try:
            given[question.key] = question.read(reply.raw if reply else question.default_text(given), given)
        except ReplyError as error:
            _tell(error, reply or top, unsound, problems)
            unsound.add(question.key)
            given[question.key] = question.read(question.default_text(given), given)
    return given


def _tell(error: ReplyError, spot: Spot, unsound: set[str], problems: Problems) -> None:
    """Note what is wrong in a reply, but not how it clashes with one that is itself wrong."""
    for misfit in error.misfits:
        if unsound.isdisjoint(misfit.clashes_with):
            at = spot if misfit.nth is None else spot.get(misfit.nth) or spot
            problems.add(at.index, at.path, misfit.message)
