"""The bill of a plan: everything that is to be bought, cut, labelled, plugged and ticked off, gathered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from netaudit.calculations.run_lengths import measured
from netaudit.model.bill import Bill, Bulk, RunLength
from netaudit.model.goods import Item
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan
from netaudit.network.topology import Topology, build_topology
from netaudit.ordering.cards.address_cards import address_cards
from netaudit.ordering.day.acceptance import acceptance_sheet
from netaudit.ordering.day.before_moving import after_moving, before_moving
from netaudit.ordering.day.bench import bench_tests
from netaudit.ordering.day.label_remarks import label_remarks
from netaudit.ordering.day.labels import labels
from netaudit.ordering.day.plug_order import plug_order, unplug_order
from netaudit.ordering.day.port_map import port_map
from netaudit.ordering.equipment.free_ports import free_ports
from netaudit.ordering.equipment.module_choice import Choices, choices, unnamed
from netaudit.ordering.equipment.module_remarks import module_remarks
from netaudit.ordering.equipment.modules import modules, needed_modules
from netaudit.ordering.equipment.part_remarks import NEVER_ON_THE_BILL, part_remarks
from netaudit.ordering.equipment.parts import parts
from netaudit.ordering.equipment.specification import specifications
from netaudit.ordering.request import Request, Series
from netaudit.ordering.shop.bulk import bulk
from netaudit.ordering.shop.cable_remarks import cable_remarks
from netaudit.ordering.shop.fitting import Fitted, fitted
from netaudit.ordering.shop.grown import grown
from netaudit.ordering.shop.made_up import made_up
from netaudit.ordering.shop.open_lengths import length_remarks
from netaudit.ordering.shop.reel_remarks import reel_remarks
from netaudit.ordering.shop.shopping import Shopping, shopping
from netaudit.ordering.shop.stock import Stock
from netaudit.ordering.shop.substitutes import substitutes
from netaudit.ordering.shop.totals import totals
from netaudit.ordering.shop.unmatched import unmatched
from netaudit.ordering.shop.wall_remarks import wall_remarks


class _Ground(NamedTuple):
    """What every part of a bill stands on."""

    plan: Plan
    """With the lengths that follow from the room."""
    lengths: tuple[RunLength, ...]
    """Those lengths."""
    topology: Topology
    cables: Shopping
    stock: Stock
    modules: Choices
    """Modules that nobody has named, chosen or asked for."""
    needed: Mapping[str, tuple[PortRef, ...]]
    """Ports that need a module bought, by physical layer."""
    fitted: Fitted
    """The plan with the modules that were chosen in their cages."""


class _Ordered(NamedTuple):
    """What is ordered."""

    cables: tuple[Item, ...]
    boxes: tuple[Bulk, ...]
    modules: tuple[Item, ...]
    parts: tuple[Item, ...]

    @property
    def items(self) -> tuple[Item, ...]:
        """Everything but boxes."""
        return (*self.cables, *self.modules, *self.parts)


def bill(plan: Plan, request: Request | None = None) -> Bill:
    """The bill of a plan, with lengths worked out where the plan has none.

    Raises InputError where a label's pattern cannot be followed.
    """
    chosen = Request() if request is None else request
    ground = _ground(plan, chosen)
    whole, topology = ground.plan, ground.topology
    bought = made_up(ground.fitted, ground.cables.made_up, ground.stock, chosen.spare)
    stickers = labels(_as_it_will_lie(plan, _sold(bought)), chosen.label)
    boxes, stopped = bulk(ground.cables.bulk, ground.stock, chosen)
    ordered = _Ordered(bought, boxes, *_plugged_into(ground, chosen.spare))
    sums, unpriced = totals(ordered.items, boxes)
    return Bill(
        file=plan.file,
        plan=plan.name,
        buy=bought,
        bulk=boxes,
        modules=ordered.modules,
        parts=ordered.parts,
        totals=sums,
        unpriced=unpriced,
        lengths=ground.lengths,
        measure=ground.cables.measure,
        identify=ground.cables.identify,
        installed=ground.cables.installed,
        owned=ground.cables.owned,
        labels=stickers,
        ports=port_map(whole, topology),
        free=free_ports(whole, topology),
        specifications=specifications(whole, topology),
        bench=bench_tests(bought, boxes, ordered.modules, ordered.parts),
        unplug=unplug_order(whole, topology),
        plug=plug_order(whole, topology),
        accept=acceptance_sheet(whole, topology),
        cards=address_cards(whole, topology),
        remarks=(*_remarks(ground, ordered, chosen), *label_remarks(stickers), *_never(ordered)),
        before_moving=before_moving(whole, topology),
        after_moving=after_moving(whole),
        unnamed=unnamed(whole, ground.modules),
        stopped=stopped,
    )


def _ground(plan: Plan, request: Request) -> _Ground:
    whole, lengths = measured(plan)
    topology = build_topology(whole)
    made = choices(whole, topology)
    return _Ground(
        plan=whole,
        lengths=lengths,
        topology=topology,
        cables=shopping(whole),
        stock=Stock(plan.stock, request.prices, request.series or _series(plan)),
        modules=made,
        needed=needed_modules(whole, topology, made.chosen),
        fitted=fitted(whole, topology, made.chosen),
    )


def _plugged_into(ground: _Ground, spare: float) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """Modules, and the parts that cables end in."""
    return modules(ground.needed, ground.stock, spare), parts(ground.plan, ground.cables.bulk, ground.stock, spare)


def _remarks(ground: _Ground, ordered: _Ordered, request: Request) -> Iterator[str]:
    """What to know before ordering."""
    plan, topology, cables = ground.plan, ground.topology, ground.cables
    yield from length_remarks(plan)
    yield from unmatched(request.prices, ordered.items, ordered.boxes, ground.stock, request.boxes_m)
    yield from reel_remarks(ordered.boxes)
    yield from substitutes(ground.fitted, cables, ground.stock)
    yield from grown(plan, topology, _sold(ordered.cables))
    yield from module_remarks(plan, topology, ground.modules, ground.needed, cables.made_up)
    yield from cable_remarks(ground.fitted, cables.made_up)
    yield from wall_remarks(plan, cables)
    yield from part_remarks(plan, topology, cables.bulk)


def _never(ordered: _Ordered) -> Iterator[str]:
    """What no bill names, said once where there is one."""
    if ordered.items or ordered.boxes:
        yield NEVER_ON_THE_BILL


def _series(plan: Plan) -> Series:
    """The series in which cables are sold where a plan's standards hold."""
    return "metric" if plan.regime == "iso" else "imperial"


def _sold(items: Iterable[Item]) -> Mapping[str, float]:
    """Cable to the length it is sold in [m], where that is known."""
    return {name: item.goods.length_m for item in items if item.goods.length_m is not None for name in item.serves}


def _as_it_will_lie(plan: Plan, sold: Mapping[str, float]) -> Plan:
    """The plan with each cable as long as it is sold; what is cut to measure has only the length that the plan gives.

    A length that was worked out is an estimate, which nobody should read off a cable as a fact.
    """
    cables = {
        name: cable if name not in sold else cable._replace(length_m=sold[name]) for name, cable in plan.cables.items()
    }
    return replace(plan, cables=cables)
