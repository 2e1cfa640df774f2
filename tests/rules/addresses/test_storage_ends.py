"""The ends of a storage: ports and bonds with their rates and subnets, and which of them belong together."""

from __future__ import annotations

from wiring import G, cable, jack, network, switch, vault, wired

from netaudit.model.plan import Bond, Cable, Device, Network, Port, Storage
from netaudit.rules.addresses.storage_ends import End, conflicting, ends_of, storages
from netaudit.rules.facts import build_facts


def ends(box: Storage, *things: Device | Network | Cable) -> list[End]:
    plan = wired(switch("core"), box, *things)
    return list(ends_of(box, build_facts(plan)))


def plugged(*ports: str) -> list[Cable]:
    return [cable(f"C{number}", f"vault/{port}", f"core/{number}") for number, port in enumerate(ports, 1)]


MEDIA = network("media", "10.44.20.0/24")


def test_a_cabled_port_is_an_end_with_what_it_could_run_and_what_it_does() -> None:
    (end,) = ends(vault(ports={"fast": jack(25, 10, untagged="media")}), MEDIA, *plugged("fast"))

    assert ("vault/fast", 25 * G, 10 * G) == (str(end.ref), end.best_bit_per_s, end.runs_bit_per_s)
    assert (("10.44.20.0/24",), False, None) == (end.lies_in, end.tagged, end.node)


def test_ports_without_a_cable_and_those_for_management_are_none() -> None:
    ports = {"fast": jack(), "idle": jack(), "care": jack(purpose="management")}

    assert ["vault/fast"] == [str(end.ref) for end in ends(vault(ports=ports), *plugged("fast", "care"))]


def test_a_bond_is_one_end_as_fast_as_its_slowest_member() -> None:
    bonds = {"both": Bond(("a", "b"), untagged="media")}
    (end,) = ends(vault(ports={"a": jack(10), "b": jack(1)}, bonds=bonds), MEDIA, *plugged("a", "b"))

    assert ("vault/both", ["vault/a", "vault/b"]) == (str(end.ref), [str(port) for port in end.ports])
    assert (G, G, ("10.44.20.0/24",)) == (end.best_bit_per_s, end.runs_bit_per_s, end.lies_in)


def test_a_rate_that_nobody_gives_is_unknown_and_a_module_tells_it() -> None:
    bare, lit = (
        vault(ports={"x": Port(connector="sfp+")}),
        vault(ports={"x": Port(connector="sfp+", module="10GBASE-SR")}),
    )
    far = switch("far", {"1": Port(connector="sfp+")})
    line = cable("F", "vault/x", "far/1", "OM4")

    assert [None, 10 * G] == [ends(box, far, line)[0].best_bit_per_s for box in (bare, lit)]


def test_a_network_without_a_subnet_stands_for_itself() -> None:
    (end,) = ends(vault(ports={"fast": jack(untagged="media")}), network("media"), *plugged("fast"))

    assert ("media",) == end.lies_in


def test_ends_of_different_nodes_do_not_conflict() -> None:
    ports = {name: jack(untagged="media") for name in "abc"}
    plain = ends(vault(ports=ports), MEDIA, *plugged(*"abc"))
    two = ends(vault(ports=ports, nodes={"left": ("a", "b"), "right": ("c",)}), MEDIA, *plugged(*"abc"))
    partly = ends(vault(ports=ports, nodes={"left": ("a",)}), MEDIA, *plugged(*"abc"))

    assert [3] == [len(group) for group in conflicting(plain)]
    assert [["a", "b"]] == [[end.ref.port for end in group] for group in conflicting(two)]
    assert [3] == [len(group) for group in conflicting(partly)]


def test_only_storages_are_storages() -> None:
    facts = build_facts(wired(switch("core"), vault("one"), vault("two")))

    assert ["one", "two"] == [box.name for box in storages(facts)]
