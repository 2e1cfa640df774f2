"""The facts for want of which a promise is open."""

from __future__ import annotations

from dataclasses import replace

import pytest
from lightrooms import fibre, joined, run
from rooms import plan_of, room, triangle
from wiring import G, aerial, cable, cage, device, only_link, rates, seat, vault, wired

from netaudit.model.place import PortRef
from netaudit.model.plan import Bus, Port
from netaudit.rules import gaps
from netaudit.rules.facts import Facts, build_facts


def facts_of(text: str) -> Facts:
    return build_facts(plan_of(text))


def run_of(facts: Facts):  # type: ignore[no-untyped-def]
    return facts.link_between[frozenset((PortRef("cut-1", "wire"), PortRef("core", "1")))]


@pytest.mark.parametrize(
    ("text", "decides"),
    [
        (room(None), "measure W01: up to 96 m is good"),
        (room(None, wall="6"), "measure W01: up to 33 m is good"),
        (room(None, rates="[1G]", switch="[1G]"), "measure W01: up to 96 m is good"),
        (room().replace("length: 3 m, ", "").replace("length: 38 m", "length: 98 m"), "measure C01: up to 1 m is good"),
        (room(None).replace("length: 3 m, ", ""), "measure C01 and W01: together up to 99 m is good"),
        (room("30 m", wall="unknown", rates="[1G]", switch="[1G]"), "read the jacket of W01: 6A means 1 Gb/s (125 MB/s), 6 means 1 Gb/s (125 MB/s), 5e means 1 Gb/s (125 MB/s)"),
        (room("70 m", wall="unknown"), "read the jacket of W01: 6A means 10 Gb/s (1250 MB/s), 6 means 5 Gb/s (625 MB/s), 5e means 2.5 Gb/s (312 MB/s)"),
        (room(joint=", category: unknown"), "read the category moulded into plate/1"),
        (room("85 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "length: 8 m"), "read the gauge printed on C01: 24 AWG is best"),
        (room(None, top="ambient: 40 °C"), "measure W01: up to 82.8 m is good"),
        (room(None).replace("length: 3 m", "length: 19 m"), "measure W01: up to 75 m is good"),
        (room("70 m").replace("length: 3 m, cord", "cord"), "measure C01: up to 22.3 m is good"),
        (room("70 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "cord: 28 AWG"), "measure C01: up to 15.6 m is good"),
        (room("70 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "cord: 28 AWG").replace("length: 1 m, ", ""), "measure C01 and P01: together up to 16.4 m is good"),
        (room(None, switch="10G").replace("1-8: {connector: rj45, rates: 10G", "1-8: {connector: sfp+, rates: 10G, module: 10GBASE-T"), "measure W01: up to 26 m is good"),
        (room("30 m", top="ambient: 61 °C"), "measure the air along C01, W01 and P01, or move it somewhere cooler"),
        (room("79 m", top="regime: tia").replace("length: 3 m, cord: 26", "length: 20 m, cord: 22"), "shorten C01, W01 and P01"),
        (room().replace("rates: up to 10G, network", "network"), "write down `rates` of cut-1/wire, as its data sheet has them"),
    ],
)  # fmt: skip
def test_the_missing_fact_is_the_one_that_decides(text: str, decides: str) -> None:
    facts = facts_of(text)

    assert decides == gaps.missing_fact(run_of(facts), facts.plan).decides


def of_light(text: str) -> gaps.Missing:
    """What the one link of a plan lacks."""
    facts = facts_of(text)
    (link,) = facts.topology.links
    return gaps.missing_fact(link, facts.plan)


@pytest.mark.parametrize(
    ("text", "reason", "decides"),
    [
        (run(fibre(length=None)), "The length of F1 is not given", "measure F1"),
        (run(fibre(), fibre(length=None)), "The length of F2 is not given", "measure F2"),
        (run(fibre(), near=None), "Which module sits in core/9 and vault/fast is not given", "write down `module` of core/9 and vault/fast, such as 10GBASE-SR"),
        (run(fibre(), near=None, far="10GBASE-SR"), "Which module sits in core/9 is not given", "write down `module` of core/9, such as 10GBASE-SR"),
        (run(fibre(), far=None), "Which module sits in vault/fast is not given", "write down `module` of vault/fast, such as 10GBASE-SR"),
        # Clause 52.9.11 as summed up by the FOA: 2.6 dB; five pairs of connectors at 0.75 dB each lose more, at 0.3 dB less.
        (run(*joined(5, 50, "OM3")), "With the worst joints that the standards allow, F1, F2, F3, F4 and F5 may lose more than the 2.6 dB allowed", "measure the loss of F1, F2, F3, F4 and F5 and write it down as `loss`: up to 2.6 dB is good"),
        (run(fibre("OS2"), near="PSM4"), "No loss that PSM4 may bridge is published", "compare the loss of F1 with the data sheet of the modules"),
        # Clause 52, table 52-17: 10GBASE-ER reaches 30 km, and 40 km over an engineered link.
        (run(fibre("OS2", "35 km"), near="10GBASE-ER"), "Past 30 km, F1 can work only as a link engineered for it", "shorten F1 to 30 km, or have the link engineered and measured"),
        (run(fibre("OM1"), near="1000BASE-LX10"), "No published limit tells whether OM1 carries that rate", "ask the maker of F1"),
        (run(fibre("OS2", "35 km"), near="25GBASE-BR10-D", far="25GBASE-BR10-U"), "No published limit tells whether OS2 carries that rate", "ask the maker of F1"),
    ],
)  # fmt: skip
def test_what_a_run_of_fibre_lacks_is_told_with_what_would_be_good(text: str, reason: str, decides: str) -> None:
    missing = of_light(text)

    assert (reason, decides) == (missing.reason, missing.decides)


def test_ports_that_take_anything_and_a_cable_nobody_read_are_of_unknown_make() -> None:
    bare = Port(rates=rates(10))
    facts = build_facts(wired(seat("cut-1", {"wire": bare}), vault("vault", {"fast": bare}),
                              cable("C1", "cut-1/wire", "vault/fast", "unknown")))  # fmt: skip
    (link,) = facts.topology.links

    assert "read the jacket of C1" == gaps.missing_fact(link, facts.plan).decides


def test_a_kind_of_cable_that_no_table_has_is_told_with_it() -> None:
    """SFF-8431 and IEEE 802.3 have passive twinax at 10 Gb/s and up, nothing at 1 Gb/s."""
    facts = build_facts(wired(seat("cut-1", {"wire": cage(1)}), vault("vault", {"fast": cage(1)}),
                              cable("D1", "cut-1/wire", "vault/fast", "twinax")))  # fmt: skip
    (link,) = facts.topology.links
    missing = gaps.missing_fact(link, facts.plan)

    assert ("No published limit tells whether twinax carries that rate", "ask the maker of D1") == missing[1:]


def test_a_radio_lacks_a_cable_and_a_host_cable_its_bus() -> None:
    air = only_link(seat("cut-1", {"air": aerial(1)}), device("beacon", "access-point", {"air": aerial(1)}))
    host = only_link(
        seat("cut-1", {"dock": Port(connector="usb-c")}), device("plug", "adapter", {"up": Port(connector="usb-c")}),
        cable("H1", "cut-1/dock", "plug/up", "usb", 1),
    )  # fmt: skip
    no_radio, no_bus = gaps.missing_fact(air, wired()), gaps.missing_fact(host, wired())

    assert "plug cut-1 into a wired port, or measure at the desk" == no_radio.decides
    assert "What the bus of cut-1/dock carries over H1 does not follow from the plan" == no_bus.reason
    assert no_bus.decides.startswith("write down `bus` of cut-1/dock, such as `usb 10G`; where it is given")


def test_a_host_cable_whose_bus_is_given_lacks_only_its_length() -> None:
    port = Port(connector="usb-c", bus=Bus(kind="usb", rate_bit_per_s=10 * G))
    link = only_link(seat("cut-1", {"dock": port}), device("plug", "adapter", {"up": port}),
                     cable("H1", "cut-1/dock", "plug/up", "usb", None))  # fmt: skip

    assert "The length of H1 is not given" == gaps.missing_fact(link, wired()).reason


def test_the_cable_to_look_at_first_is_the_first_by_name_whichever_way_the_run_is_written() -> None:
    facts = facts_of(room(None).replace("length: 3 m, ", "").replace("length: 1 m, ", ""))

    assert "cable C01" == str(gaps.missing_fact(run_of(facts), facts.plan).where)


@pytest.mark.parametrize(
    ("text", "why", "reason", "decides"),
    [
        (triangle(), "root", "Which switch is the root of the spanning tree is not known, and on the ring of attic, core and old it decides what is blocked", "set `priority` on the switch that should be the root: the one with the fastest links"),
        (triangle(attic="mac: 02:00:5e:00:00:01, ").replace("rates: up to 1G}", "network: media}"), "cost", "What attic/3 to old/1 costs the spanning tree on the ring of attic, core and old is not known", "write down `rates` of attic/3 and old/1, or set `tree_costs: long`"),
        # IEEE 802.1D-1998, table 8-5, ends at 10 Gb/s: the costs of 100 Gb/s are in no short scale.
        (triangle(attic="mac: 02:00:5e:00:00:01, ").replace("up to 10G", "100G").replace("up to 1G", "100G").replace("netaudit: 1", "netaudit: 1\ntree_costs: short"), "cost", "What attic/2 to core/2 costs the spanning tree on the ring of attic, core and old is not known", "write down `rates` of attic/2 and core/2, or set `tree_costs: long`"),
    ],
)  # fmt: skip
def test_what_the_tree_of_a_ring_lacks_is_told_with_the_ring(text: str, why: str, reason: str, decides: str) -> None:
    facts = facts_of(text)
    (mesh,) = facts.topology.tree.open

    assert (why, "device attic", reason, decides) == (mesh.why, *map(str, gaps.undecided_tree(mesh)))


def test_a_bond_whose_cost_decides_is_to_be_looked_up() -> None:
    (tree,) = facts_of(triangle()).topology.tree.open
    missing = gaps.undecided_tree(replace(tree, why="bond"))

    assert missing.reason.startswith(
        "Makers count the cost of a bond in two ways, and on the ring of attic, core and old"
    )
    assert "look up in the switches which links are blocked, or set their path costs alike" == missing.decides


def test_only_a_link_on_open_rings_lies_in_them() -> None:
    facts = facts_of(triangle())

    inside = {link.cables for link in facts.topology.links if gaps.open_mesh(link, facts)}

    assert {("U01",), ("U02",), ("U03",)} == inside
