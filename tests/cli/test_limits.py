"""`netaudit limits`."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

import netaudit.report
from netaudit.rules.catalogue import RULES
from netaudit.standards.find import index

SCHEMA = json.loads((Path(netaudit.report.__file__).parent / "schemas" / "limits.json").read_text(encoding="utf-8"))
EVERY_WORD = [word for line in index() for word in line.words]


@pytest.mark.parametrize("word", EVERY_WORD)
def test_everything_in_the_index_has_an_answer_that_satisfies_the_schema(run, word: str) -> None:
    done = run("limits", "--format", "json", word)

    assert (0, "") == (done.code, done.err)
    answer = json.loads(done.out)
    jsonschema.Draft202012Validator(SCHEMA).validate(answer)
    assert [word] == answer["asked"]


def test_without_a_word_all_that_can_be_asked_is_listed_and_how_far_each_rate_goes(run) -> None:
    done = run("limits")

    assert 0 == done.code
    assert all(word in done.out for word in EVERY_WORD)
    assert "How far each rate goes" in done.out
    answer = json.loads(run("limits", "--format", "json").out)
    jsonschema.Draft202012Validator(SCHEMA).validate(answer)
    assert [] == answer["asked"]
    assert len(index()) == len(answer["index"])


def test_10gbase_t_is_answered_with_reach_and_what_goes_with_it(run) -> None:
    """TIA TSB-155-A: 37 m and 55 m over unscreened category 6; ANSI/TIA-568: 100 m over 6A, four connections."""
    out = run("limits", "10gbase-t").out

    assert any(line.split()[:7] == ["10GBASE-T", "6", "no", "37", "m", "55", "m"] for line in out.splitlines())
    assert "TSB-155-A" in out
    for text in ("9.9 Gb/s (1238 MB/s)", "9.41 Gb/s (1177 MB/s)", "Solid cable in warm air", "most connections"):
        assert text in out


def test_every_row_of_text_has_its_standing(run) -> None:
    rows = [line for line in run("limits", "cat6").out.splitlines() if "  6  " in line]

    assert rows
    standings = ("secondary", "computed", "memory", "read", "common practice")
    assert all(any(standing in row for standing in standings) for row in rows)
    assert all(row.endswith("]") for row in rows)


def rows_of(out: str, title: str) -> list[list[str]]:
    """The first three cells of the rows of one table."""
    lines = out[out.index(title) :].split("\n\n", maxsplit=1)[0].splitlines()
    return [line.split()[:3] for line in lines if line.endswith("]")]


def test_words_of_one_kind_are_answered_together_and_the_same_table_once(run) -> None:
    out = run("limits", "cat6", "cat", "5e").out

    assert {"5e", "6"} == {category for _, category, _ in rows_of(out, "Reach over twisted pair")}
    assert 1 == out.count("Solid cable in warm air")


def test_words_of_different_kinds_are_answered_by_what_they_have_in_common(run) -> None:
    out = run("limits", "cat6", "10G").out

    assert [["10GBASE-T", "6", "no"], ["10GBASE-T", "6", "yes"]] == rows_of(out, "Reach over twisted pair")
    assert "Sources" in out
    assert "OM3" not in out


def test_words_without_anything_in_common_are_both_answered(run) -> None:
    out = run("limits", "om4", "thunderbolt").out

    assert ["10GBASE-SR", "OM4", "400"] in rows_of(out, "Reach over fibre")
    assert "thunderbolt" in out


def test_rules_are_listed_with_the_sources_of_their_limits(run) -> None:
    answer = json.loads(run("limits", "rules", "--format", "json").out)
    rows = answer["tables"][0]["rows"]

    assert {rule.name for rule in RULES} == {row["cells"][0] for row in rows}
    told = {(row["cells"][0], row["source"]["document"], row["source"]["clause"]) for row in rows}
    assert len(told) <= len(rows)
    for rule in RULES:
        for source in rule.sources():
            assert (rule.name, source.document, source.clause) in told


def test_a_misspelt_word_is_a_wrong_call_with_the_nearest_ones(run) -> None:
    done = run("limits", "cat66")

    assert (2, "") == (done.code, done.out)
    assert "did you mean 'cat6'" in done.err
    assert "`netaudit limits` lists all that can be asked" in done.err


def test_a_file_gets_the_same_text(run, tmp_path: Path) -> None:
    shown = run("limits", "om4").out
    done = run("limits", "om4", "--output", "om4.txt")

    assert (0, "") == (done.code, done.out)
    assert shown == (tmp_path / "om4.txt").read_text(encoding="utf-8")


def test_a_terminal_gets_the_same_facts(run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "300")
    piped = run("limits", "twinax").out
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)

    shown = re.sub("\x1b\\[[0-9;]*m", "", run("limits", "twinax").out)

    assert sorted(piped.split()) == sorted(shown.split())


@pytest.mark.parametrize("arguments", [["limits", "10GBASE-T"], ["limits"]])
def test_a_pipe_pays_neither_for_rich_nor_for_reading_plans(arguments: list[str]) -> None:
    code = (
        f"import sys; sys.argv = ['netaudit', *{arguments}]\n"
        "from netaudit.cli.main import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "print([name for name in ('yaml', 'pydantic_core', 'rich', 'netaudit.audit', 'netaudit.rules') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "[]" == done.stdout.splitlines()[-1]
