"""The reader of YAML: the same tree as other readers, a place for everything, and every error of the YAML itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from strategies import plans

from netaudit.errors import InputError
from netaudit.model.plan import Plan
from netaudit.plan.load import loads
from netaudit.plan.reading import read as reading
from netaudit.plan.reading.problems import Problems, StoppedError
from netaudit.plan.reading.raw import DEEPEST, Document, Spot
from netaudit.plan.reading.read import read
from netaudit.plan.writing.write import write

Lines = Callable[[str | bytes], list[str]]


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both parsers: the one in C, and the one that stands in where PyYAML was built without it."""
    name: str = request.param
    if not hasattr(yaml, name):
        pytest.skip("PyYAML was built without libyaml")
    monkeypatch.setattr(reading, "LOADER", getattr(yaml, name))
    return name


def document(text: str) -> Document:
    return read(text, Problems("plan.yaml"))


def as_text(text: str) -> Any:
    """What PyYAML makes of a text when it guesses nothing."""
    return yaml.load(text, yaml.BaseLoader)  # noqa: S506 - it makes nothing but texts, lists and mappings


def spots(spot: Spot) -> Iterator[tuple[tuple[str, ...], int, int | None]]:
    """Path, beginning of the value and beginning of the key of everything below."""
    for key, index, value in spot.entries():
        yield (*value.path,), value.index, index
        yield from spots(value)
        assert spot.key_index(key) == index
    if isinstance(spot.raw, list):
        for nth in range(len(spot.raw)):
            value = spot.below(nth)
            yield value.path, value.index, None
            yield from spots(value)


def composed(node: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], int, int | None]]:
    """The same from the nodes of PyYAML, an independent way through the same file."""
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            below = (*path, key.value)
            yield below, value.start_mark.index, key.start_mark.index
            yield from composed(value, below)
    elif isinstance(node, yaml.SequenceNode):
        for nth, value in enumerate(node.value, start=1):
            below = (*path, str(nth))
            yield below, value.start_mark.index, None
            yield from composed(value, below)


@pytest.mark.usefixtures("loader")
def test_the_tree_is_what_another_reader_makes_of_the_same_text(example: str) -> None:
    assert as_text(example) == document(example).root


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_every_key_and_value_knows_its_place(example: str, line_end: str) -> None:
    text = example.replace("\n", line_end)

    assert list(composed(yaml.compose(text, yaml.SafeLoader))) == list(spots(document(text).spot))


@settings(max_examples=15, deadline=None)
@given(plans())
def test_generated_plans_make_the_same_tree_in_another_reader(plan: Plan) -> None:
    text = write(plan)

    assert as_text(text) == document(text).root


def test_scalars_are_text_and_nothing_is_guessed() -> None:
    text = "a: 012\nb: 12:30:45\nc: yes\nd: null\ne: 1e3\nf: 0x10\ng: 2024-01-01\nh: ~\ni:\nj: 'q'\n"

    assert ["012", "12:30:45", "yes", "null", "1e3", "0x10", "2024-01-01", "~", "", "q"] == list(
        document(text).root.values()
    )


def test_an_alias_stands_for_the_value_and_has_its_own_place() -> None:
    root = document("a: &x {k: v}\nb: *x\nc: &y t\nd: [*y]\n")

    assert {"a": {"k": "v"}, "b": {"k": "v"}, "c": "t", "d": ["t"]} == root.root
    assert 19 - 3 == root.spot.below("b").index
    assert ("b", "k") == root.spot.at(("b", "k")).path


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", ["plan.yaml:1:1: the file is empty: a plan begins with 'netaudit: 1'"]),
        ("# a comment\n", ["plan.yaml:1:1: the file is empty: a plan begins with 'netaudit: 1'"]),
        ("\n- a\n", ["plan.yaml:2:1: a plan is a mapping that begins with 'netaudit: 1', not a list"]),
        ("just text", ["plan.yaml:1:1: a plan is a mapping that begins with 'netaudit: 1', not a text"]),
        (
            "netaudit: 1\n---\nnetaudit: 1\n",
            ["plan.yaml:2:1: a second document begins here: keep one plan to a file"],
        ),
        (
            "netaudit: 1\nname: a\nabout: b\nname: c\n",
            ["plan.yaml:4:1: name: 'name' is given twice, the first time in line 2: keep one of them"],
        ),
        (
            "netaudit: 1\nracks: {bay: {units: 4, units: [5, {a: b}], depth: 1 m}}\n",
            ["plan.yaml:2:25: racks.bay.units: 'units' is given twice, the first time in line 2: keep one of them"],
        ),
        (
            "netaudit: 1\nname: !!str x\nracks: !bay {}\n",
            [
                "plan.yaml:2:7: name: the tag '!!str' is not read: leave it out, a plan's values need none",
                "plan.yaml:3:8: racks: the tag '!bay' is not read: leave it out, a plan's values need none",
            ],
        ),
        (
            "netaudit: 1\nracks: {bay: {<<: {units: 4}}}\n",
            ["plan.yaml:2:15: racks.bay: the merge key '<<' is not read: write the keys out"],
        ),
        (
            "netaudit: 1\n? [a, [b]]\n: {c: d}\n? {e: f}\n: g\n",
            [
                "plan.yaml:2:3: a key is a plain text: write it out, not as a list, a mapping or an alias",
                "plan.yaml:4:3: a key is a plain text: write it out, not as a list, a mapping or an alias",
            ],
        ),
        (
            "netaudit: 1\nracks: {[a]: {b: c}, d: {units: x}, d: {units: y}, [e]: f}\n",
            [
                "plan.yaml:2:9: racks: a key is a plain text: write it out, not as a list, a mapping or an alias",
                "plan.yaml:2:33: racks.d.units: 'x' is not a number: "
                "a number of rack units is a whole number from 1 to 100",
                "plan.yaml:2:37: racks.d: 'd' is given twice, the first time in line 2: keep one of them",
                "plan.yaml:2:52: racks: a key is a plain text: write it out, not as a list, a mapping or an alias",
            ],
        ),
        (
            "netaudit: 1\nname: &n x\n*n : y\n",
            ["plan.yaml:3:1: a key is a plain text: write it out, not as a list, a mapping or an alias"],
        ),
    ],
)
def test_what_yaml_allows_and_a_plan_does_not_is_told(text: str, expected: list[str], lines: Lines) -> None:
    assert expected == lines(text)


