"""The JSON form, held against its published schema by an independent validator."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest
from observations import EXPECTED, diagnosed, first_look, observed

from netaudit.model.diagnosis import Diagnosis
from netaudit.report.probe.data import as_json, document
from netaudit.report.probe.words import sentence
from netaudit.report.schema import answer_schema

VALIDATOR = jsonschema.Draft202012Validator(json.loads(answer_schema("probe")))
CONTRACT = {
    "": "format target sentence took_s mount addresses links sessions storage switch_port moved findings not_checked causes",
    "addresses": "address from interface source gateway round_trip_ms path_mtu hardware_addresses services",
    "links": "interface medium carrier rate_bit_per_s duplex mtu offered bus carrier_changes errors plan_port",
    "sessions": "local remote service interface round_trip_ms sent_bytes received_bytes retransmitted",
}
"""Keys of the format in their order, typed by hand: other programs depend on them."""


def test_the_json_form_is_stable(troubled: Diagnosis, expect: Callable[[str, str], None]) -> None:
    expect("probe.json", as_json(troubled))


@pytest.mark.parametrize("part", CONTRACT)
def test_the_keys_of_the_format_come_first_and_in_their_order(troubled: Diagnosis, part: str) -> None:
    values = document(troubled)
    keys = CONTRACT[part].split()

    for each in values[part] if part else [values]:
        assert keys == list(each)[: len(keys)]


def test_every_shape_satisfies_the_schema(troubled: Diagnosis, hostile: Diagnosis) -> None:
    nothing = first_look(addresses=(), interfaces={})
    strange = diagnosed(expected=EXPECTED._replace(storage=None, road=None))
    bare = diagnosed(nothing, None, expected_bit_per_s=None, expected_by=None)

    for diagnosis in (diagnosed(), diagnosed(first_look()), troubled, hostile, strange, bare):
        VALIDATOR.validate(json.loads(as_json(diagnosis)))


def broken(values: Any, path: tuple[str | int, ...], value: object) -> Any:
    changed = copy.deepcopy(values)
    *way, last = path
    target = changed
    for step in way:
        target = target[step]
    if value is None:
        del target[last]
    else:
        target[last] = value
    return changed


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("format",), "netaudit.probe/2"),
        (("sentence",), ""),
        (("sessions", 0, "retransmitted"), None),
        (("links", 0, "rate_bit_per_s"), 1.5),
        (("links", 0, "medium"), "cable"),
        (("addresses", 0, "from"), "mount"),
        (("addresses", 0, "services", "smb"), True),
        (("addresses", 0, "services", "445"), "open"),
        (("moved", "interfaces", "en5", "sent_bytes"), -1),
        (("findings", 0, "severity"), "error"),
        (("causes", 0, "cause"), "No Such"),
        (("extra",), 1),
    ],
)
def test_the_schema_refuses_what_is_not_in_the_format(
    troubled: Diagnosis, path: tuple[str | int, ...], value: object
) -> None:
    with pytest.raises(jsonschema.ValidationError):
        VALIDATOR.validate(broken(document(troubled), path, value))


def test_the_answer_and_what_it_rests_on_are_told(troubled: Diagnosis) -> None:
    values = document(troubled)

    assert sentence(troubled.situation) == values["sentence"]
    assert ["traffic-on-wireless", "storage-offers-slower-port"] == [each["cause"] for each in values["causes"]]
    assert {"interface": "wlan0", "evidence": "session", "remote": "10.44.20.10", "local": "10.44.20.11"} == (
        values["uses"][0]
    )
    assert ["cut-1/wire", "vault/fast"] == [values["plan"][key] for key in ("from", "to")]


def test_the_time_taken_is_told_in_whole_milliseconds() -> None:
    assert 2.901 == document(diagnosed(observed(took_s=2.90062)))["took_s"]


def test_without_a_plan_and_before_anything_was_tried_all_of_it_is_null() -> None:
    values = document(diagnosed(first_look(), None, expected_bit_per_s=None, expected_by=None))

    assert [None] * 6 == [
        values[key] for key in ("mount", "plan", "moved", "switch_port", "expected_bit_per_s", "expected_by")
    ]
    assert [None] * 5 == list(values["storage"].values())
    assert not values["complete"]


def test_what_a_terminal_would_obey_is_escaped_and_read_back_as_it_was(hostile: Diagnosis) -> None:
    text = as_json(hostile)

    assert all(line.isprintable() for line in text.split("\n"))
    assert hostile.observation.target == json.loads(text)["target"]


def test_accents_stand_as_they_are_and_the_text_ends_with_a_line_feed() -> None:
    text = as_json(diagnosed(first_look(target="café")))

    assert '"target": "café"' in text
    assert text.endswith("}\n")
