"""What a bill says of the room, as plain values: lengths worked out, ports left free, switches to look for."""

from __future__ import annotations

from typing import Any

from netaudit.model.bill import FreePorts, RunLength
from netaudit.model.specification import Specification
from netaudit.report.goods_values import rounded_m


def length_values(run: RunLength) -> dict[str, Any]:
    """A length that was worked out."""
    return {"cable": run.cable, "length_m": rounded_m(run.length_m), "how": run.how}


def free_values(row: FreePorts) -> dict[str, Any]:
    """Free ports of one kind."""
    return {
        "device": row.device,
        "connector": row.connector,
        "rate_bit_per_s": row.rate_bit_per_s,
        "free": row.free,
        "of": row.of,
    }


def specification_values(wanted: Specification) -> dict[str, Any]:
    """What to look for in one switch."""
    return {
        "device": wanted.device,
        "needs": [
            {
                "connector": need.connector,
                "rate_bit_per_s": need.rate_bit_per_s,
                "lanes": need.lanes,
                "lane_bit_per_s": need.lane_bit_per_s,
                "quantity": need.quantity,
                "ports": [str(port) for port in need.ports],
            }
            for need in wanted.needs
        ],
        "packet_octets": wanted.packet_octets,
        "bonds": wanted.bonds,
        "vlans": list(wanted.vlans),
        "spanning_tree": wanted.spanning_tree,
        "watts": wanted.watts,
        "notes": list(wanted.notes),
    }
