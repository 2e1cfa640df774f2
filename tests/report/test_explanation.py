"""A rule explained in each form."""

from __future__ import annotations

import io
import json
from collections.abc import Callable

import jsonschema
import pytest
from rooms import report_of, room

from netaudit.citation import OBSERVED, PLAN, Citation
from netaudit.model.explanation import ChangedLine, Explanation, LiveExplanation, RuleOutline
from netaudit.model.finding import Finding
from netaudit.model.place import Place
from netaudit.report.explanation import (
    STANDINGS,
    Row,
    explanation_json,
    explanation_rows,
    live_json,
    live_rows,
    outline_rows,
    outlines_json,
    plain_rows,
    show_rows,
)
from netaudit.report.schema import answer_schema

OUTLINES = (
    RuleOutline("no-path", "paths", "fail", "A seat without a road."),
    RuleOutline("category-too-low", "cabling", "fail", "A category that [red]is[/] too low."),
    RuleOutline("earths-joined", "cabling", "warn", "Copper between two buildings."),
)


@pytest.fixture
def explained() -> Explanation:
    """A rule with an example whose wall cable is of too low a category."""
    faulty, cured = room(wall="5e"), room()
    changes = [
        ChangedLine(number, now)
        for number, (was, now) in enumerate(zip(faulty.splitlines(), cured.splitlines(), strict=True), 1)
        if was != now
    ]
    return Explanation(
        outline=OUTLINES[1],
        why="It [bold]matters[/].",
        todo="Replace it.",
        sources=(Citation("A standard", "clause 3", "secondary"), Citation("A habit", None, "common practice"), PLAN),
        example=faulty,
        struck=report_of(faulty),
        cure=tuple(changes),
        cured=report_of(cured),
    )


@pytest.fixture
def live() -> LiveExplanation:
    """A live rule with a desk at which it strikes."""
    outline = RuleOutline("carrier-lost", "live", "fail", "A planned port whose link is gone.")
    finding = Finding(
        outline.name,
        "fail",
        (Place("interface", "en5"),),
        "en5 has no link",
        "Plug it in.",
        Citation("Seen", None, "read"),
    )
    return LiveExplanation(
        outline,
        "It matters.",
        "Look.",
        (PLAN,),
        story="Somebody pulled the [b]cord[/].",
        answer="Nothing reaches vault.",
        findings=(finding,),
        cured_answer="vault is reached by en5.",
        left=(),
    )


def shown(rows: object, width: int) -> str:
    file = io.StringIO()
    show_rows(rows, file, width)  # type: ignore[arg-type]
    return file.getvalue()


def words_of(text: str) -> list[str]:
    return text.split()


def test_the_plain_form_opens_with_the_rule_and_what_it_does_to_a_plan(explained: Explanation) -> None:
    assert plain_rows(explanation_rows(explained)).startswith(
        "category-too-low (cabling): fails a plan\n\n  looks for  A"
    )


def test_every_source_stands_with_how_it_is_known(explained: Explanation) -> None:
    lines = plain_rows(explanation_rows(explained)).splitlines()
    first = lines.index("Where its limits come from")

    assert [
        "  A standard, clause 3 (read in a text that quotes it)",
        "  A habit (common practice, so that it can only warn)",
        "  the plan itself (no published figure is needed)",
    ] == lines[first + 1 : first + 4]


@pytest.mark.parametrize(("standing", "meaning"), STANDINGS.items())
def test_a_standing_that_may_not_fail_a_plan_says_so(standing: str, meaning: str) -> None:
    may_fail = Citation("A document", None, standing).may_fail  # type: ignore[arg-type]

    assert may_fail != meaning.endswith("so that it can only warn")


def test_the_example_is_shown_whole_and_numbered_with_a_mark_at_the_fault(explained: Explanation) -> None:
    lines = plain_rows(explanation_rows(explained)).splitlines()
    first = lines.index("A plan in which it strikes") + 1
    example = explained.example.splitlines()
    (fault,) = (changed.line for changed in explained.cure)
    told = lines[first : first + len(example)]

    assert [f"{number:>5}  {line}".rstrip() for number, line in enumerate(example, 1)] == [
        line.replace(">", " ", 1) if number == fault else line for number, line in enumerate(told, 1)
    ]
    assert told[fault - 1].startswith(f">{fault:>4}  ")


def test_the_finding_is_told_with_its_proof_and_its_remedy(explained: Explanation) -> None:
    text = plain_rows(explanation_rows(explained))
    (finding,) = explained.findings

    assert f"  fail: category-too-low at cable W01, line {finding.line}\n    {finding.message}.\n" in text
    assert f"    To do: {finding.remedy}\n" in text
    assert "path-below-target" not in text


def test_the_cure_is_proved_by_the_verdict_on_the_cured_plan(explained: Explanation) -> None:
    assert "  category-too-low no longer strikes, and nothing fails: cut-1 is good; " in plain_rows(
        explanation_rows(explained)
    )


def test_a_cure_that_does_not_cure_is_not_called_one(explained: Explanation) -> None:
    still = plain_rows(explanation_rows(explained._replace(cured=explained.struck)))
    one_left = explained.struck._replace(summary=explained.struck.summary._replace(fail=1))

    assert "category-too-low still strikes, and 2 things fail: cut-1 will not hold" in still
    assert "and 1 thing fails: " in plain_rows(explanation_rows(explained._replace(cured=one_left)))


