"""Rooms that a shallow tool gets wrong: each comes out as an experienced engineer would judge it."""

from __future__ import annotations

from itertools import pairwise

import pytest
from rooms import TREE, found, gaps, places, report_of, room, triangle, two_switches

from netaudit.model.report import Report

G = 1_000_000_000


def told(report: Report, *severities: str) -> list[str]:
    """The rules that strike with one of some severities, each once."""
    return sorted({finding.rule for finding in report.findings if finding.severity in severities})


def faults(report: Report) -> list[str]:
    """The rules that fail or warn, each once."""
    return told(report, "fail", "warn")


# ---- A plain room ---------------------------------------------------------------------------------

FLAT = """\
netaudit: 1
networks:
  house: {{subnet: 192.168.7.0/24, gateway: 192.168.7.1}}
devices:
  cut-1: {{role: station, wants: 10G, ports: {{wire: {{connector: rj45, rates: up to 10G, network: house, address: 192.168.7.11}}}}}}
  cut-2: {{role: station, wants: 10G, ports: {{wire: {{connector: rj45, rates: up to 10G, network: house, address: 192.168.7.12}}}}}}
  cut-3: {{role: station, wants: 10G, ports: {{wire: {{connector: rj45, rates: up to 10G, network: house, address: 192.168.7.13}}}}}}
  cut-4: {{role: station, wants: 10G, ports: {{wire: {{connector: rj45, rates: up to 10G, network: house, address: 192.168.7.14}}}}}}
  core: {{role: switch, ports: {{1-8: {{connector: rj45, rates: up to 10G}}}}}}
  router: {{role: router, ports: {{lan: {{connector: rj45, rates: up to 1G, network: house, address: 192.168.7.1}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: house, address: 192.168.7.10}}}}}}
{archive}
cables:
  C01: {{from: cut-1/wire, to: core/1, category: 6A, length: 5 m, cord: 26 AWG}}
  C02: {{from: cut-2/wire, to: core/2, category: 6A, length: 5 m, cord: 26 AWG}}
  C03: {{from: cut-3/wire, to: core/3, category: 6A, length: 5 m, cord: 26 AWG}}
  C04: {{from: cut-4/wire, to: core/4, category: 6A, length: 5 m, cord: 26 AWG}}
  C05: {{from: vault/fast, to: core/5, category: 6A, length: 1 m, cord: 26 AWG}}
  C06: {{from: router/lan, to: core/6, category: 5e, length: 1 m, cord: 24 AWG}}
{cord}
"""
ARCHIVE = {
    "archive": "  shelf: {role: storage, purpose: archive, ports: "
    "{lan: {connector: rj45, rates: up to 1G, network: house, address: 192.168.7.20}}}",
    "cord": "  C07: {from: shelf/lan, to: core/7, category: 5e, length: 1 m, cord: 24 AWG}",
}


def test_one_flat_network_with_a_gateway_and_four_wired_seats_has_nothing_to_say() -> None:
    report = report_of(FLAT.format(archive="", cord=""))

    assert ("pass", []) == (report.summary.verdict, faults(report))


def test_a_slow_archive_box_beside_it_changes_nothing() -> None:
    alone, beside = report_of(FLAT.format(archive="", cord="")), report_of(FLAT.format(**ARCHIVE))

    assert ("pass", []) == (beside.summary.verdict, faults(beside))
    assert alone.paths == beside.paths
    assert alone.findings == tuple(
        finding._replace(line=old.line) for finding, old in zip(beside.findings, alone.findings, strict=True)
    )


# ---- Lengths, judged by bounds ---------------------------------------------------------------------


def test_ninety_metres_an_unknown_cord_and_twelve_more_are_too_long_whatever_the_unknown_is() -> None:
    text = room("90 m").replace("length: 3 m, ", "").replace("length: 1 m, cord", "length: 12 m, cord")
    (finding,) = found(report_of(text), "channel-too-long")

    assert "at least 102 m" in finding.message


