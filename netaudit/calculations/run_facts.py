"""Facts that would make a length known: what to write of racks and rooms so that a cable without a length gets one.

The other side of run_ways and run_geometry: where these find no way though the cable has one, something is named here.
"""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.calculations.run_geometry import NEAR_FACED, below_top
from netaudit.model.plan import Cable, Device, Plan, Rack


def missing_facts(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Each cable whose length would follow if the plan gave some facts, with these: `depth of vault or of rack bay`.

    Cables that neither name their routes nor lie within one rack have none: no such fact is enough for them.
    """
    unmeasured = (cable for cable in plan.cables.values() if cable.length_m is None)
    wants = ((cable.name, _facts(plan, cable)) for cable in unmeasured)
    return tuple((name, ", and the ".join(facts)) for name, facts in wants if facts)


def _facts(plan: Plan, cable: Cable) -> tuple[str, ...]:
    return _along_routes(plan, cable) if cable.via else _inside_rack(plan, cable)


def _along_routes(plan: Plan, cable: Cable) -> tuple[str, ...]:
    """What is not known of the ends of a cable along routes, each fact once."""
    facts: dict[str, None] = {}
    for end in cable.ends:
        device = plan.devices[end.device]
        rack = None if device.rack is None else plan.racks[device.rack.rack]
        if rack is not None and not below_top(rack, device):
            return ()
        facts.update(dict.fromkeys(_of_end(device, rack)))
    return tuple(facts)


def _of_end(device: Device, rack: Rack | None) -> Iterator[str]:
    if rack is not None:
        silent = [what for what, known in (("units", rack.units), ("depth", rack.depth_m)) if known is None]
        if silent:
            yield f"{' and '.join(silent)} of rack {rack.name}"
    elif device.role != "outlet" and device.room is None:
        yield f"room or rack of {device.name}"


def _inside_rack(plan: Plan, cable: Cable) -> tuple[str, ...]:
    """What is not known of a rack in which all ends of a cable are: how deep it is, or the one housing that asks."""
    devices = {end.device: plan.devices[end.device] for end in cable.ends}
    near, *others = devices.values()
    racks = {None if device.rack is None else device.rack.rack for device in devices.values()}
    name = None if near.rack is None else near.rack.rack
    if name is None or len(racks) > 1 or not others or plan.racks[name].depth_m is not None:
        return ()
    sides = {device.rack.mounted for device in devices.values() if device.rack is not None}
    deep = [device.name for device in devices.values() if device.role not in NEAR_FACED and device.depth_m is None]
    if len(sides) == 1 and not deep:
        return ()
    return (f"depth of {deep[0]} or of rack {name}" if len(sides) == 1 and len(deep) == 1 else f"depth of rack {name}",)
