"""Which fact about the room would make a length known."""

from __future__ import annotations

from dataclasses import replace

from racked import patched, racked

from netaudit.model.plan import Cable, Plan, Rack
from netaudit.ordering.bill import bill
from netaudit.ordering.shop.open_lengths import length_remarks


def cords(count: int) -> Plan:
    """Cords between the panel and the storage of a rack of unknown depth."""
    plan = patched(1)
    cord = plan.cables["C01"]
    storage = replace(plan.devices["vault"], depth_m=None)
    lines = {
        f"C{n}": cord._replace(name=f"C{n}", to_ports=(cord.to_ports[0]._replace(device="vault"),))
        for n in range(count)
    }
    return replace(
        plan, racks={**plan.racks, "bay": Rack("bay", 12)}, devices={**plan.devices, "vault": storage}, cables=lines
    )


def in_racks_of_their_own(count: int) -> Plan:
    """Cords in racks of unknown depth, one in each."""
    plan = cords(1)
    racks, devices, lines = {}, {}, {}
    for n in range(count):
        racks[f"r{n}"] = Rack(f"r{n}")
        ends = []
        for end in plan.cables["C0"].ends:
            device = plan.devices[end.device]
            assert device.rack is not None
            name = f"{end.device}-{n}"
            devices[name] = replace(device, name=name, rack=device.rack._replace(rack=f"r{n}"))
            ends.append(end._replace(device=name))
        lines[f"C{n}"] = Cable(f"C{n}", ends[0], (ends[1],))
    return replace(plan, racks=racks, devices=devices, cables=lines)


def test_a_cable_is_told_with_the_fact_that_it_waits_for() -> None:
    assert ("C0: give the depth of vault or of rack bay, and its length follows.",) == length_remarks(cords(1))


def test_cables_that_wait_for_the_same_fact_are_told_together() -> None:
    assert ("C0 and C1: give the depth of vault or of rack bay, and their lengths follow.",) == length_remarks(cords(2))
    assert length_remarks(cords(10))[0].startswith("C0, C1, C2, C3, C4, C5, C6, C7 and 2 more: give the depth of ")


def test_eight_facts_are_told_and_the_cables_of_the_others_counted() -> None:
    eight, nine, ten = (length_remarks(in_racks_of_their_own(count)) for count in (8, 9, 10))

    assert 8 == len(eight)
    assert "C7: give the depth of vault-7 or of rack r7, and its length follows." == eight[-1]
    assert (*eight, "1 more cable waits for other facts about racks and rooms to have a length.") == nine
    assert "2 more cables wait for other facts about racks and rooms to have a length." == ten[-1]


def test_nothing_is_told_of_cables_that_have_a_length_or_that_nothing_but_measuring_helps() -> None:
    assert () == length_remarks(patched(2))
    assert () == length_remarks(racked("from: cut-1/wire, to: loft-plate/1"))


def test_the_bill_tells_it() -> None:
    told = bill(cords(1)).remarks

    assert "C0: give the depth of vault or of rack bay, and its length follows." in told