def test_twenty_metres_of_an_unknown_category_are_open_and_a_hundred_and_twenty_fail() -> None:
    short, long = report_of(room("20 m", wall="unknown")), report_of(room("120 m", wall="unknown"))

    assert "incomplete" == short.summary.verdict
    assert gaps(short, "category-too-low")
    assert "fail" == long.summary.verdict
    assert ["cable W01"] == places(found(long, "channel-too-long")[0])[:1]


# ---- Rates -----------------------------------------------------------------------------------------

OPTICS = """\
netaudit: 1
devices:
  cut-1: {role: station, wants: 10G, ports: {wire: {connector: sfp+, rates: [10G, 1G], module: 1000BASE-SX}}}
  core: {role: switch, ports: {1: {connector: sfp+, rates: [10G, 1G], module: 1000BASE-SX}, 2: {connector: sfp+, rates: [10G]}}}
  vault: {role: storage, ports: {fast: {connector: sfp+, rates: [10G]}}}
cables:
  F01: {from: cut-1/wire, to: core/1, category: OM4, length: 30 m}
  D01: {from: core/2, to: vault/fast, category: twinax, length: 1 m}
"""


def test_gigabit_modules_in_fast_cages_run_a_gigabit_and_the_fibre_is_not_to_blame() -> None:
    report = report_of(OPTICS)
    (path,) = report.paths

    assert G == path.path.promised_bit_per_s
    assert ["path-below-target"] == told(report, "fail")
    assert not [rule for rule in faults(report) if rule.startswith(("fibre", "optics"))]


def test_a_seat_up_to_5g_on_a_port_of_10_and_1g_meets_it_at_1g() -> None:
    report = report_of(room(rates="up to 5G", switch="[10G, 1G]", seat=""))
    (finding,) = found(report, "link-below-both")

    assert "warn" == finding.severity
    assert {"port cut-1/wire", "port core/1"} == set(places(finding)[:2])
    assert G == report.paths[0].path.promised_bit_per_s


def test_a_gigabit_printer_on_a_fast_port_is_nothing() -> None:
    report = report_of(
        room(
            devices="  printer: {role: other, ports: {lan: {connector: rj45, rates: up to 1G}}}",
            cables="  C09: {from: printer/lan, to: core/8, category: 5e, length: 10 m}",
        )
    )

    assert ("pass", [], []) == (report.summary.verdict, faults(report), told(report, "note"))


# ---- Cords and warmth, by either regime --------------------------------------------------------------


@pytest.mark.parametrize(("regime", "expected"), [("tia", ["cords-too-long"]), ("iso", [])])
def test_twelve_metres_of_thin_cord_on_eighty_five_fail_one_regime_alone(regime: str, expected: list[str]) -> None:
    """TIA-568-B.1 6.4.1.4: (102 - 85) / 1.5 = 11.33 m. ISO/IEC 11801: 85 + 1.5 x 12 = 103 of 105 m."""
    text = room("85 m", top=f"regime: {regime}").replace("length: 3 m, cord", "length: 6 m, cord")
    report = report_of(text.replace("length: 1 m, cord", "length: 6 m, cord"))

    assert expected == [rule for rule in told(report, "fail") if rule != "path-below-target"]
    for finding in found(report, "cords-too-long"):
        assert (12.0, 11.33) == (
            finding.measured and finding.measured.value,
            finding.limit and round(finding.limit.value, 2),
        )


@pytest.mark.parametrize(("regime", "expected"), [("iso", ["too-warm-for-length"]), ("tia", [])])
def test_eighty_four_metres_at_40_degrees_fail_one_regime_alone(regime: str, expected: list[str]) -> None:
    """ISO/IEC 11801 ed. 2.2: 82.8 m at 40 °C unscreened. TIA-568-B.2-1 annex G: 84.0 m."""
    report = report_of(room("84 m", top=f"regime: {regime}\nambient: 40 °C"))

    assert expected == [rule for rule in told(report, "fail") if rule != "path-below-target"]
    for finding in found(report, "too-warm-for-length"):
        assert 82.8 == pytest.approx(finding.limit.value if finding.limit else 0)


