"""The JSON Schema and the table of keys say what the reader does."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from strategies import plans

from netaudit.model.plan import Plan
from netaudit.plan.schema import key_table, plan_schema
from netaudit.plan.shapes.outline import Listed, Mapped, Shapes, keys
from netaudit.plan.shapes.sections import PlanShape
from netaudit.plan.writing.write import write

TOPOLOGIES = sorted((Path(__file__).parents[2] / "topologies").glob("*.yaml"))
VALIDATOR = jsonschema.Draft202012Validator(plan_schema())


def as_an_editor_reads_it(text: str) -> Any:
    """The document as an editor checks it: YAML's own types, keys as texts."""
    return json.loads(json.dumps(yaml.safe_load(text)))


def test_the_schema_is_one_of_its_draft() -> None:
    jsonschema.Draft202012Validator.check_schema(plan_schema())


def test_the_example_of_the_format_passes(example: str) -> None:
    VALIDATOR.validate(as_an_editor_reads_it(example))


@pytest.mark.parametrize("file", TOPOLOGIES, ids=lambda file: file.stem)
def test_every_example_plan_passes(file: Path) -> None:
    VALIDATOR.validate(as_an_editor_reads_it(file.read_text(encoding="utf-8")))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans())
def test_every_plan_that_the_reader_takes_passes(plan: Plan) -> None:
    text = yaml.load(write(plan), yaml.BaseLoader)  # noqa: S506 - it makes nothing but texts, lists and mappings
    VALIDATOR.validate(with_booleans(text))


def with_booleans(node: Any) -> Any:
    """The document with the words true and false as the booleans that an editor makes of them."""
    if isinstance(node, dict):
        return {key: with_booleans(value) for key, value in node.items()}
    if isinstance(node, list):
        return [with_booleans(item) for item in node]
    return {"true": True, "false": False}.get(node, node)


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("netaudit: 1", "netaudit: 2"),
        ("name: Boathouse cutting rooms", "nam: Boathouse"),
        ("headroom: 30%", "headroom: 30"),
        ("ambient: 24 °C", "ambient: 24"),
        ("regime: iso ", "regime: eia "),
        ("units: 12", "units: twelve"),
        ("units: 12", "units: 0"),
        ("depth: 600 mm", "depth: 600"),
        ("mtu: 9000, purpose: storage", "mtu: 9000 octets, purpose: storage"),
        ("subnet: 10.44.20.0/24", "subnet: 10.44.20.0"),
        ("role: switch", "role: swich"),
        ("role: switch", "plays: []\n    role: switch"),
        ("role: switch", "priority: 100\n    role: switch"),
        ("rates: 1200M", "rates: 1200 Mbps"),
        ("rates: [10G, 1G]", "rates: []"),
        ("network: office, address: lease", "network: office, networks: {}, address: lease"),
        ("bus: pcie 3 x4", "bus: pcie"),
        ("ports: {1-4: {connector: rj45}}", "ports: {1-4: {connector: rj54}}"),
        ("ports: {1-4: {connector: rj45}}", "ports: {1-4: {rates: 10G}}"),
        ("serves: false", "serves: 0"),
        ("from: core/9, ", ""),
        ("from: core/9", "from: core"),
        ("category: twinax", "category: 9"),
        ("cord: 26 AWG", "cord: thin"),
        ("within: 4 h", "within: 4"),
        ("drives: 5", "drives: -5"),
        ("raster: 3840x2160", "raster: 4K"),
        ("rate: 183.5 Mb/s", "rate: 183.5 Mb/s, format: {codec: vc-3}"),
        ("D01:", "'a > b':"),
        ("loft-plate:  ", "'a/b': "),
    ],
)
def test_a_plan_with_one_thing_wrong_does_not_pass(right: str, wrong: str, example: str) -> None:
    text = example.replace("  loft-plate: {", "  loft-plate:  {")
    assert right in text

    assert not VALIDATOR.is_valid(as_an_editor_reads_it(text.replace(right, wrong, 1)))


def test_numbers_pass_where_the_format_has_bare_numbers() -> None:
    text = """
netaudit: 1
name: 2024
networks: {7: {vlan: 20}}
devices:
  12: {role: switch, priority: 4096, ports: {1: {}, 2-3: {}}}
  a: {role: station, plays: [{format: {codec: x, fps: 23.976, sampling: 4:2:2, ratio: 5:1, sample_rate: 48000}}]}
cables: {1: {from: 12/1, to: 12/2, category: 6, cord: 26}}
copies: [{what: 1, from: a, to: a, at: 19:30, weight: 0.5}]
"""

    VALIDATOR.validate(as_an_editor_reads_it(text))


def test_every_key_has_its_meaning_in_the_schema() -> None:
    schema = plan_schema()
    for described in (schema, *schema["$defs"].values()):
        assert all(property_["description"] for property_ in described["properties"].values())


def test_every_key_of_every_shape_stands_in_the_table() -> None:
    rows = [row.split(" | ") for row in key_table().splitlines()[2:]]
    told = {row[1].strip("`") for row in rows}
    waiting, seen = [PlanShape], set()
    while waiting:
        shape = waiting.pop()
        seen.add(shape)
        for alias, key in keys(shape).items():
            assert alias in told
            holds = key.holds
            while isinstance(holds, Mapped | Listed):
                holds = holds.item
            waiting += [each for each in holds.choices if each not in seen] if isinstance(holds, Shapes) else []

    assert 20 < len(seen)


def test_the_table_is_a_table() -> None:
    lines = key_table().splitlines()

    assert all(6 == line.count("|") for line in lines)
    assert len(lines) == len(set(lines))
    assert "| cable | `length` | `38 m` |  | its length |" in lines
    assert "| plan | `headroom` | `30%` | `30%` | share of goodput that is kept free |" in lines
