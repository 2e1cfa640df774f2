"""Labels: both ends of every cable tell where the other one is, and no text of a plan is ever taken for code."""

from __future__ import annotations

import string
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rooms import plan_of, room
from strategies import plans
from wiring import cable, cage, seat, switch, vault, wired

from netaudit.errors import InputError
from netaudit.model.plan import Plan, Rack, RackPosition
from netaudit.ordering.day.label_remarks import label_remarks
from netaudit.ordering.day.labels import PLACEHOLDERS, labels

PLAIN = wired(
    seat("cut-1", room="loft"), switch("core"), cable("C01", "cut-1/wire", "core/1", length_m=5.0, note="blue")
)
BREAKOUT = wired(
    switch("core", {"q": cage(40)}),
    vault("vault", {"a": cage(), "b": cage()}),
    cable("B01", "core/q", ["vault/a", "vault/b"]),
)


def texts(plan: Plan, pattern: str | None = None) -> list[str]:
    """The texts of all labels."""
    return [label.text for label in labels(plan, pattern)]


def complaints(plan: Plan, pattern: str | None = None) -> list[str]:
    """What is said of patterns that cannot be followed."""
    with pytest.raises(InputError) as raised:
        labels(plan, pattern)
    return [str(problem) for problem in raised.value.problems]


def labelled(text: str, **fields: object) -> Plan:
    """The plain room whose cable has a label of its own."""
    cord = PLAIN.cables["C01"]._replace(label=text)
    return replace(PLAIN, cables={"C01": cord}, **fields)


def test_each_end_names_itself_first_and_then_the_other_one() -> None:
    expected = ["C01 cut-1/wire > core/1 6A 5 m", "C01 core/1 > cut-1/wire 6A 5 m"]

    assert expected == texts(PLAIN)


def test_a_breakout_has_a_label_for_its_trunk_and_one_for_each_tail() -> None:
    expected = [
        ("from", "core/q", "B01 core/q > vault/a, vault/b 6A 10 m"),
        ("to", "vault/a", "B01 vault/a > core/q 6A 10 m"),
        ("to", "vault/b", "B01 vault/b > core/q 6A 10 m"),
    ]

    assert expected == [(label.end, str(label.port), label.text) for label in labels(BREAKOUT, None)]


def test_an_unknown_category_or_length_is_left_out() -> None:
    plan = wired(seat("cut-1"), switch("core"), cable("C01", "cut-1/wire", "core/1", "unknown", None))

    assert texts(plan)[0] == "C01 cut-1/wire > core/1"


def test_a_label_without_placeholders_takes_the_place_of_the_id() -> None:
    assert texts(labelled("blue {{1}}"))[0] == "blue {1} cut-1/wire > core/1 6A 5 m"


def test_a_label_with_placeholders_is_the_whole_text_and_goes_before_the_callers() -> None:
    assert texts(labelled("{id}: {from} - {to}"), "{id}") == ["C01: cut-1/wire - core/1"] * 2


def test_the_blank_before_something_unknown_goes_with_it() -> None:
    assert texts(PLAIN, "{id} {far_room} {note}") == ["C01 blue", "C01 loft blue"]


def test_a_room_is_that_of_the_rack_where_the_device_names_none() -> None:
    core = switch("core", rack=RackPosition("bay", 3))
    plan = wired(seat("cut-1"), core, cable("C01", "cut-1/wire", "core/1"), racks={"bay": Rack("bay", room="boat bay")})

    assert texts(plan, "{id} {near_room}") == ["C01", "C01 boat bay"]


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.one_of(
            st.sampled_from(["{id}", "{near}", "{far_port}", "{length}", "{note}", "{category}", "{near_room}"]),
            st.sampled_from(["{{", "}}", "-", "x", "é"]),
        ),
        min_size=1,
    )
)
def test_a_pattern_reads_as_pythons_own_format_strings_do(parts: list[str]) -> None:
    """Source: Python's string.Formatter, on values that are all known."""
    pattern = "{id}" + "".join(parts)
    values = {
        "id": "C01", "near": "cut-1/wire", "far_port": "1", "length": "5 m", "note": "blue", "category": "6A",
        "near_room": "loft",
    }  # fmt: skip

    assert string.Formatter().vformat(pattern, (), values) == texts(PLAIN, pattern)[0]


@pytest.mark.parametrize("name", ["{id.__class__}", "{0}", "{}", "{near!r}", "{id:>99999999}", "{ID}", "{near[0]}"])
def test_only_the_placeholders_themselves_may_stand_in_braces(name: str) -> None:
    (complaint,) = complaints(PLAIN, name)

    assert complaint.startswith(f"--label: '{name}' in '{name}' is no placeholder")
    assert all(f"{{{known}}}" in complaint for known in PLACEHOLDERS)


def test_names_in_braces_are_names_and_nothing_else() -> None:
    plan = wired(seat("{near}"), switch("core"), cable("{note}", "{near}/wire", "core/1", length_m=None, note="{id}"))

    assert texts(plan, "{id} {near} {note}")[0] == "{note} {near}/wire {id}"


def test_a_lone_brace_is_told_with_its_remedy() -> None:
    (complaint,) = complaints(PLAIN, "{id} }")

    assert complaint.startswith(
        "--label: a lone '}' in '{id} }': write '}}' for the brace itself; placeholders are {id},"
    )


def test_every_wrong_pattern_is_told_at_its_line_with_the_nearest_placeholder() -> None:
    text = room(
        cables="  X01: {from: core/3, to: core/4, label: '{lenght} {rom'}\n  X02: {from: core/5, to: core/6, label: '{'}"
    )
    plan = plan_of(text)
    line = 1 + next(number for number, row in enumerate(text.splitlines()) if "X01" in row)

    told = complaints(plan, "{farr}")

    assert len(told) == 4
    assert told[0].startswith("--label: '{farr}' in '{farr}' is no placeholder; did you mean {far}?")
    assert told[1].startswith(
        f"room.yaml:{line}:3: cables.X01.label: '{{lenght}}' in '{{lenght}} {{rom' is no placeholder;"
    )
    assert "did you mean {length}?" in told[1]
    assert told[2].startswith(f"room.yaml:{line}:3: cables.X01.label: a lone '{{' in")
    assert told[3].startswith(f"room.yaml:{line + 1}:3: cables.X02.label: a lone '{{' in '{{'")


@settings(max_examples=40, deadline=None)
@given(plans())
def test_every_end_of_any_plan_has_a_label_of_its_own_that_names_both_ends(plan: Plan) -> None:
    bare = replace(plan, cables={name: one._replace(label=None) for name, one in plan.cables.items()})
    found = labels(bare, None)

    assert [(name, end) for name, one in bare.cables.items() for end in one.ends] == [
        (each.cable, each.port) for each in found
    ]
    assert len({each.text for each in found}) == len(found)
    assert all(str(port) in each.text for each in found for port in (each.port, *each.far))
    assert not [remark for remark in label_remarks(found) if "longer" not in remark]
