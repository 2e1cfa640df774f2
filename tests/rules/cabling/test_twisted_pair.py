"""Rules about cabling, each at its limit and one display step beyond."""

from __future__ import annotations

import pytest
from rooms import found, gaps, places, report_of, room

from netaudit.rules.cabling.twisted_pair import CATEGORY_TOO_LOW, CHANNEL_TOO_LONG
from netaudit.standards.copper import copper_reach

# The reaches below are typed from the documents named, not read from the package's own tables.
# TIA TSB-155-A: 10GBASE-T over unscreened category 6 should operate to 37 m, may operate to 55 m.
# IEEE 802.3an-2006 objectives: 100 m on class F, 55 m to 100 m on class E; ANSI/TIA-568.2-D: 100 m on category 6A.
# IEEE 802.3bz-2016 objectives: 2.5G to 100 m on class D (5e), 5G to 100 m on class E (6).
# IEEE 802.3bq-2016: 25G and 40G over category 8, 30 m with two connections.
LONGEST_M = [
    ("10G", "6A", False, 100),
    ("10G", "6A", True, 100),
    ("10G", "7", False, 100),
    ("10G", "6", False, 55),
    ("10G", "6", True, 100),
    ("5G", "6", False, 100),
    ("2.5G", "5e", False, 100),
    ("1G", "5e", False, 100),
    ("1G", "5", False, 100),
    ("100M", "5", False, 100),
    ("25G", "8.1", True, 30),
    ("40G", "8.2", True, 30),
]


def direct(rate: str, category: str, length: str, *, screened: bool) -> str:
    """A room whose seat hangs on the switch by one installed cable."""
    screen = ", screened: true" if screened else ""
    return f"""\
netaudit: 1
devices:
  cut-1: {{role: station, ports: {{wire: {{connector: rj45, rates: [{rate}]}}}}}}
  core: {{role: switch, ports: {{1-8: {{connector: rj45, rates: [{rate}]}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: [{rate}]}}}}}}
cables:
  W01: {{from: cut-1/wire, to: core/1, category: "{category}", length: {length}, installed: true{screen}}}
  W02: {{from: core/2, to: vault/fast, category: "{category}", length: 2 m, installed: true{screen}}}
"""


@pytest.mark.parametrize(("rate", "category", "screened", "longest_m"), LONGEST_M)
def test_a_channel_at_its_limit_is_not_too_long(rate: str, category: str, screened: bool, longest_m: int) -> None:
    report = report_of(direct(rate, category, f"{longest_m} m", screened=screened))

    assert [] == found(report, "channel-too-long")


@pytest.mark.parametrize(("rate", "category", "screened", "longest_m"), LONGEST_M)
def test_a_channel_a_centimetre_past_its_limit_is_too_long(
    rate: str, category: str, screened: bool, longest_m: int
) -> None:
    report = report_of(direct(rate, category, f"{longest_m}.01 m", screened=screened))

    (finding,) = found(report, "channel-too-long")
    assert ["cable W01"] == places(finding)
    assert finding.limit is not None
    assert (longest_m, "m") == (finding.limit.value, finding.limit.unit)
    assert "secondary" == finding.source.standing
    assert 1 == report.exit_code


def test_the_longest_cable_decides_and_the_others_follow() -> None:
    report = report_of(room("97 m"))

    (finding,) = found(report, "channel-too-long")
    assert ["cable W01", "cable C01", "cable P01"] == places(finding)
    assert finding.measured is not None
    assert 101.0 == finding.measured.value
    assert 26 == finding.line


def test_the_remedy_names_the_category_that_is_enough_for_the_distance() -> None:
    report = report_of(room("80 m", wall="6"))

    (finding,) = found(report, "channel-too-long")
    assert "replace W01 by category 6A, good to 100 m" in finding.remedy
    assert "As it is, 5 Gb/s (625 MB/s) is promised." in finding.remedy


def test_past_every_category_the_remedy_is_another_medium() -> None:
    report = report_of(room("120 m"))

    (finding,) = found(report, "channel-too-long")
    assert "fibre" in finding.remedy
    assert "As it is, no rate is promised." in finding.remedy


def test_ninety_metres_with_an_unknown_cord_and_twelve_more_are_too_long_whatever_the_unknown_is() -> None:
    text = room("90 m").replace("length: 3 m, ", "").replace("length: 1 m, cord: 26 AWG", "length: 12 m, cord: 26 AWG")

    (finding,) = found(report_of(text), "channel-too-long")
    assert finding.measured is not None
    assert 102.0 == finding.measured.value
    assert "at least 102 m" in finding.message


def test_an_unknown_length_is_not_checked_and_the_gap_says_what_is_good() -> None:
    report = report_of(room(None))

    (gap,) = gaps(report, "channel-too-long")
    assert ["cable W01"] == places(gap)
    assert "measure W01: up to 96 m is good" == gap.decides
    assert "incomplete" == report.summary.verdict
    assert 0 == report.exit_code


def test_twenty_metres_of_unknown_category_are_open_and_the_gap_says_what_each_jacket_means() -> None:
    report = report_of(room("20 m", wall="unknown"))

    (gap,) = gaps(report, "category-too-low")
    assert (
        "read the jacket of W01: 6A means 10 Gb/s (1250 MB/s), 6 means 10 Gb/s (1250 MB/s), "
        "5e means 2.5 Gb/s (312 MB/s)" == gap.decides
    )
    assert () == report.findings
    assert "incomplete" == report.summary.verdict