def test_a_quoted_merge_key_is_a_name_like_any_other() -> None:
    assert {"<<": {}} == document('racks: {"<<": {}}').root["racks"]


@pytest.mark.parametrize("opening", ["{a: ", "["])
def test_sixty_four_levels_are_read_and_no_more(opening: str, lines: Lines) -> None:
    closing = "}" if opening.startswith("{") else "]"
    below = DEEPEST - 1
    document(f"a: {opening * (below - 1)}x{closing * (below - 1)}")

    place = 4 + len(opening) * below
    assert [f"plan.yaml:1:{place}: more than 64 mappings and lists stand within each other here"] == lines(
        f"a: {opening * (below + 1)}x{closing * (below + 1)}"
    )


def test_a_million_brackets_are_refused_at_once(lines: Lines) -> None:
    (told,) = lines("a: " + "[" * 1_000_000)

    assert told.startswith("plan.yaml:1:")
    assert "within each other" in told


def test_a_file_of_more_values_than_anybody_writes_is_refused(monkeypatch: pytest.MonkeyPatch, lines: Lines) -> None:
    monkeypatch.setattr(reading, "MOST_EVENTS", 50)

    assert ["plan.yaml:1:1: the file holds more than 50 values: divide the plan"] == lines("a: [" + "b, " * 100 + "]")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "netaudit: 1\nracks: {bay: {units: 4}\ncables: {}\n",
            "plan.yaml:3:1: this is not YAML: while parsing a flow mapping that begins in line 2, "
            "did not find expected ',' or '}': close the mapping with }, and part its keys with commas",
        ),
        (
            "netaudit: 1\nname: [a, b\nx: 1\n",
            "plan.yaml:3:2: this is not YAML: while parsing a flow sequence that begins in line 2, "
            "did not find expected ',' or ']': close the list with ], and part its items with commas",
        ),
        (
            "netaudit: 1\nname: a: b\n",
            "plan.yaml:2:8: this is not YAML: mapping values are not allowed in this context: "
            "put a text that holds ': ' in quotes, and check the indentation",
        ),
        (
            'netaudit: 1\nname: "a\n',
            "plan.yaml:3:1: this is not YAML: while scanning a quoted scalar that begins in line 2, "
            "found unexpected end of stream: close the quotes",
        ),
        (
            "netaudit: 1\nname: @home\n",
            "plan.yaml:2:7: this is not YAML: while scanning for the next token that begins in line 2, "
            "found character that cannot start any token: put the text in quotes",
        ),
        (
            "netaudit: 1\nabout: a\x07b\n",
            "plan.yaml:2:9: the character U+0007 may not stand in a YAML file: leave it out",
        ),
    ],
)
def test_an_error_of_syntax_stands_alone(text: str, expected: str, lines: Lines) -> None:
    if hasattr(yaml, "CSafeLoader"):
        assert [expected] == lines(text)
    else:
        assert 1 == len(lines(text))


@pytest.mark.parametrize("text", ["a: [", "a: 'b", "a:\n\tb: c", "a: b: c", "a: %b", "a: \x07"])
@pytest.mark.usefixtures("loader")
def test_either_parser_gives_one_error_with_its_line(text: str) -> None:
    problems = Problems("plan.yaml")
    with pytest.raises(StoppedError):
        read(text, problems)

    (told,) = problems.error().problems
    assert told.line is not None


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("devices:\n\tcore: {}\n", "2:1"),
        ("devices:\n \tcore: {}\n", "2:2"),
        ("devices:\r\n  core:\r\n    role: switch\r\n\tports: {}\r\n", "4:1"),
        ("\tdevices: {}\n", "1:1"),
    ],
)
def test_indentation_with_a_tab_is_told_as_that(text: str, place: str, lines: Lines) -> None:
    assert [f"plan.yaml:{place}: this is not YAML: a tab indents this line: write spaces instead of tabs"] == lines(
        text
    )


def test_an_error_of_syntax_hides_what_was_found_before_it(lines: Lines) -> None:
    (told,) = lines("netaudit: 1\nname: a\nname: b\nabout: [\n")

    assert "this is not YAML" in told


def test_two_problems_of_one_file_are_both_told(lines: Lines) -> None:
    assert [
        "plan.yaml:2:11: headroom: '30' has no unit: write 30%",
        "plan.yaml:4:1: name: 'name' is given twice, the first time in line 3: keep one of them",
    ] == lines("netaudit: 1\nheadroom: 30\nname: a\nname: b\n")


def test_a_problem_inside_a_list_counts_its_items_from_one() -> None:
    with pytest.raises(InputError, match=r"copies\.2\.what: the tag"):
        loads("netaudit: 1\ncopies:\n  - {what: a}\n  - {what: !b c}\n")
