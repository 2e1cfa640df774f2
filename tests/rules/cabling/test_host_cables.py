"""Host cables, at the end of every published length and one centimetre beyond."""

from __future__ import annotations

import pytest
from rooms import found, gaps, places, report_of

from netaudit.model.finding import Finding
from netaudit.model.report import Report
from netaudit.rules.cabling.host_cables import HOST_CABLE_TOO_LONG
from netaudit.standards.buses import HostCableReach, host_cables

RULE = "host-cable-too-long"
LONGEST = [reaches[-1] for reaches in host_cables().values()]
EVERY = [reach for reaches in host_cables().values() for reach in reaches]


def named(reach: HostCableReach) -> str:
    kind, own = reach.bus
    return f"{kind} {own if kind == 'thunderbolt' else f'{own // 1_000_000_000}G'}"


def desk(length: str, *, bus: str | None = None, active: bool = False) -> Report:
    """The verdict on a seat whose adapter hangs on a host cable."""
    own = ("" if bus is None else f", bus: {bus}") + (", active: true" if active else "")
    return report_of(f"""\
netaudit: 1
networks: {{media: {{purpose: storage}}}}
devices:
  cut-1:
    role: station
    wants: 10G
    ports: {{wire: {{connector: rj45, rates: up to 10G, network: media, host_cable: {length}{own}}}}}
  core: {{role: switch, ports: {{1-4: {{connector: rj45, rates: up to 10G}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: media}}}}}}
cables:
  C01: {{from: cut-1/wire, to: core/1, category: 6A, length: 3 m, cord: 24 AWG}}
  C02: {{from: core/2, to: vault/fast, category: 6A, length: 3 m, cord: 24 AWG}}
""")


def only(report: Report) -> Finding:
    (finding,) = found(report, RULE)
    return finding


@pytest.mark.parametrize("reach", EVERY, ids=lambda reach: f"{named(reach)} {reach.active} {reach.reach_m} m")
def test_a_cable_at_a_length_that_holds_some_signal_is_not_too_long(reach: HostCableReach) -> None:
    report = desk(f"{reach.reach_m} m", bus=named(reach), active=reach.active)

    assert [] == [*found(report, RULE), *gaps(report, RULE)]


@pytest.mark.parametrize("reach", LONGEST, ids=lambda reach: f"{named(reach)} {reach.active}")
def test_a_cable_a_centimetre_past_the_longest_is_too_long(reach: HostCableReach) -> None:
    finding = only(desk(f"{reach.reach_m + 0.01:.2f} m", bus=named(reach), active=reach.active))

    severity = "fail" if reach.length_source.may_fail else "warn"
    assert (severity, reach.length_source) == (finding.severity, finding.source)
    assert ["port cut-1/wire"] == places(finding)
    assert ((reach.reach_m, "m"), 7) == (finding.limit, finding.line)
    assert (pytest.approx(reach.reach_m + 0.01), "m") == finding.measured


# direct.pc-physics.com and the table of USB Type-C R2.0 at people.kernel.org: 2 m at the most without electronics
@pytest.mark.parametrize("bus", ["thunderbolt 3", "thunderbolt 4", "usb 5G", "usb 10G", "usb 40G"])
def test_two_metres_without_electronics_lower_a_bus_and_more_are_too_long(bus: str) -> None:
    assert [] == found(desk("2 m", bus=bus), RULE)
    assert (2, "m") == only(desk("2.01 m", bus=bus)).limit


# USB Type-C R2.1: lengths are informative, the loss is the requirement (graniteriverlabs.com on passive cables for USB4)
@pytest.mark.parametrize(
    ("bus", "severity"),
    [
        ("thunderbolt 2", "fail"),
        ("thunderbolt 3", "fail"),
        ("thunderbolt 4", "warn"),
        ("usb 5G", "warn"),
        ("usb 10G", "warn"),
        ("usb 20G", "warn"),
        ("usb 40G", "warn"),
    ],
)
def test_a_length_that_the_standard_only_informs_of_warns(bus: str, severity: str) -> None:
    assert severity == only(desk("4 m", bus=bus)).severity


