"""The rule on reach: each seat gets to its storage."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import found, gaps, places, report_of, room, two_switches
from wiring import cable, device, jack, network, seat, switch, vault, wired

import netaudit
from netaudit.model.plan import Cable, Device, Network, Port

NO_ROADS = {
    "no cable leaves cut-1": room().replace("  C01: {from: cut-1/wire", "  C01: {from: panel/3"),
    "the cables from cut-1/wire stop at panel/1": room().replace("from: panel/1, to: core/1", "from: panel/2, to: core/1"),
    "no cable reaches vault": room().replace("  D01: {from: core/9, to: vault/fast", "  D01: {from: core/9, to: core/10"),
    "cut-1/wire and core/1 have no rate in common": room(rates="[2.5G]", switch="[10G, 1G]"),
    "cut-1 is in office, vault serves in media": room(devices="").replace(
        "  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}",
        "  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}\n  office: {subnet: 192.168.44.0/24}",
    ).replace("up to 10G, network: media", "up to 10G, network: office"),
    "vault/fast serves no files": room().replace("network: media, mtu: 9000}\n\ncables", "network: media, serves: false}\n\ncables"),
}  # fmt: skip


@pytest.mark.parametrize("reason", NO_ROADS)
def test_a_seat_without_a_road_is_told_the_first_gap_and_the_step_that_closes_it(reason: str) -> None:
    report = report_of(NO_ROADS[reason])

    (finding,) = found(report, "no-path")
    assert ["path cut-1 > vault"] == places(finding)
    assert reason in finding.message
    assert finding.remedy.endswith(".")
    (judged,) = report.paths
    assert ("fail", None, (), True) == (
        judged.verdict, judged.path.agreed_bit_per_s, judged.path.hops, judged.path.planned
    )  # fmt: skip


def test_two_islands_of_one_network_are_named() -> None:
    text = two_switches().replace("  U01:", "  #U01:").replace("  U02:", "  #U02:")

    (finding,) = found(report_of(text), "no-path")

    assert "cut-1 (plugged into attic) and vault (plugged into core) are not joined in media" in finding.message


def test_a_seat_whose_network_is_not_given_is_not_proven_in_a_plan_with_networks() -> None:
    report = report_of(room().replace("rates: up to 10G, network: media", "rates: up to 10G"))

    (gap,) = gaps(report, "no-path")
    assert ["path cut-1 > vault", "port cut-1/wire"] == places(gap)
    assert "incomplete" == report.summary.verdict


def test_a_cable_between_two_networks_is_the_reason_and_both_its_ends_are_named() -> None:
    text = room().replace("  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}", "  media: {purpose: storage}\n  office: {}").replace(
        "1-8: {connector: rj45, rates: up to 10G}", "1-8: {connector: rj45, rates: up to 10G, network: office}"
    )  # fmt: skip

    (finding,) = found(report_of(text), "no-path")

    assert "cut-1/wire is in media and core/1, at the other end of its cable, in office" in finding.message
    assert "Put cut-1/wire and core/1 into one network." == finding.remedy


def test_a_trunk_that_lacks_a_network_is_the_reason() -> None:
    text = room().replace(
        "connector: rj45, rates: up to 10G, network: media",
        "connector: rj45, rates: up to 10G, networks: {tagged: [media]}",
    )

    (finding,) = found(report_of(text), "no-path")

    assert "cut-1/wire carries media tagged, and core/1, at the other end of its cable, does not" in finding.message
    assert "Let core/1 carry media tagged, or cut-1/wire as core/1 does." == finding.remedy


def test_a_port_that_is_named_and_serves_no_files_is_the_reason() -> None:
    text = room(seat="edits_from: [vault/slow]").replace(
        "  vault:\n    role: storage\n    ports:\n",
        "  vault:\n    role: storage\n    ports:\n      slow: {connector: rj45, rates: [1G], serves: false}\n",
    )

    (finding,) = found(report_of(text), "no-path")

    assert "vault/slow serves no files" in finding.message


MEDIA, OFFICE = network("media", purpose="storage"), network("office")


def lan(own: str, *rates: float, **fields: Any) -> Port:
    return jack(*rates, untagged=own, **fields)


def reason(*things: Device | Cable | Network) -> str:
    """Why no road leads from the seat to its storage, with the step that mends it."""
    (finding,) = found(netaudit.check(wired(*things)), "no-path")
    return f"{finding.message.partition(': ')[2]} | {finding.remedy}"


def test_a_second_port_that_is_free_or_serves_nothing_is_not_the_reason() -> None:
    """The seat and the storage each have a linked port; the spare ones matter neither by cable nor by network."""
    core = switch("core", {"1": lan("office"), "2": lan("media")})
    cut = seat("cut-1", {"wire": lan("office"), "spare": lan("media")})
    box = vault("vault", {"house": lan("office"), "mute": lan("media", serves=False), "fast": lan("media")})
    cords = [cable("C1", "cut-1/wire", "core/1"), cable("C2", "vault/fast", "core/2")]

    told = reason(MEDIA, OFFICE, core, cut, box, *cords)

    assert told.startswith("cut-1 is in office, vault serves in media, and no router")


def test_a_link_elsewhere_that_never_comes_up_is_not_the_reason_for_a_seat_without_a_cable() -> None:
    core, attic = switch("core", {"1": jack(10), "2": jack(10)}), switch("attic", {"1": jack(2.5), "2": jack(10)})

    lone = reason(core, attic, seat("cut-1"), vault(), cable("U1", "core/1", "attic/1"), cable("C2", "core/2", "vault/fast"))  # fmt: skip
    kept = reason(core, seat("cut-1", {"wire": jack(), "desk": jack(serves=False)}), vault(),
                  cable("C1", "core/1", "cut-1/desk"), cable("C2", "core/2", "vault/fast"))  # fmt: skip

    assert "no cable leaves cut-1 | Run a cable from cut-1 to a switch." == lone == kept


def adapter_between(count: int, **fields: Any) -> str:
    """A seat that hangs on an adapter with so many ports, and that on a switch where there is a second one."""
    plug = device("plug", "adapter", {str(n): lan("media") for n in range(1, count + 1)}, **fields)
    onward = [cable("C2", "plug/2", "core/1")] if count > 1 else []
    core = switch("core", {n: lan("media") for n in "1234"})
    return reason(MEDIA, plug, core, seat("cut-1", {"wire": lan("media")}), vault("vault", {"fast": lan("media")}),
                  cable("C1", "cut-1/wire", "plug/1"), cable("C3", "core/2", "vault/fast"), *onward)  # fmt: skip


def test_an_adapter_that_is_not_said_to_forward_is_the_reason() -> None:
    assert (
        "plug is not said to forward frames between its ports | Write `bridges: [1, 2]` for plug, if it does."
        == adapter_between(2)
    )


def test_an_adapter_with_one_port_or_that_forwards_between_others_is_not_the_reason() -> None:
    islands = "cut-1 (plugged into plug) and vault (plugged into core) are not joined in media"

    assert adapter_between(1).startswith(islands)
    assert adapter_between(3, bridges=("1", "3")).startswith(islands)


def test_a_misfit_at_the_seat_is_told_before_one_between_switches() -> None:
    attic = switch("attic", {"1": lan("office"), "2": lan("media")})
    core = switch("core", {"1": lan("media"), "2": lan("office")})
    cords = [
        cable("U1", "attic/2", "core/2"),
        cable("C1", "cut-1/wire", "attic/1"),
        cable("C2", "core/1", "vault/fast"),
    ]

    told = reason(MEDIA, OFFICE, core, attic, seat("cut-1", {"wire": lan("media")}),
                  vault("vault", {"fast": lan("media")}), *cords)  # fmt: skip

    assert told.startswith("attic/1 is in office and cut-1/wire, at the other end of its cable, in media")


def joined_twice(attic: Port, core: Port, second: Port, own: Port) -> str:
    """Two switches that run a spanning tree, joined by two cables, with a seat on the one and a storage on the other."""
    first = {"attic": attic, "core": core}
    pair = [switch(name, {"1": own, "2": port, "3": second}, spanning_tree=True) for name, port in first.items()]
    ends = {"C1": ("cut-1/wire", "attic/1"), "U1": ("attic/2", "core/2"), "U2": ("attic/3", "core/3"),
            "C2": ("core/1", "vault/fast")}  # fmt: skip
    return reason(MEDIA, OFFICE, *pair, seat("cut-1", {"wire": own}), vault("vault", {"fast": own}),
                  *(cable(name, *pair) for name, pair in ends.items()))  # fmt: skip


def test_a_link_that_the_spanning_tree_blocks_is_the_reason_and_what_is_lost_with_it() -> None:
    """One tree for all networks: IEEE 802.1D keeps the faster of two links, whatever they carry."""
    blocked = "the spanning tree, which is one for all networks, blocks attic/3 to core/3, the only link there for"

    assert (
        f"{blocked} office | Let every link between attic and core carry office, "
        "so that it does not matter which of them is blocked."
        == joined_twice(lan("media"), lan("media"), lan("office", 1), lan("office"))
    )
    assert (
        f"{blocked} its frames | Let every link between attic and core carry its frames, "
        "so that it does not matter which of them is blocked."
        == joined_twice(lan("media"), lan("office"), jack(1), jack())
    )
