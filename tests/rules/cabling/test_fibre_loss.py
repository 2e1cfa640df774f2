"""Fibre that loses too much, at every published budget and a hundredth of a decibel beyond."""

from __future__ import annotations

import pytest
from lightrooms import fibre, joined, only, run, told
from rooms import found, gaps, places, report_of

from netaudit.rules.cabling.fibre_loss import FIBRE_LOSS_DOUBTFUL, FIBRE_LOSS_TOO_HIGH
from netaudit.standards.fibre import FibreReach, fibre_attenuation, fibre_reach, joints
from netaudit.standards.optics import optics

ROWS = [row for row in fibre_reach().values() if row.loss_db is not None]
OPEN = [row for row in fibre_reach().values() if row.loss_db is None]
TOO_HIGH, DOUBTFUL = "fibre-loss-too-high", "fibre-loss-doubtful"


def by_row(rows: list[FibreReach]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("row", rows, ids=lambda row: f"{row.phy}-{row.grade}")


def measured(row: FibreReach, loss_db: float) -> str:
    """A short run with a measured loss [dB] between two modules."""
    piece = fibre(row.grade, "2 m", f", loss: {loss_db:.2f} dB, fibres: {optics()[row.phy].fibres}")
    return run(piece, near=row.phy, far=optics()[row.phy].opposite)


@by_row(ROWS)
def test_a_measured_loss_that_is_promised_is_no_fault(row: FibreReach) -> None:
    report = report_of(measured(row, row.loss_db or 0.0))

    assert {} == told(report)
    assert [] == [*gaps(report, TOO_HIGH), *gaps(report, DOUBTFUL)]


@by_row(ROWS)
def test_a_hundredth_past_what_is_possible_is_too_high(row: FibreReach) -> None:
    assert row.possible_loss_db is not None
    report = report_of(measured(row, row.possible_loss_db + 0.01))

    (finding,) = found(report, TOO_HIGH)
    assert {TOO_HIGH: "fail" if finding.source.may_fail else "warn"} == told(report)
    assert (row.possible_loss_db, "dB") == finding.limit
    assert row.loss_source == finding.source


@by_row([row for row in ROWS if row.loss_db != row.possible_loss_db])
def test_between_what_is_promised_and_what_is_possible_it_is_doubtful(row: FibreReach) -> None:
    for loss_db in ((row.loss_db or 0.0) + 0.01, row.possible_loss_db or 0.0):
        report = report_of(measured(row, loss_db))

        (finding,) = found(report, DOUBTFUL)
        assert {DOUBTFUL: "warn"} == told(report)
        assert ((row.loss_db, "dB"), row.loss_source) == (finding.limit, finding.source)
        assert (pytest.approx(loss_db), "dB") == finding.measured


@by_row(OPEN)
def test_without_a_published_budget_there_is_nothing_to_judge_by(row: FibreReach) -> None:
    report = report_of(measured(row, 9.0))

    assert {} == told(report)
    for rule in (TOO_HIGH, DOUBTFUL):
        (gap,) = gaps(report, rule)
        assert f"No loss that {row.phy} may bridge is published" == gap.reason
        assert "compare the loss of F1 with the data sheet of the modules" == gap.decides


# Loss worked by hand at 3.5 dB/km (singlemode 0.4), pairs at 0.75 dB worst and 0.5 dB decent: TIA-568 and ISO/IEC 11801
# for the worst, the FOA reference guide for the decent; budgets of IEEE 802.3 as the tables cite them.
@pytest.mark.parametrize(
    ("phy", "grade", "length_m", "pairs", "expected"),
    [
        ("10GBASE-SR", "OM3", 300, 2, {}),
        # 2.9000000000000004 dB of 2.9 dB in binary
        ("10GBASE-SR", "OM4", 400, 2, {}),
        ("25GBASE-SR", "OM3", 70, 2, {}),
        ("25GBASE-SR", "OM4", 100, 2, {}),
        ("25GBASE-SR", "OM4", 100, 3, {DOUBTFUL: "warn"}),
        ("25GBASE-SR", "OM4", 100, 4, {TOO_HIGH: "fail"}),
        ("40GBASE-SR4", "OM4", 150, 2, {TOO_HIGH: "fail"}),
        ("40GBASE-SR4", "OM4", 150, 1, {}),
        ("40GBASE-SR4", "OM3", 100, 2, {}),
        ("1000BASE-SX", "OM2", 550, 2, {}),
        ("10GBASE-LR", "OS2", 10_000, 2, {}),
        ("10GBASE-LR", "OS2", 10_000, 4, {DOUBTFUL: "warn"}),
        # 15 x 0.5 + 4.0 of 6.2 to 6.4 dB
        ("10GBASE-LR", "OS2", 10_000, 15, {TOO_HIGH: "fail"}),
        # 4.57 dB of 1000BASE-LX and the 3.5 dB/km of OM5 are from memory
        ("1000BASE-LX", "OS2", 4_000, 12, {TOO_HIGH: "warn"}),
        ("10GBASE-SR", "OM5", 300, 6, {TOO_HIGH: "warn"}),
    ],
)
def test_fibre_and_joints_add_up(phy: str, grade: str, length_m: float, pairs: int, expected: dict[str, str]) -> None:
    report = report_of(run(*joined(pairs + 1, length_m, grade), near=phy).replace("category", "fibres: 8, category"))

    assert expected == {rule: severity for rule, severity in told(report).items() if rule.startswith("fibre-loss")}


@pytest.mark.parametrize(("splices", "expected"), [(3, {}), (4, {DOUBTFUL: "warn"})])
def test_splices_count(splices: int, expected: dict[str, str]) -> None:
    """OM3, 10GBASE-SR: 200 m and 1 pair come to 1.45 dB; splices at 0.3 dB (16768A) leave room for three of 2.6 dB."""
    text = run(*joined(2, 200, "OM3")).replace("F2: {", f"F2: {{splices: {splices}, ")
    assert expected == told(report_of(text))


def test_four_pairs_take_more_light_than_a_hundred_metres() -> None:
    finding = only(run(*joined(5, 100, "OM4"), near="25GBASE-SR"), TOO_HIGH)

    assert ["cable F1", "cable F2", "cable F3", "cable F4", "cable F5"] == places(finding)
    assert (
        "The fibres of F1, F2, F3, F4 and F5 with 4 joints lose, even with decent joints, 2.35 dB; "
        "25GBASE-SR bridges 1.9 dB at the most" == finding.message
    )
    assert (
        "Run F1, F2, F3, F4 and F5 through 2 instead of 4 panels and outlets, or measure the loss and write it down as "
        "`loss`: up to 1.9 dB is good. As it is, no rate is promised." == finding.remedy
    )
    assert (pytest.approx(2.35), "dB") == finding.measured


def test_three_pairs_are_doubtful_and_the_remedy_says_how_many_are_good() -> None:
    finding = only(run(*joined(4, 100, "OM4"), near="25GBASE-SR"), DOUBTFUL)

    assert (
        "The fibres of F1, F2, F3 and F4 with 3 joints may lose, with joints as bad as allowed, 2.6 dB; "
        "25GBASE-SR is promised up to 1.9 dB" == finding.message
    )
    assert finding.remedy.startswith("Run F1, F2, F3 and F4 through 2 instead of 3 panels and outlets, or measure")
    assert (pytest.approx(2.6), "dB") == finding.measured


def test_one_joint_is_told_as_one() -> None:
    finding = only(run(*joined(2, 100, "OM4"), near="40GBASE-SR4").replace("{from", "{splices: 1, from"), DOUBTFUL)

    assert "The fibres of F1 and F2 with 1 joint may lose" in finding.message


@pytest.mark.parametrize(
    ("pieces", "splices", "start"),
    [
        # 2 pairs are no more than are good: splices are what is too much
        (3, 9, "Shorten F1, F2 and F3, or measure the loss"),
        # not even without a pair
        (2, 30, "Shorten F1 and F2, or measure the loss"),
    ],
)
def test_where_fewer_joints_do_not_help_the_remedy_is_a_shorter_run(pieces: int, splices: int, start: str) -> None:
    text = run(*joined(pieces, 20, "OM3")).replace("F1: {", f"F1: {{splices: {splices}, ")
    rule = TOO_HIGH if splices > 20 else DOUBTFUL
    assert only(text, rule).remedy.startswith(start)


def test_a_run_without_pairs_left_over_may_keep_none() -> None:
    """2.2 dB of fibre and splices leave 0.4 dB of 2.6 dB: not one pair of 0.75 dB."""
    text = run(*joined(2, 200, "OM3")).replace("F1: {", "F1: {splices: 5, ")
    assert only(text, DOUBTFUL).remedy.startswith("Lay F1 and F2 as one piece, or measure the loss")


def test_a_measured_loss_is_cleaned_first() -> None:
    finding = only(run(fibre("OM3", "20 m", ", loss: 2.61 dB")), TOO_HIGH)

    assert "The fibres of F1 were measured to lose 2.61 dB; 10GBASE-SR bridges 2.6 dB at the most" == finding.message
    assert (
        "Clean every plug of F1 and measure again: up to 2.6 dB is good. Renew the joint that stays bad. "
        "As it is, no rate is promised." == finding.remedy
    )
    doubtful = only(run(fibre("OM1", "20 m", ", loss: 1.61 dB")), DOUBTFUL)
    assert "The fibres of F1 were measured to lose 1.61 dB; 10GBASE-SR is promised up to 1.6 dB" == doubtful.message
    assert doubtful.remedy.startswith("Clean every plug of F1 and measure again: up to 1.6 dB is good.")


def test_a_measured_loss_decides_whatever_the_joints_are_allowed_to_lose() -> None:
    pieces = [fibre("OM4", "20 m", ", loss: 0.3 dB")] * 5
    assert {} == told(report_of(run(*pieces, near="25GBASE-SR")))


# What is unknown


def test_a_measured_loss_decides_whatever_the_length_is() -> None:
    report = report_of(run(fibre("OM3", None, ", loss: 2.5 dB")))
    assert {} == told(report)
    assert [] == [*gaps(report, TOO_HIGH), *gaps(report, DOUBTFUL)]

    assert {TOO_HIGH: "fail"} == told(report_of(run(fibre("OM3", None, ", loss: 2.7 dB"))))


@pytest.mark.parametrize(
    ("pieces", "expected", "left_open"),
    [
        # joints alone: 1 pair 0.75, 4 pairs 2.0 decent and 3.0 worst, 6 pairs 3.0 decent, of 2.6 dB
        (2, {}, [TOO_HIGH, DOUBTFUL]),
        (5, {DOUBTFUL: "warn"}, [TOO_HIGH]),
        (7, {TOO_HIGH: "fail"}, []),
    ],
)
def test_an_unknown_length_can_only_add_to_the_loss(
    pieces: int, expected: dict[str, str], left_open: list[str]
) -> None:
    report = report_of(run(*[fibre("OM3", "1 mm")] * (pieces - 1), fibre("OM3", None)))

    assert expected == told(report)
    assert left_open == [rule for rule in (TOO_HIGH, DOUBTFUL) if gaps(report, rule)]


def test_an_unknown_grade_leaves_the_loss_open() -> None:
    for pieces in ([fibre("unknown", "2 m")], [fibre("OM3", "2 m"), fibre("unknown", "2 m")]):
        report = report_of(run(*pieces))
        assert {} == told(report)
        assert [TOO_HIGH, DOUBTFUL] == [rule for rule in (TOO_HIGH, DOUBTFUL) if gaps(report, rule)]


@pytest.mark.parametrize(
    ("loss", "expected", "left_open"),
    [
        # at 10 Gb/s over OM3, 10GBASE-LRM bridges 1.9 dB and 10GBASE-SR 2.6 dB
        ("1.9 dB", {}, []),
        ("1.91 dB", {}, [TOO_HIGH, DOUBTFUL]),
        ("2.6 dB", {}, [TOO_HIGH, DOUBTFUL]),
        ("2.61 dB", {TOO_HIGH: "fail"}, []),
    ],
)
def test_without_modules_every_one_at_the_rate_of_the_ports_may_be_meant(
    loss: str, expected: dict[str, str], left_open: list[str]
) -> None:
    report = report_of(run(fibre("OM3", "2 m", f", loss: {loss}"), near=None))

    assert expected == told(report)
    assert left_open == [rule for rule in (TOO_HIGH, DOUBTFUL) if gaps(report, rule)]


def test_without_modules_the_most_generous_budget_is_told() -> None:
    finding = only(run(fibre("OM3", "2 m", ", loss: 3 dB"), near=None), TOO_HIGH)
    assert (2.6, "dB") == finding.limit


def test_without_modules_doubtful_means_doubtful_for_every_one_of_them() -> None:
    """OM1 at 10 Gb/s: 10GBASE-SR is promised to 1.6 dB and possible to 2.4 dB, 10GBASE-LRM bridges 1.9 dB."""
    finding = only(run(fibre("OM1", "2 m", ", loss: 2 dB"), near=None), DOUBTFUL)
    assert (1.9, "dB") == finding.limit


def test_without_modules_a_budget_that_is_not_published_leaves_it_open() -> None:
    report = report_of(run(fibre("OS2", "2 m", ", loss: 30 dB"), near=None, rates="[100G]"))

    assert {} == told(report)
    assert [TOO_HIGH, DOUBTFUL] == [rule for rule in (TOO_HIGH, DOUBTFUL) if gaps(report, rule)]


def test_of_two_grades_the_one_that_loses_more_counts() -> None:
    """OS1a loses 1.0 dB/km and OS2 0.4 dB/km (tiafotc.org): 6 km and a pair come to 6.75 dB of the 6.2 dB of LR."""
    pieces = [fibre("OS2", "3 km"), fibre("OS1a", "3 km")]
    for order in (pieces, pieces[::-1]):
        finding = only(run(*order, near="10GBASE-LR"), DOUBTFUL)
        assert (pytest.approx(6.75), "dB") == finding.measured


@pytest.mark.parametrize(
    "text",
    [
        run(fibre("OM3", "2 m", ", loss: 30 dB"), far="10GBASE-LRM"),
        run(fibre("OS2", "2 m", ", loss: 30 dB")),
        run(fibre("OM3", "2 m", ", loss: 30 dB"), far="1000BASE-SX"),
        run("category: 6A, length: 2 m, loss: 30 dB"),
    ],
)
def test_they_are_silent_where_another_rule_speaks(text: str) -> None:
    report = report_of(text)

    assert [] == [*found(report, TOO_HIGH), *found(report, DOUBTFUL), *gaps(report, TOO_HIGH), *gaps(report, DOUBTFUL)]


def test_their_sources_are_those_of_budgets_fibre_and_joints() -> None:
    budgets = {row.loss_source for row in ROWS}
    fibres = {source for row in fibre_attenuation().values() for source in (row.source, row.typical_source)}
    pairs = {source for row in joints().values() for source in (row.source, row.typical_source)}

    assert (budgets | fibres | pairs) - {None} == set(FIBRE_LOSS_TOO_HIGH.sources())
    assert set(FIBRE_LOSS_TOO_HIGH.sources()) == set(FIBRE_LOSS_DOUBTFUL.sources())


@pytest.mark.parametrize("row", ROWS[::6], ids=lambda row: f"{row.phy}-{row.grade}")
def test_one_more_joint_never_cures(row: FibreReach) -> None:
    grave = {(): 0, (DOUBTFUL,): 1, (TOO_HIGH,): 2}
    counts = f", fibres: {optics()[row.phy].fibres}"
    states = []
    for pieces in (1, 2, 3, 5, 9, 15, 30):
        text = run(*[fibre(row.grade, "1 m", counts)] * pieces, near=row.phy, far=optics()[row.phy].opposite)
        states.append(grave[tuple(told(report_of(text)))])
    assert states == sorted(states)
    assert (0, 2) == (states[0], states[-1])
