"""Fibre that is too long, at every published reach and one centimetre beyond."""

from __future__ import annotations

import pytest
from lightrooms import fibre, only, run, told
from rooms import found, gaps, places, report_of

from netaudit.rules.cabling.fibre_length import FIBRE_TOO_LONG
from netaudit.standards.fibre import FibreReach, fibre_reach
from netaudit.standards.optics import optics

ROWS = list(fibre_reach().values())
every_row = pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.phy}-{row.grade}")


def over(row: FibreReach, length: str) -> str:
    """A clean run of a length between two modules, its loss measured as next to nothing."""
    count = optics()[row.phy].fibres
    piece = fibre(row.grade, length, f", loss: 0.1 dB, fibres: {count}")
    return run(piece, near=row.phy, far=optics()[row.phy].opposite)


def beyond(length_m: float) -> str:
    return f"{length_m + 0.01:.2f} m"


@every_row
def test_a_run_at_its_reach_is_not_too_long(row: FibreReach) -> None:
    assert {} == told(report_of(over(row, f"{row.reach_m} m")))


@every_row
def test_a_run_a_centimetre_past_what_is_possible_is_too_long(row: FibreReach) -> None:
    finding = only(over(row, beyond(row.possible_m)), "fibre-too-long")

    assert ("fail" if row.source.may_fail else "warn") == finding.severity
    assert ["cable F1"] == places(finding)
    assert (row.possible_m, row.source) == ((finding.limit or (0,))[0], finding.source)
    assert (row.possible_m + 0.01, "m") == (pytest.approx((finding.measured or (0,))[0]), (finding.measured or "??")[1])


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.reach_m < row.possible_m], ids=lambda row: f"{row.phy}-{row.grade}"
)
@pytest.mark.parametrize("past", ["reach", "possible"])
def test_between_what_is_promised_and_what_is_possible_it_stays_open(row: FibreReach, past: str) -> None:
    report = report_of(over(row, beyond(row.reach_m) if past == "reach" else f"{row.possible_m} m"))

    (gap,) = gaps(report, "fibre-too-long")
    assert {} == told(report)
    assert f"Past {row.reach_m / 1000:g} km, F1 can work only as a link engineered for it" == gap.reason


# Reaches typed from the documents named: Ethernet Alliance (June 2012) 10GBASE-SR 300 m of OM3 and 400 m of OM4;
# docs.solace.com, 82 m of OM2; tiafotc.org, 25GBASE-SR 70 m of OM3 and 100 m of OM4.
@pytest.mark.parametrize(
    ("phy", "grade", "reach_m"),
    [
        ("10GBASE-SR", "OM2", 82),
        ("10GBASE-SR", "OM3", 300),
        ("10GBASE-SR", "OM4", 400),
        ("25GBASE-SR", "OM3", 70),
        ("25GBASE-SR", "OM4", 100),
    ],
)
def test_the_reaches_that_matter_in_a_room(phy: str, grade: str, reach_m: int) -> None:
    assert [] == found(report_of(run(fibre(grade, f"{reach_m} m"), near=phy)), "fibre-too-long")
    assert "fail" == only(run(fibre(grade, f"{reach_m}.01 m"), near=phy), "fibre-too-long").severity


def test_the_whole_run_counts_and_its_longest_piece_leads() -> None:
    finding = only(run(fibre("OM3", "3 m"), fibre("OM3", "296 m"), fibre("OM3", "2 m")), "fibre-too-long")

    assert ["cable F2", "cable F1", "cable F3"] == places(finding)
    assert "F1 + F2 + F3: 301 m of OM3, over which 10GBASE-SR reaches 300 m at the most" == finding.message


def test_of_two_grades_the_lesser_decides() -> None:
    finding = only(run(fibre("OM4", "299 m"), fibre("OM3", "1.01 m")), "fibre-too-long")

    assert (300, "m") == finding.limit
    assert [] == found(report_of(run(fibre("OM4", "299 m"), fibre("OM3", "1 m"))), "fibre-too-long")


@pytest.mark.parametrize(
    ("phy", "grade", "length", "remedy"),
    [
        (
            "10GBASE-SR",
            "OM3",
            "340 m",
            "Shorten F1 to 300 m, or lay OM4 from end to end, over which 10GBASE-SR reaches 400 m.",
        ),
        (
            "10GBASE-SR",
            "OM2",
            "200 m",
            "Shorten F1 to 82 m, or lay OM4 from end to end, over which 10GBASE-SR reaches 400 m.",
        ),
        (
            "25GBASE-SR",
            "OM4",
            "120 m",
            "Shorten F1 to 100 m, or lay OS2 with 25GBASE-LR modules at both ends, good to 10 km.",
        ),
        (
            "1000BASE-LX",
            "OS2",
            "6000 m",
            "Shorten F1 to 5 km, or put 1000BASE-LX10 modules into core/9 and vault/fast, good to 10 km over OS2.",
        ),
        (
            "10GBASE-SR",
            "OM4",
            "10000 m",
            "Shorten F1 to 400 m, or lay OS2 with 10GBASE-LR modules at both ends, good to 10 km.",
        ),
        ("10GBASE-ER", "OS2", "41000 m", "Shorten F1 to 30 km, or put a switch on the way."),
    ],
)
def test_the_remedy_names_what_carries_the_rate_so_far(phy: str, grade: str, length: str, remedy: str) -> None:
    finding = only(run(fibre(grade, length, ", loss: 0.1 dB"), near=phy), "fibre-too-long")

    assert f"{remedy} As it is, no rate is promised." == finding.remedy


# What is unknown


