"""Errors and the help they give."""

from __future__ import annotations

from netaudit.errors import InputError, MachineError, NetauditError, Problem, nearest


def test_a_problem_is_one_line_with_place_key_and_message() -> None:
    problem = Problem("plan.yaml", "3 has no unit", 4, 9, ("cables", "W01", "length"))

    assert "plan.yaml:4:9: cables.W01.length: 3 has no unit" == str(problem)
    assert "plan.yaml: is a folder" == str(Problem("plan.yaml", "is a folder"))


def test_a_file_name_with_a_line_feed_stays_on_one_line() -> None:
    assert "\\n" in str(Problem("a\nb.yaml", "no"))
    assert "\n" not in str(Problem("a\nb.yaml", "no"))


def test_each_kind_of_error_knows_its_exit_code() -> None:
    assert [2, 2, 3] == [NetauditError.exit_code, InputError([]).exit_code, MachineError.exit_code]


def test_the_nearest_word_is_found_whatever_its_case() -> None:
    assert "category" == nearest("Catgory", ["length", "category"])
    assert "6A" == nearest("6a", ["5e", "6A"])
    assert None is nearest("zebra", ["length", "category"])