def test_a_hundred_and_twenty_metres_of_unknown_category_fail() -> None:
    report = report_of(room("120 m", wall="unknown"))

    assert ["channel-too-long"] == [finding.rule for finding in report.findings if finding.rule == "channel-too-long"]
    assert "fail" == report.summary.verdict


@pytest.mark.parametrize(
    ("rate", "category", "floor"),
    [
        ("10G", "5e", "6"),
        ("10G", "5", "6"),
        ("5G", "5", "5e"),
        ("2.5G", "5", "5e"),
        ("1G", "3", "5"),
        ("25G", "7A", "8.1"),
    ],
)
def test_a_category_that_is_not_specified_for_the_agreed_rate_is_too_low(rate: str, category: str, floor: str) -> None:
    report = report_of(direct(rate, category, "20 m", screened=False))

    first, second = found(report, "category-too-low")
    assert ["cable W01"] == places(first)
    assert ["cable W02"] == places(second)
    assert f"from category {floor} up" in first.message


def test_a_low_cord_in_a_good_run_is_named_alone() -> None:
    text = room().replace(
        "C01: {from: cut-1/wire, to: plate/1, category: 6A", "C01: {from: cut-1/wire, to: plate/1, category: 5e"
    )

    (finding,) = found(report_of(text), "category-too-low")
    assert "C01 is category 5e; 10 Gb/s (1250 MB/s) is specified from category 6 up" == finding.message
    assert ["cable C01", "cable W01", "cable P01"] == places(finding)
    assert "Replace C01 by category 6A, good to 100 m. As it is, 2.5 Gb/s (312 MB/s) is promised." == finding.remedy


def test_a_low_outlet_makes_the_channel_low_and_is_named() -> None:
    (finding,) = found(report_of(room(joint=", category: 5e")), "category-too-low")

    assert ["port plate/1", "cable W01", "cable C01", "cable P01"] == places(finding)


def test_low_cables_lead_from_the_longest_then_low_outlets_and_then_what_is_good() -> None:
    (finding,) = found(report_of(room(wall="5e", cord="5e", joint=", category: 5e")), "category-too-low")
    assert ["cable W01", "cable C01", "cable P01", "port plate/1"] == places(finding)

    (finding,) = found(report_of(room(wall="5e", joint=", category: 5e")), "category-too-low")
    assert ["cable W01", "port plate/1", "cable C01", "cable P01"] == places(finding)
    assert finding.message.startswith("W01 and plate/1 are category 5e; ")


def test_a_known_low_part_decides_whatever_the_unknown_one_is() -> None:
    (finding,) = found(report_of(room(wall="unknown", cord="5e")), "category-too-low")

    assert ["cable C01", "cable P01", "cable W01"] == places(finding)


def test_a_low_category_is_enough_for_ports_that_agree_on_less() -> None:
    report = report_of(room(wall="5e", cord="5e", rates="[2.5G, 1G]", switch="[2.5G, 1G]", seat=""))

    assert [] == found(report, "category-too-low")
    assert "pass" == report.summary.verdict


def test_rates_of_one_end_unknown_leave_the_category_open() -> None:
    text = room(wall="5e", cord="5e").replace("connector: rj45, rates: up to 10G, network", "connector: rj45, network")

    report = report_of(text)

    assert [] == found(report, "category-too-low")
    (gap,) = gaps(report, "category-too-low")
    assert "write down `rates` of cut-1/wire, as its data sheet has them" == gap.decides


def test_a_rate_that_no_twisted_pair_carries_is_told_as_such() -> None:
    first, _ = found(report_of(direct("50G", "8.2", "2 m", screened=True)), "category-too-low")

    assert "W01: no category of twisted pair is specified for 50 Gb/s (6250 MB/s)" == first.message


# IEEE 802.3bq-2016, clause 113: 40GBASE-T is the fastest over twisted pair
@pytest.mark.parametrize(("rate", "words"), [("50G", "50 Gb/s (6250 MB/s)"), ("100G", "100 Gb/s (12500 MB/s)")])
def test_past_the_fastest_layer_its_clause_is_cited_and_no_length_would_help(rate: str, words: str) -> None:
    step = (
        f"No twisted pair is specified for {words}: use fibre or a made-up cable, "
        "or ports that run 40 Gb/s (5000 MB/s) or less."
    )
    text = direct(rate, "8.2", "2 m", screened=True).replace("role: station,", f"role: station, wants: {rate},")
    report = report_of(text)
    first, _ = found(report, "category-too-low")
    (short,) = found(report, "path-below-target")

    assert (step, step) == (first.remedy, short.remedy)
    assert "clause 113: category 8, 30 m" == first.source.clause
    assert f"because W01 is twisted pair, of which no category is specified for {words}" in short.message


def test_a_length_that_is_too_much_only_for_some_of_the_categories_that_may_be_meant_is_open() -> None:
    report = report_of(room("56 m", wall="unknown"))

    assert [] == found(report, "channel-too-long")
    (gap,) = gaps(report, "channel-too-long")
    assert gap.decides.startswith("read the jacket of W01")


def test_every_source_of_the_reaches_is_named() -> None:
    sources = {row.source for row in copper_reach().values()}

    assert sources == set(CHANNEL_TOO_LONG.sources()) == set(CATEGORY_TOO_LOW.sources())


def test_the_least_category_is_that_of_unscreened_cable_with_its_source() -> None:
    """TIA TSB-155-A speaks of 10GBASE-T over unscreened category 6; over screened another document does."""
    (finding,) = found(report_of(room(wall="5e")), "category-too-low")

    assert finding.source.document.startswith("TIA TSB-155-A")