def test_whatever_says_that_lengths_are_informative_limits_no_length_by_itself() -> None:
    sources = [reach.length_source for reach in EVERY]

    assert [] == [source for source in sources if "informative" in (source.clause or "") and source.may_fail]


@pytest.mark.parametrize(
    ("bus", "length", "active", "message", "remedy"),
    [
        (
            "thunderbolt 3",
            "3 m",
            False,
            "cut-1/wire hangs on 3 m of host cable; one without electronics carries Thunderbolt 3 over 2 m at the most",
            "Use a host cable of at most 0.8 m for 40 Gb/s or 2 m for 20 Gb/s, or an active one of at most 2 m; "
            "the network cable may be the long one.",
        ),
        (
            "thunderbolt 3",
            "3 m",
            True,
            "cut-1/wire hangs on 3 m of host cable; an active one carries Thunderbolt 3 over 2 m at the most",
            "Use a host cable of at most 2 m for 40 Gb/s or one whose maker answers for that length; "
            "the network cable may be the long one.",
        ),
        (
            "usb 5G",
            "3 m",
            False,
            "cut-1/wire hangs on 3 m of host cable; one without electronics carries USB 5G over 2 m at the most",
            "Use a host cable of at most 2 m for 5 Gb/s; the network cable may be the long one.",
        ),
        (
            "thunderbolt 2",
            "4 m",
            False,
            "cut-1/wire hangs on 4 m of host cable; one without electronics carries Thunderbolt 2 over 3 m at the most",
            "Use a host cable of at most 3 m for 20 Gb/s, or an active one of at most 60 m; "
            "the network cable may be the long one.",
        ),
    ],
)
def test_the_remedy_names_each_length_with_its_signal(
    bus: str, length: str, active: bool, message: str, remedy: str
) -> None:
    finding = only(desk(length, bus=bus, active=active))

    assert (message, remedy) == (finding.message, finding.remedy)


@pytest.mark.parametrize(
    ("length", "active", "state"),
    [
        # without electronics every bus is carried over 2 m, and Thunderbolt 1 and 2 over 3 m; active ones over 1 m to 60 m
        ("2 m", False, "pass"),
        ("2.01 m", False, "open"),
        ("3 m", False, "open"),
        ("3.01 m", False, "fail"),
        ("1 m", True, "pass"),
        ("1.01 m", True, "open"),
        ("60 m", True, "open"),
        ("60.01 m", True, "fail"),
    ],
)
def test_a_bus_that_is_not_given_is_judged_by_the_least_and_the_most(length: str, active: bool, state: str) -> None:
    report = desk(length, active=active)

    assert ("fail" if found(report, RULE) else "open" if gaps(report, RULE) else "pass") == state
    for finding in found(report, RULE):
        assert "carries any bus over" in finding.message
        assert "Use a shorter host cable, and move the adapter of cut-1/wire to the computer." == finding.remedy
    for gap in gaps(report, RULE):
        assert ["port cut-1/wire"] == places(gap)
        assert "The bus of cut-1/wire is not given, which decides how long its host cable may be" == gap.reason
        assert "write down `bus` of cut-1/wire, such as thunderbolt 3 or usb 10G" == gap.decides


@pytest.mark.parametrize("bus", ["pcie 3 x4", "usb 480M"])
def test_a_bus_without_published_lengths_is_not_asked_for_one(bus: str) -> None:
    report = desk("30 m", bus=bus)

    assert [] == [*found(report, RULE), *gaps(report, RULE)]


