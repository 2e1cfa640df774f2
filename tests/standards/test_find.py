"""Words, however they are spelt, find their topic."""

import contextlib
from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.errors import InputError
from netaudit.model.limits import Topic
from netaudit.standards.find import GOODPUT, RULES, find, folded, index, rate_word, topics
from netaudit.standards.phys import phys

GIGA = 1_000_000_000


@pytest.mark.parametrize(
    "word", ["cat6A", "Cat 6A", "CAT6a", "category 6A", "category-6a", "6a", "class EA", "Class_EA"]
)
def test_a_category_is_found_however_it_is_spelt(word: str) -> None:
    assert (Topic("category", ("6A",), "cat6A"),) == find([word]) == find(word.split())


@pytest.mark.parametrize(
    "word", ["10G", "10g", "10Gb", "10 Gb/s", "10Gbit/s", "10gbps", "10GbE", "10 GigE", "10000M", "10000 Mb/s"]
)
def test_a_rate_is_found_however_it_is_spelt(word: str) -> None:
    assert (Topic("rate", (str(10 * GIGA),), "10G"),) == find([word])


@pytest.mark.parametrize(("word", "name"), [("2.5g", 2_500_000_000), ("25G", 25 * GIGA), ("100m", GIGA // 10)])
def test_the_point_of_a_rate_counts(word: str, name: int) -> None:
    assert (str(name),) == find([word])[0].names


@pytest.mark.parametrize("name", phys())
def test_every_physical_layer_is_found_in_any_case_and_without_hyphens(name: str) -> None:
    for word in (name, name.lower(), name.replace("-", ""), name.replace("-", " ")):
        assert (Topic("phy", (name,), name),) == find([word])


@pytest.mark.parametrize(
    ("word", "kind", "name"),
    [
        ("om4", "grade", "OM4"),
        ("OS1A", "grade", "OS1a"),
        ("dac", "cable", "twinax"),
        ("active optical", "cable", "active-optical"),
        ("aoc", "cable", "active-optical"),
        ("Thunderbolt", "bus", "thunderbolt"),
        ("thunderbolt 3", "bus", "thunderbolt"),
        ("tb4", "bus", "thunderbolt"),
        ("USB4", "bus", "usb"),
        ("usb 10G", "bus", "usb"),
        ("PCI Express", "bus", "pcie"),
        ("pcie 4", "bus", "pcie"),
        ("cords", "subject", "cords"),
        ("cord", "subject", "cords"),
        ("Temperature", "subject", "temperature"),
        ("connection", "subject", "connections"),
        ("spanning-tree", "subject", "spanning tree"),
        ("STP", "subject", "stp"),
        ("metrics", "subject", "metrics"),
        ("power", "subject", "power"),
        ("module", "subject", "modules"),
        ("cages", "subject", "cages"),
        ("insertion loss", "subject", "insertion loss"),
        ("host cables", "subject", "host cables"),
        ("splice", "subject", "splices"),
        ("fiber", "subject", "fiber"),
    ],
)
def test_other_things_are_found(word: str, kind: str, name: str) -> None:
    (topic,) = find(word.split())
    assert (kind, (name,)) == (topic.kind, topic.names)


@pytest.mark.parametrize(
    ("kind", "generations"),
    # PCI Express 1 to 6, Thunderbolt 1 to 5, and USB by its signalling rate
    [("pcie", range(1, 7)), ("thunderbolt", range(1, 6)), ("usb", ("3", "4", "5G", "10G", "20G", "40G"))],
)
def test_a_bus_is_found_by_each_of_its_generations(kind: str, generations: Iterable[object]) -> None:
    for generation in generations:
        assert (kind,) == find([f"{kind} {generation}"])[0].names


def test_rules_and_goodput_have_topics_of_their_own() -> None:
    assert (RULES, GOODPUT) == find(["rules", "goodput"])


def test_category_8_is_both_of_its_kinds() -> None:
    assert ("8.1", "8.2") == find(["cat8"])[0].names


def test_words_that_belong_together_are_taken_together_and_others_apart() -> None:
    assert ["cat6", "10G", "spanning tree"] == [
        one.word for one in find(["cat", "6", "10", "Gb/s", "spanning", "tree"])
    ]


def test_the_same_topic_is_told_once() -> None:
    assert 1 == len(find(["cat6", "category", "6", "6"]))


@pytest.mark.parametrize(
    ("word", "near"), [("cat66", "'cat6'"), ("10gbasett", "'10GBASE-T'"), ("thunderbold", "'thunderbolt'")]
)
def test_a_misspelt_word_is_told_with_the_nearest_ones_and_the_way_to_all(word: str, near: str) -> None:
    with pytest.raises(InputError) as error:
        find([word])
    (problem,) = error.value.problems
    assert f"{word!r} asks for nothing here: did you mean " in problem.message
    assert near in problem.message
    assert problem.message.endswith("`netaudit limits` lists all that can be asked")


def test_a_word_like_nothing_else_is_told_without_a_guess() -> None:
    with pytest.raises(InputError, match="'zzzzzz' asks for nothing here: `netaudit limits` lists all"):
        find(["zzzzzz"])


def test_every_wrong_word_is_told_at_once() -> None:
    with pytest.raises(InputError) as error:
        find(["zzzzzz", "cat6", "qqqqqq"])
    assert 2 == len(error.value.problems)


@given(st.lists(st.text(), max_size=4))
def test_any_words_find_topics_or_an_error_of_the_call(words: list[str]) -> None:
    with contextlib.suppress(InputError):
        assert all(topic in topics().values() for topic in find(words))


def test_every_word_of_the_index_finds_something() -> None:
    for line in index():
        for word in line.words:
            assert word == find([word])[0].word
        assert line.about


def test_the_index_tells_what_a_subject_is_about() -> None:
    about = {line.words[0]: line.about for line in index()}
    assert "solid cable in warm air" == about["temperature"]
    assert "insertion loss of cable; insertion loss of a channel" == about["insertion loss"]


def test_the_index_names_every_layer_rate_and_subject_once() -> None:
    words = [folded(word) for line in index() for word in line.words]
    assert len(words) == len(set(words))
    assert {folded(name) for name in phys()} <= set(words)


@pytest.mark.parametrize(("rate_bit_per_s", "word"), [(GIGA, "1G"), (2_500_000_000, "2.5G"), (GIGA // 10, "100M")])
def test_a_rate_is_asked_for_in_its_short_form(rate_bit_per_s: int, word: str) -> None:
    assert word == rate_word(rate_bit_per_s)
