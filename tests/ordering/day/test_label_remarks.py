"""What is doubtful about labels is told: equal texts, texts of one end only, texts too long to be read."""

from __future__ import annotations

from dataclasses import replace

from wiring import cable, seat, switch, wired

from netaudit.model.plan import Plan
from netaudit.ordering.day.label_remarks import LONGEST_TEXT, label_remarks
from netaudit.ordering.day.labels import labels

PLAIN = wired(seat("cut-1"), switch("core"), cable("C01", "cut-1/wire", "core/1", length_m=5.0))


def labelled(text: str) -> Plan:
    """The plain room whose cable has a label of its own."""
    return replace(PLAIN, cables={"C01": PLAIN.cables["C01"]._replace(label=text)})


def test_equal_texts_at_different_ends_are_told_with_their_ends() -> None:
    told = label_remarks(labels(PLAIN, "{id} {from} {to}"))

    assert told == (
        "The label 'C01 cut-1/wire core/1' stands at 2 ends: C01 at cut-1/wire, C01 at core/1; add {near} to tell them "
        "apart.",
    )


def test_many_equal_texts_are_counted_and_not_told_one_by_one() -> None:
    cords = [cable(f"C{number}", f"cut-{number}/wire", f"core/{number}") for number in range(1, 31)]
    plan = wired(switch("core", 30), *(seat(f"cut-{number}") for number in range(1, 31)), *cords)

    told = label_remarks(labels(plan, "{id} {from} {to}"))

    assert len(told) == 11
    assert told[-1] == "20 more labels stand at several ends each; add {near} to tell them apart."
    assert 10 == len(label_remarks(labels(wired(*plan.devices.values(), *cords[:10]), "{id} {from} {to}")))


def test_texts_that_name_one_end_only_are_told() -> None:
    (told,) = label_remarks(labels(PLAIN, "{near}"))

    assert told.startswith(
        "2 labels do not name both ends as device/port, the first being 'cut-1/wire' of C01 at cut-1/wire"
    )


def test_texts_too_long_to_be_read_on_a_cable_are_told() -> None:
    long = "x" * (LONGEST_TEXT + 1 - len("cut-1/wire > core/1 6A 5 m "))
    (told,) = label_remarks(labels(labelled(long), None))

    assert told.startswith("2 labels are longer than 60 characters and will be small in print; the longest, of C01 at")
    assert label_remarks(labels(labelled(long[1:]), None)) == ()


def test_of_texts_too_long_the_longest_is_told() -> None:
    cords = [cable(name, f"{name.lower()}/wire", f"core/{len(name)}") for name in ("C" * 50, "D" * 55, "E" * 52)]
    plan = wired(switch("core", 60), *(seat(each.from_port.device) for each in cords), *cords)

    assert f"the longest, of {'D' * 55} at " in label_remarks(labels(plan, None))[-1]