def test_a_line_that_goes_is_told_as_such(explained: Explanation) -> None:
    assert ">   7  (this line goes)\n" in plain_rows(explanation_rows(explained._replace(cure=(ChangedLine(7, ""),))))


def test_a_finding_without_a_line_is_told_without_one(explained: Explanation) -> None:
    findings = tuple(finding._replace(line=None) for finding in explained.struck.findings)
    bare = explained._replace(struck=explained.struck._replace(findings=findings))

    assert "  fail: category-too-low at cable W01\n" in plain_rows(explanation_rows(bare))


def test_all_rules_stand_under_their_families_in_a_line_each() -> None:
    assert plain_rows(outline_rows(OUTLINES)).splitlines() == [
        "3 rules: netaudit explain RULE shows one strike, and cures it.",
        "fail fails a plan or a probe, warn is a warning, note is worth knowing.",
        "",
        "paths",
        "  no-path           fail  A seat without a road.",
        "",
        "cabling",
        "  category-too-low  fail  A category that [red]is[/] too low.",
        "  earths-joined     warn  Copper between two buildings.",
    ]


@pytest.mark.parametrize("width", [20, 40, 80, 160])
def test_a_terminal_shows_every_word_and_no_line_is_wider(explained: Explanation, width: int) -> None:
    for rows in (list(explanation_rows(explained)), list(outline_rows(OUTLINES))):
        text = shown(rows, width)

        assert width >= max(map(len, text.splitlines()))
        if width >= 80:
            assert sorted(words_of(plain_rows(rows))) == sorted(words_of(text))


def test_a_terminal_wraps_a_text_beside_its_margin() -> None:
    assert ["  because  one two", "           three"] == [
        line.rstrip() for line in shown([Row("  because  ", "one two three")], 22).splitlines()
    ]


def test_markup_is_shown_and_not_obeyed(explained: Explanation) -> None:
    assert "It [bold]matters[/]." in shown(explanation_rows(explained), 100)
    assert "[red]is[/]" in shown(outline_rows(OUTLINES), 100)


def test_json_holds_the_findings_as_a_report_does(explained: Explanation) -> None:
    values = json.loads(explanation_json(explained))
    schema = json.loads(answer_schema("report"))
    finding = {"$schema": schema["$schema"], "$defs": schema["$defs"], "$ref": "#/$defs/finding"}

    jsonschema.Draft202012Validator(finding).validate(values["example"]["findings"][0])
    assert "netaudit.explanation/1" == values["format"]
    assert ["category-too-low", "cabling", "fail"] == [values[key] for key in ("name", "family", "severity")]
    assert ["secondary", "common practice", "plan"] == [source["standing"] for source in values["sources"]]
    assert explained.example == values["example"]["plan"]
    assert ["pass", []] == [values["cure"]["verdict"], values["cure"]["findings"]]
    assert [changed._asdict() for changed in explained.cure] == values["cure"]["lines"]


def test_json_lists_every_rule() -> None:
    values = json.loads(outlines_json(OUTLINES))

    assert "netaudit.rules/1" == values["format"]
    assert [outline._asdict() for outline in OUTLINES] == values["rules"]


@pytest.mark.parametrize("make", [explanation_json, lambda _: outlines_json(OUTLINES)])
def test_json_ends_with_a_line_feed(explained: Explanation, make: Callable[[Explanation], str]) -> None:
    assert make(explained).endswith("}\n")


def test_a_live_rule_is_told_with_its_story_its_finding_and_the_silence_of_a_desk_in_order(
    live: LiveExplanation,
) -> None:
    assert plain_rows(live_rows(live)).splitlines() == [
        "carrier-lost (live): fails a probe",
        "",
        "  looks for  A planned port whose link is gone.",
        "  because    It matters.",
        "  to do      Look.",
        "",
        "A desk at which it strikes",
        "  Somebody pulled the [b]cord[/].",
        "",
        "What probe says of it",
        "  Nothing reaches vault.",
        "  fail: carrier-lost at interface en5",
        "    en5 has no link.",
        "    source: Seen (read).",
        "    To do: Plug it in.",
        "",
        "The same desk in order",
        "  carrier-lost says nothing: vault is reached by en5.",
        "",
        "Where its limits come from",
        "  the plan itself (no published figure is needed)",
    ]


def test_what_a_probe_saw_is_no_document(live: LiveExplanation) -> None:
    text = plain_rows(live_rows(live._replace(sources=(OBSERVED,))))

    assert text.endswith("  what this machine and the storage answered just now (no published figure is needed)\n")


def test_a_live_rule_that_strikes_a_desk_in_order_is_not_called_silent(live: LiveExplanation) -> None:
    assert "  carrier-lost still strikes: vault is reached by en5.\n" in plain_rows(
        live_rows(live._replace(left=live.findings))
    )


def test_json_tells_the_story_of_a_live_rule(live: LiveExplanation) -> None:
    values = json.loads(live_json(live))

    assert ["netaudit.live-explanation/1", "carrier-lost"] == [values["format"], values["name"]]
    assert live.story == values["example"]["story"]
    assert ["en5 has no link"] == [finding["message"] for finding in values["example"]["findings"]]
    assert ["Nothing reaches vault.", "vault is reached by en5."] == [
        values[part]["sentence"] for part in ("example", "cure")
    ]
    assert [] == values["cure"]["findings"]
    assert live_json(live).endswith("}\n")
