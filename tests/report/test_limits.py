"""Limits as text, on a terminal, and as JSON."""

import io
import json
from pathlib import Path

import jsonschema
import pytest

import netaudit.report
from netaudit.citation import PLAN, Citation
from netaudit.model.limits import Column, IndexLine, LimitAnswer, LimitRow, LimitTable
from netaudit.report.limits import as_json, plain, show

SCHEMA = json.loads((Path(netaudit.report.__file__).parent / "schemas" / "limits.json").read_text(encoding="utf-8"))
TABLE = LimitTable(
    "Reach of things",
    (Column("thing", None), Column("rate", "bit/s"), Column("reach", "m"), Column("root", "dB"), Column("count", "")),
    (
        LimitRow(("string", 10_000_000_000, 37, 1.9108, 4), Citation("Handbook", "table 3", "secondary")),
        LimitRow(("rope", None, "any", 0.00015, 2_000_000), PLAN),
    ),
    ("Things sag",),
)
ANSWER = LimitAnswer(("string",), (), (TABLE,))
INDEX = LimitAnswer((), (IndexLine(("string", "rope"), "a thing: how far"),), (TABLE,))


def test_text_has_title_notes_head_and_a_row_for_each_limit_with_standing_and_the_number_of_its_source() -> None:
    assert plain(ANSWER) == (
        "Reach of things\n"
        "  Things sag.\n"
        "thing   rate                 reach  root        count    standing   source\n"
        "string  10 Gb/s (1250 MB/s)  37 m   1.9108 dB   4        secondary  [1]\n"
        "rope    -                    any    0.00015 dB  2000000  plan       [2]\n"
        "\n"
        "Sources\n"
        "  [1] Handbook, table 3\n"
        "  [2] the plan itself\n"
    )


def test_tables_stand_apart_by_an_empty_line_and_share_the_numbers_of_their_sources() -> None:
    text = plain(LimitAnswer((), (), (TABLE, TABLE)))

    assert (2, 1) == (text.count("Reach of things"), text.count("the plan itself"))
    assert "[2]\n\nReach of things" in text


def test_neighbours_that_differ_in_their_source_alone_share_a_line() -> None:
    sources = [Citation(f"Handbook {number}", None, "memory" if number == 2 else "secondary") for number in range(1, 6)]
    rows = [
        LimitRow((name,), sources[number - 1])
        for name, number in [("a", 1), ("b", 4), *(("a", n) for n in (1, 2, 3, 5))]
    ]
    lines = plain(LimitAnswer((), (), (LimitTable("Things", (Column("thing", None),), tuple(rows)),))).splitlines()

    assert [
        "a      secondary          [1]",
        "b      secondary          [2]",
        "a      secondary, memory  [1] [3-5]",
    ] == lines[2:5]


def test_the_index_comes_before_the_tables_a_line_each() -> None:
    assert plain(INDEX).startswith(
        "What can be asked: netaudit limits WORD...\n  string, rope: a thing: how far\n\nReach of things\n"
    )


@pytest.mark.parametrize("answer", [ANSWER, INDEX])
def test_json_satisfies_its_schema(answer: LimitAnswer) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(as_json(answer)))


def test_json_keeps_numbers_as_they_are_and_nothing_as_null() -> None:
    answer = json.loads(as_json(ANSWER))
    table = answer["tables"][0]

    assert ("netaudit.limits/1", ["string"], []) == (answer["format"], answer["asked"], answer["index"])
    assert ["string", 10_000_000_000, 37, 1.9108, 4] == table["rows"][0]["cells"]
    assert table["rows"][1]["cells"][1] is None
    assert {"name": "thing", "unit": None} == table["columns"][0]
    assert {"document": "Handbook", "clause": "table 3", "standing": "secondary"} == table["rows"][0]["source"]
    assert ["Things sag"] == table["notes"]
    assert as_json(ANSWER).endswith("}\n")


@pytest.mark.parametrize("width", [40, 80, 200])
def test_a_terminal_gets_it_no_wider_than_it_is(width: int) -> None:
    screen = io.StringIO()
    show(INDEX, screen, width)

    lines = screen.getvalue().splitlines()
    assert all(len(line) <= width for line in lines)
    assert "Reach of things" in lines
    assert "What can be asked: netaudit limits WORD..." == " ".join(" ".join(lines[:2]).split())[:42]


def test_a_terminal_shows_what_text_shows() -> None:
    screen = io.StringIO()
    show(ANSWER, screen, 200)

    shown = screen.getvalue().split()
    assert plain(ANSWER).split() == shown