# ---- Category 6 --------------------------------------------------------------------------------------


def six(wall_m: str, *, walls: str = "", cords: str = "", cord_m: int = 4) -> Report:
    """Category 6 throughout, five metres of cords in all."""
    text = room(wall_m, wall="6", cord="6", walls=walls, cords=cords, top="ambient: 24 °C")
    return report_of(text.replace("length: 3 m, cord", f"length: {cord_m} m, cord"))


def test_a_screened_wall_with_unscreened_cords_is_not_a_screened_channel() -> None:
    report = six("48 m", walls=", screened: true")

    assert ["warn"] == [finding.severity for finding in found(report, "reach-not-assured")]
    assert [] == found(report, "channel-too-long")


def test_screened_all_through_it_is_good() -> None:
    report = six("48 m", walls=", screened: true", cords=", screened: true")

    assert ("pass", []) == (report.summary.verdict, faults(report))


def test_thirty_seven_metres_unscreened_are_good_in_a_warm_room() -> None:
    assert ("pass", []) == ((report := six("32 m")).summary.verdict, faults(report))
    assert ["reach-not-assured"] == [rule for rule in faults(six("32.01 m")) if rule != "path-below-target"]


def test_a_low_cord_in_a_good_wall_is_named_alone() -> None:
    text = room().replace(
        "C01: {from: cut-1/wire, to: plate/1, category: 6A", "C01: {from: cut-1/wire, to: plate/1, category: 5e"
    )
    (finding,) = found(report_of(text), "category-too-low")

    assert ["cable C01"] == places(finding)[:1]
    assert finding.message.startswith("C01 is category 5e; ")


# ---- Rings -------------------------------------------------------------------------------------------

SLOW_ROOT = {"attic": "mac: 02:00:5e:00:00:02, ", "core": "mac: 02:00:5e:00:00:03, ", "old": "mac: 02:00:5e:00:00:01, "}


def test_a_triangle_whose_slow_switch_is_the_root_falls_to_a_gigabit() -> None:
    report = report_of(triangle(**SLOW_ROOT))

    assert ["fast-link-blocked"] == [rule for rule in told(report, "warn") if rule == "fast-link-blocked"]
    assert G == report.paths[0].path.promised_bit_per_s


def test_a_priority_on_the_fast_switch_makes_it_clean() -> None:
    report = report_of(triangle(**{**SLOW_ROOT, "core": SLOW_ROOT["core"] + "priority: 4096, "}))

    assert ("pass", []) == (report.summary.verdict, faults(report))


def test_without_identities_the_triangle_is_undecided_and_said_so() -> None:
    report = report_of(triangle())

    assert "incomplete" == report.summary.verdict
    assert "set `priority`" in gaps(report, "path-below-target")[0].decides


def test_without_a_spanning_tree_the_triangle_is_a_storm() -> None:
    assert ["loop-unprotected"] == told(report_of(triangle(tree="")), "fail")


TRUNKS = """\
netaudit: 1
networks: {{media: {{purpose: storage}}, office: {{}}}}
devices:
  cut-1: {{role: station, ports: {{wire: {{connector: rj45, rates: up to 10G, network: media}}}}}}
  mail: {{role: station, ports: {{wire: {{connector: rj45, rates: up to 10G, network: office}}}}}}
  attic: {{role: switch, {tree}ports: {ports}}}
  core: {{role: switch, {tree}ports: {ports}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: media}}, slow: {{connector: rj45, rates: up to 10G, network: office}}}}}}
cables:
  C01: {{from: cut-1/wire, to: attic/1, category: 6A, length: 3 m}}
  C02: {{from: mail/wire, to: attic/2, category: 6A, length: 3 m}}
  U01: {{from: attic/3, to: core/3, category: 6A, length: 20 m}}
  U02: {{from: attic/4, to: core/4, category: 6A, length: 20 m}}
  C03: {{from: core/1, to: vault/fast, category: 6A, length: 3 m}}
  C04: {{from: core/2, to: vault/slow, category: 6A, length: 3 m}}
"""
BY_NETWORK = "{" + ", ".join(
    f"{port}: {{connector: rj45, rates: up to 10G, network: {'media' if port % 2 else 'office'}}}" for port in (1, 2, 3, 4)
) + "}"  # fmt: skip


