"""The kinds of value: each example is good, each form spells what it reads."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, get_args

import jsonschema
import pytest

from netaudit.plan.shapes import kinds
from netaudit.plan.shapes.forms import Form, OneOrMore

Refusal = Callable[[Callable[[str], object], str], str]


def forms() -> dict[str, Form]:
    """Every form of the module by the name of its kind."""
    found = {}
    for name, value in vars(kinds).items():
        for metadata in getattr(value, "__metadata__", ()):
            found[name] = metadata.form if isinstance(metadata, OneOrMore) else metadata
    return found


EXAMPLES = [(name, example) for name, form in forms().items() for example in re.findall("`([^`]+)`", form.shown)]


@pytest.mark.parametrize(("name", "example"), EXAMPLES)
def test_every_example_that_the_manual_shows_is_read_and_passes_the_schema(name: str, example: str) -> None:
    form = forms()[name]

    form.parse(example)
    jsonschema.validate(example == "true" if form.schema == {"type": "boolean"} else example, dict(form.schema))


@pytest.mark.parametrize(("name", "example"), EXAMPLES)
def test_every_form_spells_what_it_reads(name: str, example: str) -> None:
    form = forms()[name]
    value = form.parse(example)
    spelled = form.spell(value)

    assert value == (spelled if isinstance(spelled, bool) else form.parse(spelled))


def test_only_true_and_false_are_booleans(refusal: Refusal) -> None:
    form = forms()["Flag"]

    assert [True, False] == [form.parse("true"), form.parse("false")]
    assert "'yes' is neither true nor false: write true" == refusal(form.parse, "yes")
    assert "'Off' is neither true nor false: write false" == refusal(form.parse, "Off")


def test_the_only_format_is_the_first(refusal: Refusal) -> None:
    assert "'1.0' is not a plan format that can be read: write 1" == refusal(forms()["Version"].parse, "1.0")


def test_lease_stands_alone() -> None:
    join = metadata(kinds.Addresses).join

    assert ("lease",) == join(("lease",))
    with pytest.raises(ValueError, match="'lease' stands alone: write 'lease', or list the addresses"):
        join(("lease", "lease"))


def test_a_range_as_a_port_is_checked_when_it_is_read(refusal: Refusal) -> None:
    assert "'9-1' is not ascending: write the lower number first, as 1-24" == refusal(forms()["PortKey"].parse, "9-1")


@pytest.mark.parametrize(
    ("kind", "least", "most"),
    [
        (kinds.Vlan, 1, 4094),  # IEEE Std 802.1Q, table 9-2: 0 and 4095 name no VLAN
        (kinds.Mtu, 68, 65535),  # IETF RFC 791: 68 octets pass every link, the length field ends at 65,535
        (kinds.Priority, 0, 61440),  # IEEE Std 802.1D-2004, table 17-2
    ],
)
def test_identifiers_end_where_their_standard_ends_them(kind: Any, least: int, most: int, refusal: Refusal) -> None:
    parse = metadata(kind).parse

    assert [least, most] == [parse(str(least)), parse(str(most))]
    assert "out of range" in refusal(parse, str(most + 1))


def test_every_word_of_the_model_is_read() -> None:
    for kind in (kinds.Role, kinds.Connector, kinds.Category, kinds.Layout, kinds.System, kinds.Material):
        for word in get_args(get_args(kind)[0]):
            assert word == metadata(kind).parse(word)


def metadata(kind: Any) -> Any:
    return kind.__metadata__[0]