def test_a_known_part_that_is_too_long_decides_whatever_the_rest_is() -> None:
    finding = only(run(fibre("OM3", "301 m"), fibre("OM3", None)), "fibre-too-long")

    assert "at least 301 m of OM3" in finding.message


def test_an_unknown_length_is_not_checked_and_the_gap_says_what_is_good() -> None:
    (gap,) = gaps(report_of(run(fibre("OM3", "20 m"), fibre("OM3", None))), "fibre-too-long")

    assert (["cable F2"], "The length of F2 is not given") == (places(gap), gap.reason)
    assert gap.decides.startswith("measure F2")


@pytest.mark.parametrize(
    ("length", "state"),
    # 10GBASE-SR reaches 33 m over OM1, the least, and 400 m over OM4, the most
    [("33 m", "pass"), ("33.01 m", "open"), ("400 m", "open"), ("400.01 m", "fail")],
)
def test_a_grade_that_is_unknown_is_judged_by_the_least_and_the_most_it_may_be(length: str, state: str) -> None:
    report = report_of(run(fibre("unknown", length)))

    assert (
        "fail" if found(report, "fibre-too-long") else "open" if gaps(report, "fibre-too-long") else "pass"
    ) == state
    if state == "fail":
        (finding,) = found(report, "fibre-too-long")
        assert (
            "F1: 400.01 m of fibre of unknown grade, over which 10GBASE-SR reaches 400 m at the most" == finding.message
        )


def test_a_part_of_unknown_grade_cannot_stretch_what_the_known_part_allows() -> None:
    finding = only(run(fibre("OM3", "299 m"), fibre("unknown", "1.01 m")), "fibre-too-long")
    assert (300, "m") == finding.limit

    (gap,) = gaps(report_of(run(fibre("OM3", "34 m"), fibre("unknown", "1 m"))), "fibre-too-long")
    assert "The category of F2 is not known" == gap.reason


@pytest.mark.parametrize(
    ("length", "state"),
    # at 10 Gb/s over OM3, 10GBASE-LRM reaches 220 m and 10GBASE-SR 300 m
    [("220 m", "pass"), ("220.01 m", "open"), ("300 m", "open"), ("300.01 m", "fail")],
)
def test_without_modules_every_one_at_the_rate_of_the_ports_may_be_meant(length: str, state: str) -> None:
    report = report_of(run(fibre("OM3", length), near=None))

    assert (
        "fail" if found(report, "fibre-too-long") else "open" if gaps(report, "fibre-too-long") else "pass"
    ) == state


def test_one_named_module_says_what_belongs_at_the_other_end() -> None:
    assert (300, "m") == only(run(fibre("OM3", "301 m"), far=None), "fibre-too-long").limit
    assert (300, "m") == only(run(fibre("OM3", "301 m"), near=None, far="10GBASE-SR"), "fibre-too-long").limit


@pytest.mark.parametrize(
    "text",
    [
        # the faults of these are told by other rules
        run(fibre("OM3", "900 m"), far="10GBASE-LRM"),
        run(fibre("OS2", "900 m")),
        run(fibre("OM3", "900 m"), far="1000BASE-SX"),
        run("category: 6A, length: 900 m"),
        run("category: twinax, length: 900 m", near=None),
    ],
)
def test_it_is_silent_where_another_rule_speaks(text: str) -> None:
    report = report_of(text)

    assert [] == found(report, "fibre-too-long")
    assert [] == gaps(report, "fibre-too-long")


def test_a_breakout_stays_open() -> None:
    text = """\
netaudit: 1
devices:
  core: {role: switch, ports: {1: {connector: qsfp+, rates: [40G], module: 40GBASE-SR4}}}
  vault: {role: storage, ports: {1-4: {connector: sfp+, rates: [10G], module: 10GBASE-SR}}}
cables:
  B1: {from: core/1, to: [vault/1, vault/2, vault/3, vault/4], category: OM3, length: 900 m}
"""
    report = report_of(text)
    assert ["No published limit tells whether OM3 carries that rate"] * 4 == [
        gap.reason for gap in gaps(report, "fibre-too-long")
    ]
    assert {} == told(report)


def test_its_sources_are_those_of_the_reaches() -> None:
    assert {row.source for row in ROWS} == set(FIBRE_TOO_LONG.sources())


@pytest.mark.parametrize("row", ROWS[::5], ids=lambda row: f"{row.phy}-{row.grade}")
def test_more_fibre_never_cures_and_cutting_it_in_two_changes_nothing(row: FibreReach) -> None:
    states = []
    for share in (0.5, 1.0, 1.2, 2.0, 5.0):
        whole = told(report_of(over(row, f"{row.reach_m * share:.2f} m")))
        states.append("fibre-too-long" in whole)
        half = fibre(
            row.grade, f"{row.reach_m * share / 2:.3f} m", f", loss: 0.1 dB, fibres: {optics()[row.phy].fibres}"
        )
        assert whole == told(report_of(run(half, half, near=row.phy, far=optics()[row.phy].opposite)))
    assert states == sorted(states)
    assert states[-1]


def test_which_end_a_run_is_written_from_changes_nothing() -> None:
    for near, far in (("10GBASE-SR", "same"), ("10GBASE-SR", "10GBASE-LR"), ("10GBASE-BR10-D", "10GBASE-BR10-U")):
        pieces = [fibre("OM3", "3 m"), fibre("OM3", "310 m"), fibre("OM3", "2 m")]
        other = near if far == "same" else far
        assert told(report_of(run(*pieces, near=near, far=other))) == told(
            report_of(run(*pieces[::-1], near=other, far=near))
        )