def test_two_cables_between_two_switches_one_for_each_network_are_clean() -> None:
    report = report_of(TRUNKS.format(tree="", ports=BY_NETWORK))

    assert ("pass", []) == (report.summary.verdict, faults(report))


def test_two_bonded_cables_are_clean() -> None:
    bond = "bonds: {up: {ports: ['2', '3']}}, "
    report = report_of(two_switches(attic=bond, core=bond).replace("wants: 10G, ", ""))

    assert ("pass", []) == (report.summary.verdict, faults(report))


def test_two_cables_neither_bonded_nor_apart_are_a_loop() -> None:
    assert ["loop-unprotected"] == told(report_of(two_switches()), "fail")


def test_one_tree_over_both_networks_takes_the_road_of_one() -> None:
    report = report_of(TRUNKS.format(tree=TREE, ports=BY_NETWORK))
    (finding,) = found(report, "no-path")

    assert ["path mail > vault"] == places(finding)
    assert "spanning tree" in finding.message


def test_a_cord_from_a_switch_through_two_outlets_back_into_itself_is_a_loop() -> None:
    cords = """\
  L01: {from: core/6, to: plate/2, category: 6A, length: 2 m}
  L02: {from: plate/2, to: plate/3, category: 6A, length: 2 m}
  L03: {from: plate/3, to: core/7, category: 6A, length: 2 m}"""
    (finding,) = found(report_of(room(cables=cords)), "loop-unprotected")

    assert finding.message.startswith("A cord leads from core back into itself")


# ---- Networks ----------------------------------------------------------------------------------------

ROUTED = """\
netaudit: 1
networks:
  media: {{subnet: 10.44.20.0/24, purpose: storage{gateway}}}
  office: {{subnet: 192.168.44.0/24, gateway: 192.168.44.1}}
devices:
  cut-1: {{role: station, ports: {{wire: {{connector: rj45, rates: up to 10G, network: office, address: 192.168.44.11}}}}}}
  router:
    role: router
    ports:
      1: {{connector: rj45, rates: up to 10G, network: office, address: 192.168.44.1}}
      2: {{connector: rj45, rates: up to 10G, network: media, address: 10.44.20.1}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: media, address: 10.44.20.10}}}}}}
cables:
  C01: {{from: cut-1/wire, to: router/1, category: 6A, length: 3 m}}
  C02: {{from: router/2, to: vault/fast, category: 6A, length: 3 m}}
"""


def test_a_router_that_touches_a_network_without_a_gateway_makes_no_path() -> None:
    without, with_one = report_of(ROUTED.format(gateway="")), report_of(ROUTED.format(gateway=", gateway: 10.44.20.1"))

    assert ["no-path"] == told(without, "fail")
    assert ["router-in-path"] == faults(with_one)


def test_a_seat_in_a_port_of_another_network_names_both_ports() -> None:
    text = room(cables="").replace(
        "1-8: {connector: rj45, rates: up to 10G}", "1-8: {connector: rj45, rates: up to 10G, network: office}"
    )
    report = report_of(text.replace("networks:\n", "networks:\n  office: {}\n"))
    (finding,) = found(report, "wrong-network")

    assert {"port cut-1/wire", "port core/1"} == set(places(finding)[:2])


# ---- Fibre and made-up cables --------------------------------------------------------------------------

LIT = """\
netaudit: 1
devices:
  cut-1: {{role: station, ports: {{wire: {{connector: {cage}, rates: [{rate}], module: {near}}}}}}}
  panel: {{role: panel, ports: {{1-9: {{connector: lc}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: {cage}, rates: [{rate}], module: {far}}}}}}}
cables:
{cables}
"""


