"""fast-link-blocked: the tree of three switches, with and without a root that anyone chose."""

from __future__ import annotations

import pytest
from rooms import TREE, found, gaps, places, report_of, triangle, two_switches
from wiring import G, cable, jack, seat, switch, vault, wired

import netaudit
from netaudit.model.report import Report
from netaudit.rules.paths.tree import FAST_LINK_BLOCKED
from netaudit.standards.trees import tree_costs

SLOW_FIRST = {
    "attic": "mac: 02:00:5e:00:00:02, ",
    "core": "mac: 02:00:5e:00:00:03, ",
    "old": "mac: 02:00:5e:00:00:01, ",
}


def test_the_slow_switch_as_root_blocks_the_fast_link_and_the_path_falls_to_1g() -> None:
    report = report_of(triangle(**SLOW_FIRST))
    (finding,) = found(report, "fast-link-blocked")

    assert "warn" == finding.severity
    assert ["port attic/2", "port core/2", "cable U01", "link attic/3 - old/1", "link core/3 - old/2"] == places(
        finding
    )
    assert (
        "The spanning tree blocks attic/2 to core/2, 10 Gb/s (1250 MB/s), "
        "and frames go over attic/3 to old/1 at 1 Gb/s (125 MB/s)" == finding.message
    )
    assert (1e9, 10e9) == (finding.measured and finding.measured.value, finding.limit and finding.limit.value)
    assert "IEEE 802.1D" in finding.source.document
    assert 1_000_000_000 == report.paths[0].path.promised_bit_per_s
    assert ["cut-1 > vault"] == [place.name for place in found(report, "path-below-target")[0].where[:1]]


def test_the_remedy_names_a_switch_that_opens_the_fast_link_as_the_root() -> None:
    (finding,) = found(report_of(triangle(**SLOW_FIRST)), "fast-link-blocked")
    attic = SLOW_FIRST["attic"] + "priority: 4096, "

    assert finding.remedy.startswith("Make attic the root: set its bridge priority to 4096 and write down")
    assert [] == found(report_of(triangle(**{**SLOW_FIRST, "attic": attic})), "fast-link-blocked")


@pytest.mark.parametrize("name", ["attic", "core"])
def test_with_a_priority_on_a_fast_switch_everything_is_clean(name: str) -> None:
    report = report_of(triangle(**{name: "priority: 4096, "}))

    assert ("pass", 0, 0, 0) == (
        report.summary.verdict,
        report.summary.fail,
        report.summary.warn,
        report.summary.not_checked,
    )
    assert 10_000_000_000 == report.paths[0].path.promised_bit_per_s


def test_without_identities_it_is_undecided_and_said_so_even_where_no_rate_is_wanted() -> None:
    report = report_of(triangle(wants=""))
    (gap,) = gaps(report, "fast-link-blocked")

    assert "incomplete" == report.summary.verdict
    assert ["path cut-1 > vault", "device attic"] == places(gap)
    assert gap.decides.startswith("set `priority` on the switch that should be the root")


def test_equally_fast_links_need_no_known_root() -> None:
    text = triangle().replace("up to 1G}", "up to 10G}")

    assert [] == gaps(report_of(text), "fast-link-blocked")
    assert [] == found(report_of(text), "fast-link-blocked")


def test_a_seat_that_does_not_go_round_is_not_warned() -> None:
    beside = triangle(**SLOW_FIRST).replace("to: attic/1,", "to: core/4,")

    assert [] == found(report_of(beside), "fast-link-blocked")


def round_the_house(storage: str, near: float) -> Report:
    """Four switches in a ring; the link from attic to core, at 1 Gb/s, is blocked, and a seat hangs on attic.

    Root is old. Costs by IEEE 802.1D table 17-3, long: 100 Mb/s 200000, 1 Gb/s 20000, 10 Gb/s 2000.
    """
    ring = {("attic", "core"): 1, ("attic", "loft"): near, ("loft", "old"): 0.1, ("old", "core"): 0.1}
    names = ("old", "loft", "attic", "core")
    ports = {name: {other: jack(rate) for pair, rate in ring.items() if name in pair for other in pair if other != name}
             for name in names}  # fmt: skip
    switches = [switch(name, {**ports[name], "1": jack()}, spanning_tree=True, mac=f"02:00:5e:00:00:0{place}")
                for place, name in enumerate(names)]  # fmt: skip
    cords = [cable(f"{one}-{other}", f"{one}/{other}", f"{other}/{one}") for one, other in ring]
    return netaudit.check(wired(*switches, seat("cut-1"), vault(), *cords, cable("C1", "cut-1/wire", "attic/1"),
                                cable("C2", f"{storage}/1", "vault/fast")))  # fmt: skip


def test_the_slowest_link_of_the_detour_is_told_wherever_it_stands() -> None:
    (finding,) = found(round_the_house("core", near=10), "fast-link-blocked")

    assert finding.message.startswith("The spanning tree blocks attic/core to core/attic, 1 Gb/s (125 MB/s), ")
    assert finding.message.endswith(" at 100 Mb/s (12.5 MB/s)")


