"""Ranges of ports, there and back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from strategies import passive_ports, port_names, ports_by_name

from netaudit.model.plan import Port
from netaudit.plan.scalars.ranges import LONGEST_RANGE, first_of_range, joined_ranges, port_range

Refusal = Callable[[Callable[[str], object], str], str]


def test_digits_with_a_dash_between_are_a_range() -> None:
    assert range(1, 25) == port_range("1-24")
    assert range(4096) == port_range("0-4095")


@pytest.mark.parametrize("name", ["ge/0/1", "1.8", "1:8", "1/8", "a-8", "1-b", "port 1 to 8"])
def test_a_name_with_numbers_in_it_is_no_range(name: str) -> None:
    assert port_range(name) is None


@pytest.mark.parametrize(("word", "first"), [("3-8", "3"), ("8-3", None), ("3", None), ("3..8", None)])
def test_only_a_right_range_has_a_first_port(word: str, first: str | None) -> None:
    assert first == first_of_range(word)


@given(port_names())
def test_any_other_name_is_no_range(name: str) -> None:
    assert port_range(name) is None


@pytest.mark.parametrize(
    ("key", "message"),
    [
        ("24-1", "'24-1' is not ascending: write the lower number first, as 1-24"),
        ("5-5", "'5-5' is a single port: name it 5, without a range"),
        ("1..8", "'1..8' looks like a range, which is written 1-8: write that"),
        ("1...8", "'1...8' looks like a range, which is written 1-8: write that"),
        ("1…8", "'1…8' looks like a range, which is written 1-8: write that"),
        ("1 to 8", "'1 to 8' looks like a range, which is written 1-8: write that"),
        ("1 - 8", "'1 - 8' looks like a range, which is written 1-8: write that"),
        ("1\u20138", "'1\u20138' looks like a range, which is written 1-8: write that"),
        ("1\u22128", "'1\u22128' looks like a range, which is written 1-8: write that"),
        ("01-24", "'01-24' has leading zeros: write the numbers without, or name each port by itself"),
        ("1-4097", "'1-4097' is 4097 ports: one range holds at most 4096"),
        (
            "1-99999999999999999999",
            "'1-99999999999999999999' is 99999999999999999999 ports: one range holds at most 4096",
        ),
    ],
)
def test_a_range_that_is_not_right_is_refused_before_it_is_expanded(key: str, message: str, refusal: Refusal) -> None:
    assert message == refusal(port_range, key)


@given(ports_by_name(passive_ports()))
def test_joined_ranges_expand_to_the_same_ports_in_the_same_order(ports: dict[str, Port]) -> None:
    expanded = [(str(name), port) for key, port in joined_ranges(ports).items() for name in port_range(key) or (key,)]

    assert list(ports.items()) == expanded


def test_only_neighbours_of_one_value_are_joined() -> None:
    one, other = Port(connector="rj45"), Port(connector="sfp+")
    ports = {"1": one, "2": one, "3": other, "5": other, "6": other, "a": other, "8": one, "7": one, "09": one}

    assert ["1-2", "3", "5-6", "a", "8", "7", "09"] == list(joined_ranges(ports))


def test_a_joined_range_is_never_longer_than_a_range_may_be() -> None:
    ports = dict.fromkeys(map(str, range(1, LONGEST_RANGE + 3)), Port())

    assert ["1-4096", "4097-4098"] == list(joined_ranges(ports))
