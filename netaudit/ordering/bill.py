"""The bill of a plan: everything that is to be bought, cut, labelled, plugged and ticked off, gathered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from netaudit.calculations.run_lengths import run_lengths, with_run_lengths
from netaudit.model.bill import Bill
from netaudit.model.goods import Item
from netaudit.model.plan import Plan
from netaudit.network.topology import build_topology
from netaudit.ordering.acceptance import acceptance_sheet
from netaudit.ordering.bench import bench_tests
from netaudit.ordering.bulk import bulk
from netaudit.ordering.cards import address_cards
from netaudit.ordering.free_ports import free_ports
from netaudit.ordering.grown import grown
from netaudit.ordering.labels import label_remarks, labels
from netaudit.ordering.made_up import made_up
from netaudit.ordering.modules import module_remarks, modules
from netaudit.ordering.moving import move_remarks, plug_order, unplug_order
from netaudit.ordering.parts import part_remarks, parts
from netaudit.ordering.port_map import port_map
from netaudit.ordering.request import Request, Series
from netaudit.ordering.shopping import shopping
from netaudit.ordering.specification import specifications
from netaudit.ordering.stock import Stock
from netaudit.ordering.substitutes import substitutes
from netaudit.ordering.totals import totals


def bill(plan: Plan, request: Request | None = None) -> Bill:
    """The bill of a plan, with lengths worked out where the plan has none.

    Raises InputError where a label's pattern cannot be followed.
    """
    chosen = Request() if request is None else request
    worked_out = run_lengths(plan)
    whole = with_run_lengths(plan)
    topology = build_topology(whole)
    stock = Stock(plan.stock, chosen.prices, chosen.series or _series(plan))
    sorted_cables = shopping(whole)
    bought = made_up(whole, sorted_cables.made_up, stock, chosen.spare)
    sold = _sold(bought)
    stickers = labels(_as_sold(whole, sold), chosen.label)
    cut, stopped = bulk(sorted_cables.bulk, stock, chosen)
    plugged = modules(whole, topology, stock, chosen.spare)
    mounted = parts(whole, sorted_cables.bulk, stock, chosen.spare)
    sums, unpriced = totals((*bought, *plugged, *mounted), cut)
    return Bill(
        file=plan.file,
        plan=plan.name,
        buy=bought,
        bulk=cut,
        modules=plugged,
        parts=mounted,
        totals=sums,
        unpriced=unpriced,
        lengths=worked_out,
        measure=sorted_cables.measure,
        identify=sorted_cables.identify,
        installed=sorted_cables.installed,
        owned=sorted_cables.owned,
        labels=stickers,
        ports=port_map(whole, topology),
        free=free_ports(whole, topology),
        specifications=specifications(whole, topology),
        bench=bench_tests(bought, cut, plugged, mounted),
        unplug=unplug_order(whole, topology),
        plug=plug_order(whole, topology),
        accept=acceptance_sheet(whole, topology),
        cards=address_cards(whole, topology),
        remarks=(
            *substitutes(whole, sorted_cables, stock),
            *grown(whole, topology, sold),
            *module_remarks(whole, topology),
            *part_remarks(whole, sorted_cables.bulk),
            *label_remarks(stickers),
        ),
        before_moving=move_remarks(whole),
        stopped=stopped,
    )


def _series(plan: Plan) -> Series:
    """The series in which cables are sold where a plan's standards hold."""
    return "metric" if plan.regime == "iso" else "imperial"


def _sold(items: Iterable[Item]) -> Mapping[str, float]:
    """Cable to the length it is sold in [m], where that is known."""
    return {name: item.goods.length_m for item in items if item.goods.length_m is not None for name in item.serves}


def _as_sold(plan: Plan, sold: Mapping[str, float]) -> Plan:
    """The plan with each cable as long as it will lie there."""
    cables = {
        name: cable if name not in sold else cable._replace(length_m=sold[name]) for name, cable in plan.cables.items()
    }
    return replace(plan, cables=cables)
