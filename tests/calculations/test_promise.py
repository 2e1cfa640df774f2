"""How several limits come to one promise."""

import pytest

from netaudit.calculations.promise import Promise, firm, gravest
from netaudit.citation import Citation, Standing
from netaudit.model.finding import Measure

LIMIT = Measure(55, "m")


@pytest.mark.parametrize(
    ("standing", "answer"),
    [
        ("read", "no"),
        ("secondary", "no"),
        ("computed", "no"),
        ("plan", "no"),
        ("memory", "undecided"),
        ("common practice", "undecided"),
    ],
)
def test_only_a_firm_figure_may_refuse(standing: Standing, answer: str) -> None:
    source = Citation("A handbook", None, standing)
    promise = firm(Promise("no", LIMIT, source, "length"))
    assert (promise.answer, promise.limit, promise.source, promise.why) == (answer, LIMIT, source, "length")


def test_a_refusal_that_needs_no_document_stands() -> None:
    refusal = Promise("no", None, None, "grade")
    assert firm(refusal) == refusal


def test_a_refusal_outweighs_a_doubt_and_a_doubt_outweighs_a_yes() -> None:
    kept, doubt, refusal = (Promise(answer, LIMIT, None, answer) for answer in ("yes", "undecided", "no"))
    assert gravest([], kept) == kept
    assert gravest([doubt], kept) == doubt
    assert gravest([doubt, refusal], kept) == refusal


def test_of_equal_objections_the_first_is_told() -> None:
    first, second = (Promise("no", LIMIT, None, why) for why in ("length", "loss"))
    assert gravest([first, second], Promise("yes", LIMIT, None, "length")) == first
