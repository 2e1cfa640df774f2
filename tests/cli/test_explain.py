"""`netaudit explain`: rules as a person asks for them."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from netaudit.cli.explain import RULES, explain
from netaudit.rules.catalogue import RULES as PLAN_RULES
from netaudit.rules.examples import example_of
from netaudit.rules.live import RULES as LIVE_RULES
from netaudit.rules.live.examples import example_of as live_example_of


def test_a_rule_is_explained_with_its_example_and_its_cure(run, expect: Callable[[str, str], None]) -> None:
    done = run("explain", "category-too-low")

    assert 0 == done.code
    expect("explain-category-too-low.txt", done.out)


@pytest.mark.parametrize("rule", PLAN_RULES, ids=lambda rule: rule.name)
def test_every_rule_is_explained_and_its_cure_is_proved(run, rule) -> None:
    done = run("explain", rule.name)

    assert (0, "") == (done.code, done.err)
    assert all(text in done.out for text in (rule.what, rule.why, rule.todo))
    assert f"\n  {rule.severity}: {rule.name} at " in done.out
    assert f"\n  {rule.name} no longer strikes, and nothing fails: " in done.out


@pytest.mark.parametrize("rule", PLAN_RULES, ids=lambda rule: rule.name)
def test_the_cure_changes_exactly_the_lines_with_a_note(run, rule) -> None:
    values = json.loads(run("explain", rule.name, "--format", "json").out)
    noted = [number for number, line in enumerate(example_of(rule.name).text.splitlines(), 1) if "# good: " in line]

    assert noted == [changed["line"] for changed in values["cure"]["lines"]]
    assert not any("# good: " in changed["text"] for changed in values["cure"]["lines"])


@pytest.mark.parametrize("rule", LIVE_RULES, ids=lambda rule: rule.name)
def test_every_live_rule_is_shown_to_strike_its_desk_and_to_be_silent_at_one_in_order(run, rule) -> None:
    done = run("explain", rule.name)
    story = live_example_of(rule.name).story

    assert (0, "") == (done.code, done.err)
    assert all(text in done.out for text in (rule.what, rule.why, rule.todo, story))
    assert f"\n  {rule.severity}: {rule.name} at " in done.out
    assert f"\n  {rule.name} says nothing: " in done.out


def test_a_live_rule_is_explained_as_it_was(run, expect: Callable[[str, str], None]) -> None:
    expect("explain-traffic-on-wireless.txt", run("explain", "traffic-on-wireless").out)


def test_a_live_rule_can_be_had_as_json(run) -> None:
    values = json.loads(run("explain", "carrier-lost", "--format", "json").out)

    assert ("netaudit.live-explanation/1", "carrier-lost", []) == (
        values["format"], values["name"], values["cure"]["findings"],
    )  # fmt: skip
    assert ["carrier-lost"] == [finding["rule"] for finding in values["example"]["findings"]]


def test_without_a_rule_each_is_told_in_a_line(run) -> None:
    done = run("explain")

    assert 0 == done.code
    assert [f"{rule.name}|{rule.severity}|{rule.what}" for rule in RULES] == [
        "|".join(line.split(maxsplit=2)) for line in done.out.splitlines() if line.startswith("  ")
    ]
    assert list(dict.fromkeys(rule.family for rule in RULES)) == [
        line for line in done.out.splitlines()[2:] if line and not line.startswith(" ")
    ]


def test_the_list_can_be_had_as_json(run) -> None:
    values = json.loads(run("explain", "--format", "json").out)

    assert [rule.name for rule in RULES] == [each["name"] for each in values["rules"]]


@pytest.mark.parametrize(
    ("word", "hint"),
    [
        ("catgory-to-low", "did you mean category-too-low?"),
        ("CATEGORY-TOO-LOW", "did you mean category-too-low?"),
        ("category", "did you mean category-too-low?"),
        ("xyzzy", "`netaudit explain` lists them all"),
        ("", "`netaudit explain` lists them all"),
    ],
)
def test_a_misspelt_rule_is_a_wrong_call_with_the_nearest_spelling(run, word: str, hint: str) -> None:
    done = run("explain", word)

    assert (2, "") == (done.code, done.out)
    assert f"explain: {word!r} is no rule; {hint}\n" == done.err


def test_part_of_a_name_finds_every_rule_that_has_it(run) -> None:
    having = [rule.name for rule in RULES if "path" in rule.name]

    assert len(having) > 1
    assert f"did you mean {' or '.join(having)}?" in run("explain", "path").err


def test_the_answer_can_be_written_to_a_file(run, tmp_path: Path) -> None:
    shown = run("explain", "category-too-low").out
    run("explain", "category-too-low", "--output", "rule.txt")

    assert shown == (tmp_path / "rule.txt").read_text(encoding="utf-8")


def test_a_terminal_gets_it_wrapped(run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setenv("COLUMNS", "70")
    done = run("explain", "category-too-low")

    assert 0 == done.code
    assert 70 >= max(len(re.sub(r"\x1b\[[0-9;]*m", "", line)) for line in done.out.splitlines())


def test_the_command_says_what_it_does() -> None:
    assert "Explain a rule." == explain.short_help
