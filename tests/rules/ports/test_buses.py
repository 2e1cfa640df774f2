"""The rule on host buses: every bus of the tables under, at and over the rate of a link."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import found, gaps, places, report_of, room
from wiring import G, aerial, cable, cage, device, jack, network, rates, seat, switch, vault, wired

from netaudit.audit import audit
from netaudit.calculations.buses import usable_bit_per_s
from netaudit.model.finding import Finding
from netaudit.model.plan import Bus, HostCable, Port, Rates
from netaudit.model.report import Report
from netaudit.rules.ports.buses import BUS_BELOW_LINK
from netaudit.standards.buses import host_buses

USB_10G = Bus("usb", rate_bit_per_s=10 * G)


def behind(bus: Bus, *gigabits: float, far: Port | None = None, **fields: Any) -> Report:
    """The report on a seat whose port hangs on a bus, cabled straight to its storage."""
    port = Port(connector="rj45", rates=rates(*gigabits) if gigabits else None, bus=bus, **fields)
    store = vault(ports={"fast": far or port._replace(bus=None, host_cable=None)})
    return audit(wired(seat("cut-1", {"wire": port}), store, cable("C1", "cut-1/wire", "vault/fast", "8.1", 2.0)))


def slow(bus: Bus, *gigabits: float, **fields: Any) -> list[Finding]:
    return found(behind(bus, *gigabits, **fields), "bus-below-link")


def bus_of(kind: Any, key: int) -> Bus:
    if kind == "usb":
        return Bus("usb", rate_bit_per_s=key)
    return Bus(kind, generation=key, lanes=4 if kind == "pcie" else None)


# What each bus carries one way [bit/s], typed from handbook tables: PCI Express 250 MB/s, 500 MB/s, 985 MB/s, 1.97 GB/s
# and 3.94 GB/s a lane (hpc-notes.pages.dev/reference/pcie) less packets of 256 octets with 24 more; USB 3.2 500, 1212
# and 2424 MB/s; Thunderbolt 3 about 22 Gb/s (spy.macrumors.com thread 2340127), Thunderbolt 5 46 Gb/s written
# (datastoragereport.com).
HANDBOOK_GBIT_PER_S = {
    ("pcie", 1): 4 * 2.0 * 256 / 280,
    ("pcie", 2): 4 * 4.0 * 256 / 280,
    ("pcie", 3): 4 * 7.877 * 256 / 280,
    ("pcie", 4): 4 * 15.754 * 256 / 280,
    ("pcie", 5): 4 * 31.508 * 256 / 280,
    ("usb", 5 * G): 4.0,
    ("usb", 10 * G): 9.697,
    ("usb", 20 * G): 19.394,
    ("thunderbolt", 3): 22.0,
    ("thunderbolt", 5): 46.0,
}


@pytest.mark.parametrize("key", HANDBOOK_GBIT_PER_S, ids=str)
def test_a_bus_of_the_handbooks_is_below_a_faster_link_and_not_below_a_slower_one(key: tuple[str, int]) -> None:
    carries = HANDBOOK_GBIT_PER_S[key]

    assert 1 == len(slow(bus_of(*key), carries * 1.001))
    assert [] == slow(bus_of(*key), carries * 0.999)


@pytest.mark.parametrize("key", sorted(host_buses()), ids=str)
def test_a_bus_is_not_below_a_link_of_just_its_rate_and_below_one_a_bit_faster(key: tuple[str, int]) -> None:
    bus = bus_of(*key)
    usable = usable_bit_per_s(bus)
    assert usable is not None
    exact, more = (Rates((usable.rate_bit_per_s + extra,)) for extra in (0, 1))

    def findings(own: Rates) -> list[Finding]:
        plain = Port(connector="rj45", rates=own)
        ends = [seat("cut-1", {"wire": plain._replace(bus=bus)}), vault(ports={"fast": plain})]
        return found(audit(wired(*ends, cable("C1", "cut-1/wire", "vault/fast", "8.1", 2.0))), "bus-below-link")

    assert [] == findings(exact)
    (finding,) = findings(more)
    assert (usable.rate_bit_per_s, "bit/s") == finding.measured
    assert (usable.rate_bit_per_s + 1, "bit/s") == finding.limit
    assert ("warn", usable.source) == (finding.severity, finding.source)


def test_usb_of_10_gb_s_is_just_below_a_link_of_10_gb_s() -> None:
    """USB 3.2: 128b/132b leaves 9.70 of 10 Gb/s, 1212 MB/s."""
    (finding,) = slow(USB_10G, 10, 1)

    assert ["port cut-1/wire", "port vault/fast", "cable C1"] == places(finding)
    assert (
        "USB 10G behind cut-1/wire carries 9.7 Gb/s (1212 MB/s) at the most, and the link there runs 10 Gb/s (1250 MB/s)"
        == finding.message
    )
    assert (
        "Give cut-1/wire a bus that carries 10 Gb/s (1250 MB/s). USB 20G or Thunderbolt 3 is enough." == finding.remedy
    )


@pytest.mark.parametrize(
    ("bus", "gigabits", "enough"),
    [
        (Bus("pcie", 2, 1), 10, " PCI Express 2 x4 is enough."),
        (Bus("pcie", 2, 4), 25, " PCI Express 2 x8 is enough."),
        (Bus("pcie", 3, 1), 10, " PCI Express 3 x2 is enough."),
        (Bus("usb", rate_bit_per_s=5 * G), 9.696969697, " USB 10G or Thunderbolt 3 is enough."),
        (Bus("pcie", 3, 2), 25, " PCI Express 3 x4 is enough."),
        (Bus("pcie", 3, 8), 100, " PCI Express 3 x16 is enough."),
        (Bus("pcie", 2, 4), 100, " PCI Express 3 x16 is enough."),
        (Bus("pcie", 1, 1), 2.5, " PCI Express 1 x2 is enough."),
        (Bus("usb", rate_bit_per_s=5 * G), 5, " USB 10G or Thunderbolt 1 is enough."),
        (Bus("thunderbolt", 3), 40, " Thunderbolt 5 is enough."),
        (Bus("thunderbolt", 5), 100, ""),
    ],
)
def test_the_remedy_names_the_least_bus_that_is_enough(bus: Bus, gigabits: float, enough: str) -> None:
    """PCI Express slots for a full port, 256 octets a packet: 10G in Gen2 x4 or Gen3 x2, 25G in Gen3 x4, 100G in Gen3 x16
    (worked from the handbook rates above)."""
    (finding,) = slow(bus, gigabits)

    assert finding.remedy.endswith(f".{enough}")
    assert (enough != "") == ("is enough" in finding.remedy)


def test_a_host_cable_that_lowers_the_bus_counts_and_is_the_remedy() -> None:
    """USB Type-C: a passive cable of 2 m holds 5 Gb/s where one of 1 m holds 10 Gb/s."""
    long = HostCable(2.0)

    (finding,) = slow(USB_10G, 5, host_cable=long)

    assert "USB 10G, lowered by 2 m of host cable behind cut-1/wire carries 4 Gb/s (500 MB/s)" in finding.message
    assert "Use a host cable of at most 1 m at cut-1/wire, which leaves USB 10G whole." == finding.remedy
    assert [] == slow(USB_10G, 5, host_cable=HostCable(1.0))
    assert [] == slow(USB_10G, 5)


def test_the_least_possible_rate_decides_while_one_end_is_unknown() -> None:
    unknown = Port(connector="rj45")

    assert 1 == len(slow(Bus("pcie", 1, 1), 10, 5, far=unknown))
    assert [] == slow(Bus("thunderbolt", 3), 10, 5, far=unknown)
    assert [] == gaps(behind(Bus("thunderbolt", 3), 10, 5, far=unknown), "bus-below-link")
    (gap,) = gaps(behind(Bus("pcie", 3, 1), 10, 5, far=unknown), "bus-below-link")
    assert ["port vault/fast"] == places(gap)
    assert "write down `rates` of vault/fast, as its data sheet has them" == gap.decides
    assert [] == gaps(behind(Bus("pcie", 3, 1), far=unknown), "bus-below-link")


def test_a_bus_below_every_possible_rate_is_told_with_the_least_of_them() -> None:
    (finding,) = slow(Bus("usb", rate_bit_per_s=5 * G), 10, 5, far=Port(connector="rj45"))

    assert (5 * G, "bit/s") == finding.limit
    assert "and the link there runs 5 Gb/s (625 MB/s)" in finding.message


def test_a_bus_of_just_the_highest_possible_rate_is_enough_whatever_the_unknown_end_runs() -> None:
    """USB 3.2 at 5 Gb/s leaves 4 Gb/s after 8b/10b."""
    report = behind(Bus("usb", rate_bit_per_s=5 * G), 4, 1, far=Port(connector="rj45"))

    assert [] == gaps(report, "bus-below-link") == found(report, "bus-below-link")


def test_the_highest_common_rate_counts_once_both_ends_are_known() -> None:
    assert 1 == len(slow(Bus("pcie", 3, 1), 10, 1))
    assert [] == slow(Bus("pcie", 3, 1), 10, 1, far=jack(1))


def test_a_bus_in_no_table_is_bounded_by_its_signal_or_stays_open() -> None:
    (finding,) = slow(Bus("usb", rate_bit_per_s=480_000_000), 1)
    assert "plan" == finding.source.standing
    assert "USB 480M behind cut-1/wire carries 480 Mb/s (60 MB/s) at the most" in finding.message
    for bus in (Bus("usb", rate_bit_per_s=80 * G), Bus("pcie", 7, 4), Bus("usb"), Bus("usb", rate_bit_per_s=1 * G)):
        (gap,) = gaps(behind(bus, 1), "bus-below-link")
        assert ["port cut-1/wire"] == places(gap)
        assert f"What {bus} behind cut-1/wire carries is in no table" == gap.reason
        assert "read it in the computer's data sheet, or measure there" == gap.decides


def test_a_trunk_counts_all_its_lanes_and_is_told_once() -> None:
    def trunk(bus: Bus) -> list[Finding]:
        store = vault(ports={"fast": Port(connector="qsfp+", rates=rates(40), bus=bus)})
        core = switch("core", {str(nth): cage(10) for nth in (1, 2, 3, 4)})
        lanes = cable("B1", "vault/fast", [f"core/{nth}" for nth in (1, 2, 3, 4)], "twinax", 1.0)
        return found(audit(wired(store, core, lanes)), "bus-below-link")

    (finding,) = trunk(Bus("pcie", 3, 4))

    assert (40 * G, "bit/s") == finding.limit
    assert [] == trunk(Bus("pcie", 3, 8))


def test_the_ends_of_lanes_count_their_own_lane() -> None:
    ends = [seat(f"cut-{nth}", {"w": cage(10, bus=Bus("pcie", 3, 2))}) for nth in (1, 2, 3, 4)]
    core = switch("core", {"q": Port(connector="qsfp+", rates=rates(40))})
    lanes = cable("B1", "core/q", [f"cut-{nth}/w" for nth in (1, 2, 3, 4)], "twinax", 1.0)

    assert [] == found(audit(wired(*ends, core, lanes)), "bus-below-link")


def test_both_ends_of_a_link_are_judged_and_the_other_port_follows() -> None:
    findings = found(behind(USB_10G, 10, far=jack(10, bus=USB_10G)), "bus-below-link")

    assert [["port cut-1/wire", "port vault/fast", "cable C1"], ["port vault/fast", "port cut-1/wire", "cable C1"]] == [
        places(finding) for finding in findings
    ]


def test_a_radio_a_dead_link_and_a_port_without_a_bus_are_not_asked_about() -> None:
    air = aerial(1.2, untagged="air", bus=Bus("usb", rate_bit_per_s=480_000_000))
    things = [network("air"), seat("cut-1", {"a": air}), device("ap", "access-point", {"w": aerial(1.2)})]
    assert [] == found(audit(wired(*things)), "bus-below-link")
    assert [] == slow(Bus("usb", rate_bit_per_s=480_000_000), 2.5, far=jack(10, 1))
    assert [] == found(report_of(room()), "bus-below-link") == gaps(report_of(room()), "bus-below-link")


def test_the_rule_cites_every_bus_and_every_host_cable() -> None:
    sources = set(BUS_BELOW_LINK.sources())

    assert {bus.source for bus in host_buses().values()} < sources
    assert any("host cable" in str(source).lower() or "passive" in str(source).lower() for source in sources)
    assert "plan" in {source.standing for source in sources}