def test_two_metres_leave_a_thunderbolt_3_adapter_its_ten_gigabit() -> None:
    """About 11 Gb/s are left over 20 Gb/s of signal, from memory: enough for 10 Gb/s, not for more."""
    report = desk("2 m", bus="thunderbolt 3")

    assert ((), ()) == (report.findings, report.not_checked)
    assert ["pass"] == [judged.verdict for judged in report.paths]


def test_two_metres_take_a_usb_10g_adapter_below_ten_gigabit() -> None:
    (finding,) = found(desk("2 m", bus="usb 10G"), "path-below-target")

    assert "fail" == finding.severity
    assert "because cut-1/wire hangs on USB 10G, lowered by 2 m of host cable" in finding.message
    assert "Use a host cable of at most 1 m at cut-1/wire, which leaves USB 10G whole." == finding.remedy


def test_a_cable_past_every_limit_leaves_the_path_open_beside_its_finding() -> None:
    report = desk("3 m", bus="thunderbolt 3", active=True)

    assert "warn" == only(report).severity
    (gap,) = gaps(report, "path-below-target")
    assert "What Thunderbolt 3 over 3 m of host cable behind cut-1/wire carries is in no table" == gap.reason
    assert "incomplete" == report.summary.verdict


def test_a_port_without_a_host_cable_is_no_subject() -> None:
    report = report_of("netaudit: 1\ndevices: {cut-1: {role: station, ports: {wire: {bus: thunderbolt 3}}}}\n")

    assert [] == [*found(report, RULE), *gaps(report, RULE)]


DONGLE = """\
netaudit: 1
devices:
  cut-1: {{role: station, ports: {{usb: {{connector: usb-c{bus}}}}}}}
  dongle: {{role: adapter, bridges: [host, lan], ports: {{host: {{connector: usb-c}}, lan: {{connector: rj45, rates: up to 10G}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G}}}}}}
cables:
  H01: {{from: cut-1/usb, to: dongle/host, category: usb{length}}}
  C01: {{from: dongle/lan, to: vault/fast, category: 6A, length: 3 m}}
"""


def dongle(length: str | None, bus: str | None = "usb 10G") -> Report:
    """A seat on an adapter that is a device of its own, its host cable among the cables."""
    length = "" if length is None else f", length: {length}"
    return report_of(DONGLE.format(length=length, bus="" if bus is None else f", bus: {bus}"))


@pytest.mark.parametrize(("length", "rate"), [("1 m", 9_696_969_697), ("2 m", 4_000_000_000)])
def test_a_host_cable_among_the_cables_may_lower_the_bus_and_is_silent(length: str, rate: int) -> None:
    report = dongle(length)

    assert [] == [*found(report, RULE), *gaps(report, RULE)]
    assert rate == report.paths[0].path.promised_bit_per_s


def test_a_host_cable_among_the_cables_is_told_by_its_own_name() -> None:
    finding = only(dongle("2.01 m"))

    assert ["cable H01", "port cut-1/usb"] == places(finding)
    assert (2.01, 2.0) == (finding.measured and finding.measured.value, finding.limit and finding.limit.value)


def test_a_host_cable_among_the_cables_without_a_length_is_not_checked() -> None:
    (gap,) = gaps(dongle(None), RULE)

    assert ["cable H01", "port cut-1/usb"] == places(gap)
    assert ("The length of H01 is not given", "measure H01: up to 2 m is good") == (gap.reason, gap.decides)


def test_a_host_cable_among_the_cables_without_a_bus_leaves_the_rate_open() -> None:
    report = dongle("0.5 m", bus=None)

    assert [] == [*found(report, RULE), *gaps(report, RULE)]
    wanted = {gap.decides for gap in report.not_checked}
    assert "write down `bus` of cut-1/usb, such as `usb 10G`; where it is given, use a shorter cable" in wanted
    assert "incomplete" == report.summary.verdict


def test_its_sources_are_those_of_the_lengths() -> None:
    assert {reach.length_source for reach in EVERY} == set(HOST_CABLE_TOO_LONG.sources())
