"""The room as plain values."""

from __future__ import annotations

from bills import SPECIFICATION

from netaudit.model.bill import FreePorts
from netaudit.report.bill.data.room import free_values, specification_values


def test_a_passive_port_has_no_rate() -> None:
    expected = {"device": "bay-panel", "connector": "rj45", "rate_bit_per_s": None, "free": 20, "of": 24}

    assert expected == free_values(FreePorts("bay-panel", "rj45", None, 20, 24))


def test_a_switch_to_look_for_has_its_ports_and_its_bounds() -> None:
    values = specification_values(SPECIFICATION)
    need = {
        "connector": "rj45",
        "rate_bit_per_s": 10_000_000_000,
        "lanes": 1,
        "lane_bit_per_s": None,
        "quantity": 6,
        "ports": ["core/1", "core/2"],
    }

    assert need == values["needs"][0]
    assert (9000, 1, [20, 44], True, 41.5) == tuple(
        values[key] for key in ("packet_octets", "bonds", "vlans", "spanning_tree", "watts")
    )
