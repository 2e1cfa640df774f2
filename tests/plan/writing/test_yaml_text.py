"""YAML texts: tidy, and the same to every reader."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import free_texts, names

from netaudit.plan.writing.yaml_text import WIDEST, document

NODES: st.SearchStrategy[Any] = st.recursive(
    st.one_of(names(), free_texts(), st.booleans()),
    lambda below: st.one_of(st.lists(below, max_size=3), st.dictionaries(names(), below, max_size=3)),
    max_leaves=8,
)


def as_text(text: str) -> Any:
    """What PyYAML makes of a text when it guesses nothing."""
    return yaml.load(text, yaml.BaseLoader)  # noqa: S506 - it makes nothing but texts, lists and mappings


def spelled(node: Any) -> Any:
    """The node with its booleans as the words that stand for them."""
    if isinstance(node, dict):
        return {key: spelled(value) for key, value in node.items()}
    if isinstance(node, list):
        return [spelled(item) for item in node]
    return str(node).lower() if isinstance(node, bool) else node


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(names(), NODES, min_size=1, max_size=3))
def test_another_reader_finds_the_same_nodes(sections: dict[str, Any]) -> None:
    assert spelled(sections) == as_text(document(sections))


@settings(deadline=None)
@given(names())
def test_a_reader_that_guesses_takes_no_name_for_a_boolean_or_nothing(name: str) -> None:
    found = yaml.safe_load(document({"a": name}))["a"]

    assert not isinstance(found, bool)
    assert found is not None


@pytest.mark.parametrize(
    ("node", "text"),
    [
        ("plain text", "a: plain text\n"),
        ("core/9", "a: core/9\n"),
        ("24 °C", "a: 24 °C\n"),
        ("yes", 'a: "yes"\n'),
        ("a: b", 'a: "a: b"\n'),
        ("a #b", 'a: "a #b"\n'),
        ('say "a\\b"', 'a: "say \\"a\\\\b\\""\n'),
        ("tab\there", 'a: "tab\\there"\n'),
        ("two\nlines", "a: |-\n  two\n  lines\n"),
        ("end\n", 'a: "end\\n"\n'),
        ("\u00a0x\U000e0001", 'a: "\\u00a0x\\U000e0001"\n'),
        ({"b": {"c": "d", "e": ["f", True]}}, "\na:\n  b: {c: d, e: [f, true]}\n"),
        ({"b": {"1": {"x": "w"}, "2": {"x": "z"}}}, "\na:\n  b:\n    1: {x: w}\n    2: {x: z}\n"),
        (["b", {"c": "d"}], "\na:\n  - b\n  - {c: d}\n"),
    ],
)
def test_texts_are_laid_out_as_a_person_would(node: Any, text: str) -> None:
    assert text == document({"a": node})


def test_a_line_that_would_be_too_wide_is_spread() -> None:
    wide = {"list": [f"item-{number}" for number in range(40)], "row": [{"k": "v" * 60, "l": "w" * 60}]}
    text = document({"a": wide})

    assert all(len(line) <= WIDEST for line in text.splitlines())
    assert {"a": wide} == as_text(text)


def test_an_empty_mapping_is_written_however_long_its_key() -> None:
    wide = {"\U000e0001" * 20: {}}

    assert {"a": wide} == as_text(document({"a": wide}))


COMMENTED = """\
# of all of it

k: x

# of a
a:
  # of b
  b: c
  d: e

  # of f
  # and more
  f: {g: h}
"""


def test_comments_stand_above_what_they_speak_of_and_items_with_one_stand_apart() -> None:
    nodes = {"k": "x", "a": {"b": "c", "d": "e", "f": {"g": "h"}}}
    comments = {
        (): "of all of it", ("a",): "of a", ("a", "b"): "of b", ("a", "f"): "of f\nand more", ("z",): "of nothing",
    }  # fmt: skip

    assert COMMENTED == document(nodes, comments)
    assert "# of k\nk: x\n" == document({"k": "x"}, {("k",): "of k"})
    assert "\n# of l\nl:\n  - x\n" == document({"l": ["x"]}, {("l",): "of l", ("l", "x"): "of x"})


def test_a_comment_is_wrapped_and_holds_nothing_that_ends_it() -> None:
    comment = "word " * 60 + "\nodd \x1b \u2028 \x85 \ue000"
    text = document({"a": {"b": "c"}}, {("a", "b"): comment})

    assert all(len(line) <= WIDEST and line.isprintable() for line in text.splitlines())
    assert {"a": {"b": "c"}} == as_text(text)