def lit(module: str, grade: str, metres: float, pairs: int, **more: str) -> Report:
    """Two ports with modules, and fibre between them through so many panel ports."""
    rate = module.split("BASE", maxsplit=1)[0]
    cage = {"1G": "sfp", "10G": "sfp+", "25G": "sfp28"}[rate]
    ends = ["cut-1/wire", *(f"panel/{number}" for number in range(1, pairs + 1)), "vault/fast"]
    cables = "\n".join(
        f"  F{place}: {{from: {near}, to: {onward}, category: {grade}, length: {metres / (len(ends) - 1)} m{more.get('keys', '')}}}"
        for place, (near, onward) in enumerate(pairwise(ends))
    )
    return report_of(LIT.format(cage=cage, rate=rate, near=module, far=more.get("far", module), cables=cables))


def test_short_range_optics_over_400_metres_of_om4_with_two_pairs_are_good() -> None:
    """IEEE 802.3 clause 52: 2.9 dB; 0.4 x 3.5 + 2 x 0.75 = 2.90."""
    report = lit("10GBASE-SR", "OM4", 400, 2)

    assert ("pass", []) == (report.summary.verdict, faults(report))


def test_four_pairs_are_too_many_for_25g_although_the_length_is_legal() -> None:
    """IEEE 802.3 clause 112: 1.9 dB; 0.35 + 4 x 0.5 = 2.35 even with decent joints."""
    assert ["fibre-loss-too-high"] == [rule for rule in faults(lit("25GBASE-SR", "OM4", 100, 4)) if "fibre" in rule]
    assert ["fibre-loss-doubtful"] == [rule for rule in faults(lit("25GBASE-SR", "OM4", 100, 3)) if "fibre" in rule]


def test_a_bidirectional_pair_is_clean_and_two_equal_halves_are_not() -> None:
    pair = lit("10GBASE-BR10-D", "OS2", 40, 1, far="10GBASE-BR10-U", keys=", fibres: 1")
    equal = lit("10GBASE-BR10-D", "OS2", 40, 1, keys=", fibres: 1")

    assert ("pass", []) == (pair.summary.verdict, faults(pair))
    assert "optics-differ" in told(equal, "fail")


def test_a_cable_made_for_10g_between_cages_for_25g_runs_10g() -> None:
    report = report_of("""\
netaudit: 1
devices:
  cut-1: {role: station, ports: {wire: {connector: sfp28, rates: [25G, 10G]}}}
  vault: {role: storage, ports: {fast: {connector: sfp28, rates: [25G, 10G]}}}
cables:
  D01: {from: cut-1/wire, to: vault/fast, category: twinax, rates: [10G], length: 2 m}
""")

    assert 10 * G == report.paths[0].path.promised_bit_per_s == report.paths[0].path.agreed_bit_per_s
    assert [] == told(report, "fail")


# ---- Buses -------------------------------------------------------------------------------------------


def test_two_passive_thunderbolt_metres_lower_the_bus_and_do_not_fail_it() -> None:
    short = report_of(room(port=", bus: thunderbolt 3, host_cable: 0.5 m"))
    long = report_of(room(port=", bus: thunderbolt 3, host_cable: 2 m"))
    longer = report_of(room(port=", bus: thunderbolt 3, host_cable: 2.01 m"))

    assert ([], []) == (told(short, "fail"), told(long, "fail"))
    assert ["host-cable-too-long"] == told(longer, "fail")


def test_a_5g_usb_port_fails_a_seat_that_wants_10g_and_a_10g_one_is_a_warning() -> None:
    slow, middling = report_of(room(port=", bus: usb 5G")), report_of(room(port=", bus: usb 10G"))

    assert (["path-below-target"], ["bus-below-link"]) == (told(slow, "fail"), told(slow, "warn"))
    assert ([], ["bus-below-link"]) == (told(middling, "fail"), told(middling, "warn"))
