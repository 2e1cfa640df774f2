"""The plan as a value."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import netaudit.model
from netaudit.model.place import Place, PortRef, Position
from netaudit.model.plan import Cable, Plan

MODEL = Path(netaudit.model.__file__).parent
UNITS = ("_m", "_c", "_w", "_s", "_db", "_hz", "_bytes", "_bit_per_s", "_awg", "_minute")
COUNTS = {"line", "column", "fail", "warn", "note", "not_checked", "checked", "splices", "fibres", "streams", "groups",
          "spares", "priority", "metrics", "shared_by", "connections", "lanes", "generation", "drives", "channels",
          "sent_packets", "received_packets", "errors", "carrier_changes", "sent_segments", "retransmitted", "out_of_order",
          "number", "process", "port", "ports", "lost", "handshakes", "knocks", "amount", "unit", "ratio", "value", "vlan", "weight", "fps", "height", "metric", "quantity", "rows",
          "box", "boxes", "free", "of", "lower_bound", "bonds", "vlans", "unpriced", "before", "after", "same"}  # fmt: skip
"""Numbers that count things, or whose unit is the thing itself."""


def test_plans_are_equal_whatever_their_file_their_lines_and_what_was_assumed() -> None:
    one = Plan(file="a.yaml", name="x", assumed=("y",), lines={Place("cable", "W01"): Position(1, 1)})

    assert one == Plan(file="b.yaml", name="x")
    assert one != Plan(file="a.yaml", name="z")


def test_a_cable_knows_all_its_ends() -> None:
    trunk, lanes = PortRef("core", "q1"), (PortRef("a", "1"), PortRef("b", "1"))

    assert (trunk, *lanes) == Cable(name="B01", from_port=trunk, to_ports=lanes).ends


@pytest.mark.parametrize("module", sorted(path.stem for path in MODEL.glob("[a-z]*.py")))
def test_every_number_carries_its_unit_in_its_name_or_in_brackets_below_it(module: str) -> None:
    bare = []
    for owner in ast.walk(ast.parse((MODEL / f"{module}.py").read_text(encoding="utf-8"))):
        if not isinstance(owner, ast.ClassDef):
            continue
        for field, below in zip(owner.body, [*owner.body[1:], None], strict=True):
            if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
                continue
            kinds = {name.id for name in ast.walk(field.annotation) if isinstance(name, ast.Name)}
            text = below.value.value if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant) else ""
            name = field.target.id
            if kinds & {"int", "float", "Decimal", "Fraction"} and not (
                name.endswith(UNITS) or name in COUNTS or "[" in text
            ):
                bare.append(f"{owner.name}.{name}")

    assert [] == bare


def test_a_cable_is_told_by_its_name() -> None:
    assert "W01" == str(Cable(name="W01", from_port=PortRef("a", "1"), to_ports=(PortRef("b", "1"),)))
