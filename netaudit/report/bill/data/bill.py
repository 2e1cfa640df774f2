"""A bill as JSON in the format netaudit.bill/1; unknown is null, prices are decimal text."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from netaudit.model.bill import Bill, Bulk
from netaudit.model.goods import Item, Total
from netaudit.report.bill.data.day import (
    acceptance_values,
    bench_values,
    card_values,
    label_values,
    port_values,
    step_values,
)
from netaudit.report.bill.data.room import free_values, length_values, specification_values
from netaudit.report.goods_values import decimal_text, goods_values, price_values, rounded_m

FORMAT = "netaudit.bill/1"


def as_json(bill: Bill) -> str:
    """The whole bill; ends with a line feed."""
    return json.dumps(as_data(bill), ensure_ascii=False, indent=2) + "\n"


def as_data(bill: Bill) -> dict[str, Any]:
    """The whole bill as plain values."""
    return {
        "format": FORMAT,
        "buy": [_bought(item) for item in bill.buy],
        "bulk": [_bulk(bulk) for bulk in bill.bulk],
        "modules": [_module(item) for item in bill.modules],
        "parts": [_part(item) for item in bill.parts],
        "labels": [label_values(label) for label in bill.labels],
        "measure": list(bill.measure),
        "identify": list(bill.identify),
        "already_installed": list(bill.installed),
        "already_owned": list(bill.owned),
        "plan": {"file": bill.file, "name": bill.plan},
        "totals": [_total(total) for total in bill.totals],
        "unpriced": bill.unpriced,
        "lengths": [length_values(run) for run in bill.lengths],
        "ports": [port_values(row) for row in bill.ports],
        "free": [free_values(row) for row in bill.free],
        "specifications": [specification_values(wanted) for wanted in bill.specifications],
        "bench": [bench_values(test) for test in bill.bench],
        "moves": {
            "before": list(bill.before_moving),
            "unplug": [step_values(step) for step in bill.unplug],
            "plug": [step_values(step) for step in bill.plug],
            "after": list(bill.after_moving),
        },
        "accept": [acceptance_values(row) for row in bill.accept],
        "addresses": [card_values(card) for card in bill.cards],
        "remarks": list(bill.remarks),
        "unnamed": [str(port) for port in bill.unnamed],
        "stopped": bill.stopped,
    }


def _bought(item: Item) -> dict[str, Any]:
    """A made-up cable; what has no screen is not screened."""
    return {
        **goods_values(item.goods),
        "screened": bool(item.goods.screened),
        "quantity": item.quantity,
        "spares": item.spares,
        "cables": list(item.serves),
        **_cost(item),
    }


def _part(item: Item) -> dict[str, Any]:
    return {
        **goods_values(item.goods),
        "quantity": item.quantity,
        "spares": item.spares,
        "serves": list(item.serves),
        **_cost(item),
    }


def _module(item: Item) -> dict[str, Any]:
    return {
        "what": item.goods.what,
        "phy": item.goods.detail,
        "quantity": item.quantity,
        "spares": item.spares,
        "ports": list(item.serves),
        **_cost(item),
    }


def _cost(item: Item) -> dict[str, Any]:
    return {"price": price_values(item.price), "cost": price_values(item.cost)}


def _total(total: Total) -> dict[str, Any]:
    return {"currency": total.currency, "amount": decimal_text(total.amount), "rows": total.rows}


def _bulk(bulk: Bulk) -> dict[str, Any]:
    """The boxes of one kind of cable; their number is null, and not nothing, while no run can be cut."""
    sizes = [rounded_m(box.size_m) for box in bulk.boxes]
    return {
        "category": bulk.category,
        "screened": bulk.screened,
        "box_m": _only(sizes),
        "boxes": len(bulk.boxes) or None,
        "lower_bound": bulk.lower_bound,
        "proved_optimal": bulk.proved_optimal,
        "cuts": [
            {
                "box": cut.box,
                "cable": cut.cable,
                "length_m": rounded_m(cut.length_m),
                "run_m": rounded_m(cut.run_m),
            }
            for cut in bulk.cuts
        ],
        "left_m": [rounded_m(box.left_m) for box in bulk.boxes],
        "sizes_m": sizes,
        "prices": [price_values(box.price) for box in bulk.boxes],
        "cost": price_values(bulk.cost),
        "objective": bulk.objective,
        "price_bound": price_values(bulk.price_bound),
        "unmeasured": list(bulk.unmeasured),
        "too_long": list(bulk.too_long),
    }


def _only(sizes: Sequence[float | None]) -> float | None:
    """The size of all boxes; None where they differ, or where there is none."""
    return sizes[0] if len(set(sizes)) == 1 else None