@pytest.mark.parametrize("near", [10, 1])
def test_a_road_that_shares_only_the_fast_part_of_the_detour_is_not_warned(near: float) -> None:
    assert [] == found(round_the_house("loft", near), "fast-link-blocked")
    assert 1 == len(found(round_the_house("core", near), "fast-link-blocked"))


def test_one_seat_that_goes_round_is_enough() -> None:
    second = "  cut-2: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, network: media}}}\ncables:\n"
    text = triangle(**SLOW_FIRST).replace("cables:\n", second)
    both = f"{text}  C03: {{from: cut-2/wire, to: core/4, category: 6A, length: 3 m}}\n"

    assert 1 == len(found(report_of(both), "fast-link-blocked"))


def test_a_switch_that_another_keeps_from_being_the_root_is_not_advised() -> None:
    first = {**SLOW_FIRST, "old": "priority: 0, "}

    (finding,) = found(report_of(triangle(**first)), "fast-link-blocked")

    assert "Take out U02: then the tree has no slower way to prefer." == finding.remedy


def test_a_ring_elsewhere_that_stays_open_is_no_reason_against_a_root() -> None:
    boxes = "".join(
        f"  {name}: {{role: switch, spanning_tree: true, ports: {{1-2: {{connector: rj45, rates: up to {rate}}}}}}}\n"
        for name, rate in (("east", "10G"), ("west", "10G"), ("loft", "1G"))
    )
    ends = [("east/1", "west/1"), ("west/2", "loft/1"), ("loft/2", "east/2")]
    cords = "".join(f"  X{n}: {{from: {one}, to: {other}, category: 6A}}\n" for n, (one, other) in enumerate(ends))
    text = triangle(**SLOW_FIRST).replace("cables:\n", f"{boxes}cables:\n") + cords

    (finding,) = found(report_of(text), "fast-link-blocked")

    assert finding.remedy.startswith("Make attic the root")


def test_what_a_link_costs_has_the_source_of_its_rate_and_every_one_is_listed() -> None:
    (finding,) = found(report_of(triangle(**SLOW_FIRST)), "fast-link-blocked")
    costs = tree_costs().values()

    assert tree_costs()[10 * G].long.source == finding.source
    assert {row.long.source for row in costs} | {row.short.source for row in costs if row.short} <= set(
        FAST_LINK_BLOCKED.sources()
    )


def test_an_open_tree_beside_the_road_leaves_the_seat_alone() -> None:
    """The seat hangs on core like its storage, so that its road crosses no ring."""
    report = report_of(triangle().replace("to: attic/1,", "to: core/4,"))

    assert [] == gaps(report, "fast-link-blocked")
    assert "pass" == report.summary.verdict


def test_without_a_tree_the_loop_rule_speaks_and_not_this_one() -> None:
    report = report_of(triangle(tree=""))

    assert 1 == len(found(report, "loop-unprotected"))
    assert [] == found(report, "fast-link-blocked")


def test_the_slower_of_two_links_is_blocked_without_a_word() -> None:
    report = report_of(two_switches(attic=TREE, core=TREE, second="5"))

    assert ([], []) == (found(report, "fast-link-blocked"), gaps(report, "fast-link-blocked"))


NETWORKS = """\
netaudit: 1
networks: {{media: {{purpose: storage}}, office: {{}}}}
devices:
  cut-1: {{role: station, ports: {{wire: {{connector: rj45, rates: up to 1G, network: {seat}}}}}}}
  attic: {{role: switch, spanning_tree: true, ports: {ports}}}
  core: {{role: switch, spanning_tree: true, ports: {ports}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: {seat}}}}}}}
cables:
  C01: {{from: cut-1/wire, to: attic/1, category: 6A, length: 3 m}}
  U01: {{from: attic/2, to: core/2, category: 6A, length: 20 m}}
  U02: {{from: attic/3, to: core/3, category: 6A, length: 20 m}}
  C02: {{from: core/1, to: vault/fast, category: 6A, length: 3 m}}
"""
PORTS = (
    "{{1: {{connector: rj45, rates: up to 10G, network: {seat}}}, "
    "2: {{connector: rj45, rates: up to 10G, network: media}}, 3: {{connector: rj45, rates: up to 1G, network: office}}}}"
)


def one_cable_for_each_network(seat: str) -> str:
    return NETWORKS.format(seat=seat, ports=PORTS.format(seat=seat))


def test_one_tree_over_two_networks_takes_the_way_of_one_of_them() -> None:
    lost, kept = report_of(one_cable_for_each_network("office")), report_of(one_cable_for_each_network("media"))
    (finding,) = found(lost, "no-path")

    assert (
        "No road leads from cut-1 to vault: the spanning tree, which is one for all networks, "
        "blocks attic/3 to core/3, the only link there for office" == finding.message
    )
    assert finding.remedy.startswith("Let every link between attic and core carry office")
    assert "pass" == kept.summary.verdict
    assert [] == found(kept, "fast-link-blocked")
