"""Fibre, modules and the number of fibres that do not go together."""

from __future__ import annotations

import pytest
from lightrooms import fibre, only, run, told
from rooms import found, gaps, places, report_of

from netaudit.model.plan import FIBRE_GRADES
from netaudit.rules.cabling.fibre_types import FIBRE_TYPE_MISMATCH, OPTICS_DIFFER
from netaudit.standards.fibre import core_joints, fibre_reach
from netaudit.standards.optics import Optic, optics

MISMATCH, DIFFER = "fibre-type-mismatch", "optics-differ"
OPTICS = list(optics().values())
every_optic = pytest.mark.parametrize("optic", OPTICS, ids=lambda optic: optic.phy)


def between(optic: Optic, grade: str, fibres: int | None) -> str:
    """A short run between a module and the one that belongs at the other end."""
    more = "" if fibres is None else f", fibres: {fibres}"
    return run(fibre(grade, "5 m", more), near=optic.phy, far=optic.opposite)


# The grade


@every_optic
@pytest.mark.parametrize("grade", FIBRE_GRADES)
def test_a_module_takes_the_grades_that_it_has_a_reach_over_and_no_others(optic: Optic, grade: str) -> None:
    specified = (optic.phy, grade) in fibre_reach()

    assert specified == (MISMATCH not in told(report_of(between(optic, grade, optic.fibres))))


# Typed from the documents named: singlemode for LR and ER, multimode for SR (ProCurve and Avaya manuals, kb.wisc.edu);
# no 25G to 100G over OM1 or OM2 (fowiki.com, FAQ about 40G Optical Network)
@pytest.mark.parametrize(
    ("phy", "grade"),
    [
        ("10GBASE-SR", "OS2"),
        ("10GBASE-LR", "OM3"),
        ("10GBASE-ER", "OM4"),
        ("25GBASE-SR", "OM1"),
        ("25GBASE-SR", "OM2"),
        ("40GBASE-LR4", "OM3"),
        ("1000BASE-SX", "OS1"),
        ("10GBASE-BR10-D", "OM3"),
        ("1000BASE-LX10", "OM3"),
    ],
)
def test_the_wrong_fibre_fails(phy: str, grade: str) -> None:
    finding = only(between(optics()[phy], grade, None), MISMATCH)

    assert "fail" == finding.severity
    assert ["cable F1", "port core/9", "port vault/fast"] == places(finding)
    assert finding.message.startswith(f"F1 is {grade}; {phy.removesuffix('-D')}")


def test_a_layer_that_is_only_remembered_warns() -> None:
    assert "warn" == only(between(optics()["25GBASE-BR10-D"], "OM3", 1), MISMATCH).severity


@pytest.mark.parametrize(
    ("phy", "grade", "message", "remedy"),
    [
        (
            "10GBASE-LR",
            "OM3",
            "F1 is OM3; 10GBASE-LR is made for OS1, OS1a or OS2",
            "Put 10GBASE-LRM modules into core/9 and vault/fast, good to 220 m over OM3; "
            "or replace F1 by OS2, over which 10GBASE-LR reaches 10 km.",
        ),
        (
            "10GBASE-SR",
            "OS2",
            "F1 is OS2; 10GBASE-SR is made for OM1, OM2, OM3, OM4 or OM5",
            "Put 10GBASE-LR modules into core/9 and vault/fast, good to 10 km over OS2; "
            "or replace F1 by OM4, over which 10GBASE-SR reaches 400 m.",
        ),
        (
            "25GBASE-SR",
            "OM2",
            "F1 is OM2; 25GBASE-SR is made for OM3, OM4 or OM5",
            "Replace F1 by OM4, over which 25GBASE-SR reaches 100 m.",
        ),
    ],
)
def test_the_remedy_names_modules_for_the_fibre_and_fibre_for_the_modules(
    phy: str, grade: str, message: str, remedy: str
) -> None:
    finding = only(between(optics()[phy], grade, None), MISMATCH)

    assert (message, remedy) == (finding.message, finding.remedy)


def test_where_nothing_reaches_so_far_the_remedy_asks_for_what_does() -> None:
    finding = only(run(fibre("OM2", "90 km"), near="25GBASE-SR"), MISMATCH)

    assert "Use fibre and modules made for 90 km." == finding.remedy


def test_only_the_pieces_and_the_ends_that_do_not_fit_lead() -> None:
    finding = only(run(fibre("OM3", "3 m"), fibre("OM2", "9 m"), fibre("OM2", "20 m"), near="25GBASE-SR"), MISMATCH)
    assert ["cable F3", "cable F2", "cable F1", "port core/9", "port vault/fast"] == places(finding)
    assert "F2 and F3 are OM2; 25GBASE-SR is made for OM3, OM4 or OM5" == finding.message

    named = only(run(fibre("OM3"), near=None, far="10GBASE-LR"), MISMATCH)
    assert ["cable F1", "port core/9", "port vault/fast"] == places(named)


# Grades in one run


@pytest.mark.parametrize("one", FIBRE_GRADES)
@pytest.mark.parametrize("other", FIBRE_GRADES)
def test_fibres_of_unequal_cores_are_never_joined(one: str, other: str) -> None:
    """62.5 µm OM1, 50 µm OM2 to OM5, about 9 µm singlemode: fibertronics.com (July 2021)."""
    width = {"OM1": 62.5, "OM2": 50, "OM3": 50, "OM4": 50, "OM5": 50}
    unequal = width.get(one, 9) != width.get(other, 9)
    findings = found(report_of(run(fibre(one), fibre(other), near=None)), MISMATCH)

    assert unequal == bool(findings)
    assert not unequal or "are joined, with cores of" in findings[0].message


def test_an_old_orange_cord_in_an_aqua_run_is_told_with_its_loss() -> None:
    finding = only(run(fibre("OM1", "2 m"), fibre("OM3", "60 m"), fibre("OM3", "2 m")), MISMATCH)

    assert ["cable F1", "cable F2", "cable F3"] == places(finding)
    assert (
        "F1 of OM1, F2 of OM3 and F3 of OM3 are joined, with cores of 62.5 and 50 µm: light on its way into the "
        "narrower one loses about 4 dB" == finding.message
    )
    assert "Replace F1 by OM3, so that one kind of fibre runs from end to end." == finding.remedy
    assert "fail" == finding.severity


def test_all_cords_of_the_shorter_kind_are_replaced_whatever_their_grade() -> None:
    finding = only(run(fibre("OM3", "2 m"), fibre("OM1", "60 m"), fibre("OM4", "3 m")), MISMATCH)

    assert ["cable F3", "cable F1", "cable F2"] == places(finding)
    assert "Replace F1 and F3 by OM1, so that one kind of fibre runs from end to end." == finding.remedy


def test_a_part_of_unknown_length_is_not_taken_for_the_shorter_one() -> None:
    for pieces in ([fibre("OM1", "2 m"), fibre("OM3", None)], [fibre("OM3", None), fibre("OM1", "2 m")]):
        assert "by OM3, so that" in only(run(*pieces), MISMATCH).remedy


def test_the_modules_say_which_kind_is_the_odd_one() -> None:
    pieces = [fibre("OS2", "60 m"), fibre("OM3", "2 m"), fibre("OM4", "2 m")]
    short = run(*pieces, near="10GBASE-SR")
    assert "Replace F1 by OM3 or OM4, so that" in only(short, MISMATCH).remedy
    assert "Replace F2 and F3 by OS2, so that" in only(run(*pieces, near="10GBASE-LR"), MISMATCH).remedy
    assert "Replace F1 by OM3 or OM4, so that" in only(run(*pieces, near=None, far="10GBASE-SR"), MISMATCH).remedy
    # no module can use either, so that the shorter part goes
    old = run(fibre("OM1", "9 m"), fibre("OM2", "2 m"), near="25GBASE-SR")
    assert "Replace F2 by OM1, so that" in only(old, MISMATCH).remedy


def test_a_piece_of_unknown_grade_does_not_hide_two_that_differ() -> None:
    finding = only(run(fibre("OM1", "2 m"), fibre("unknown", "1 m"), fibre("OM3", "60 m")), MISMATCH)
    assert ["cable F1", "cable F3", "cable F2"] == places(finding)
    assert finding.message.startswith("F1 of OM1 and F3 of OM3 are joined")
    assert finding.remedy.startswith("Replace F1 by OM3, so")


# The number of fibres


@every_optic
def test_one_fibre_too_few_strikes_and_as_many_as_are_needed_do_not(optic: Optic) -> None:
    grade = next(grade for phy, grade in fibre_reach() if phy == optic.phy and grade not in ("OM1", "OM2"))
    assert {} == told(report_of(between(optic, grade, optic.fibres)))
    if optic.fibres > 1:
        finding = only(between(optic, grade, optic.fibres - 1), MISMATCH)
        assert ("fail", optic.source) == (finding.severity, finding.source)
        assert ((optic.fibres - 1, ""), (optic.fibres, "")) == (finding.measured, finding.limit)


@pytest.mark.parametrize(
    ("phy", "grade", "fibres", "message", "remedy"),
    [
        (
            "40GBASE-SR4",
            "OM4",
            2,
            "F1 has 2 fibres in use; 40GBASE-SR4 needs 8",
            "Use 8 fibres of F1, or a cable that has as many.",
        ),
        (
            "10GBASE-SR",
            "OM3",
            1,
            "F1 has 1 fibre in use; 10GBASE-SR needs 2",
            "Use 2 fibres of F1, or a cable that has as many.",
        ),
        (
            "PSM4",
            "OS2",
            2,
            "F1 has 2 fibres in use; PSM4 needs 8",
            "Use 8 fibres of F1, or a cable that has as many; or put 100GBASE-DR modules into both ends, which need 2 fibres.",
        ),
        (
            "100GBASE-SR10",
            "OM4",
            12,
            "F1 has 12 fibres in use; 100GBASE-SR10 needs 20",
            "Use 20 fibres of F1, or a cable that has as many; or put 100GBASE-SR4 modules into both ends, "
            "which need 8 fibres.",
        ),
    ],
)
def test_the_remedy_says_how_many_and_which_modules_need_fewer(
    phy: str, grade: str, fibres: int, message: str, remedy: str
) -> None:
    finding = only(between(optics()[phy], grade, fibres), MISMATCH)

    assert (message, remedy) == (finding.message, finding.remedy)
    assert ["cable F1"] == places(finding)


def test_the_fewest_fibres_of_the_run_count() -> None:
    pieces = [
        fibre("OM4", "1 m", ", fibres: 6"),
        fibre("OM4", "9 m", ", fibres: 8"),
        fibre("OM4", "2 m", ", fibres: 4"),
    ]
    finding = only(run(*pieces, near="40GBASE-SR4"), MISMATCH)

    assert ["cable F3", "cable F1", "cable F2"] == places(finding)
    assert "F1 and F3 have 4 fibres in use; 40GBASE-SR4 needs 8" == finding.message


def test_a_number_that_is_not_given_is_two_and_open_where_that_is_too_few() -> None:
    for far in ("same", None):
        report = report_of(run(fibre("OM4", "1 m"), fibre("OM4", "2 m", ", fibres: 8"), near="40GBASE-SR4", far=far))
        assert {} == told(report)
        (gap,) = [gap for gap in gaps(report, MISMATCH) if "fibres" in gap.reason]
        assert (["cable F1"], "How many fibres of F1 are in use is not given") == (places(gap), gap.reason)
        assert "write down `fibres` of F1: 40GBASE-SR4 needs 8" == gap.decides

    assert [] == gaps(report_of(run(fibre("OM4"))), MISMATCH)
    assert "incomplete" != report_of(run(fibre("OM3", "5 m"))).summary.verdict


def test_one_end_is_enough_to_tell_that_there_are_too_few() -> None:
    assert MISMATCH in told(report_of(run(fibre("OM4", "2 m", ", fibres: 2"), near=None, far="40GBASE-SR4")))


def breakout(fibres: int) -> str:
    """A cage of 40 Gb/s whose fibres are split among four of 10 Gb/s."""
    return f"""\
netaudit: 1
devices:
  core: {{role: switch, ports: {{1: {{connector: qsfp+, rates: [40G], module: 40GBASE-SR4}}}}}}
  vault: {{role: storage, ports: {{1-4: {{connector: sfp+, rates: [10G], module: 10GBASE-SR}}}}}}
cables:
  B1: {{from: core/1, to: [vault/1, vault/2, vault/3, vault/4], category: OM3, length: 5 m, fibres: {fibres}}}
"""


def test_a_breakout_splits_its_fibres() -> None:
    report = report_of(breakout(2))
    assert {} == told(report)
    assert [] == gaps(report, MISMATCH)


# What is unknown


def test_a_grade_or_a_module_that_is_not_known_is_not_checked() -> None:
    (grade,) = gaps(report_of(run(fibre("unknown"))), MISMATCH)
    assert "The category of F1 is not known" == grade.reason

    (module,) = gaps(report_of(run(fibre("OM3"), near=None)), MISMATCH)
    assert "Which module sits in core/9 and vault/fast is not given" == module.reason

    assert [] == gaps(report_of(run(fibre("OM3"), far=None)), MISMATCH)


def test_fibre_that_no_module_at_that_rate_is_made_for_needs_no_module_to_be_told() -> None:
    """OM1 and OM2 carry none of the fast layers: fowiki.com, FAQ about 40G Optical Network."""
    finding = only(run(fibre("OM2"), near=None, rates="[25G]"), MISMATCH)

    assert "F1 is OM2; no module at that rate is for it" == finding.message
    assert ["cable F1", "port core/9", "port vault/fast"] == places(finding)
    assert [] == found(report_of(run(fibre("OM2"), near=None, rates="[25G, 10G]")), MISMATCH)
    assert [] == found(report_of(run(fibre("OM3"), near=None, rates="[25G]")), MISMATCH)


def test_its_sources_are_those_of_reaches_fibres_and_cores() -> None:
    reaches = {row.source for row in fibre_reach().values()}
    cores = {joint.source for joint in core_joints()}

    assert reaches | cores | {optic.source for optic in OPTICS} == set(FIBRE_TYPE_MISMATCH.sources())


# Modules that differ


def test_slow_modules_in_faster_cages_are_a_slow_road_and_no_fault_of_the_fibre() -> None:
    text = """\
netaudit: 1
networks: {media: {purpose: storage}}
devices:
  cut-1:
    role: station
    wants: 10G
    ports: {wire: {connector: sfp+, rates: [10G, 1G], module: 1000BASE-SX, network: media}}
  vault:
    role: storage
    ports: {fast: {connector: sfp+, rates: [10G, 1G], module: 1000BASE-SX, network: media}}
cables:
  F1: {from: cut-1/wire, to: vault/fast, category: OM3, length: 60 m}
"""
    report = report_of(text)
    (short,) = found(report, "path-below-target")
    assert (1_000_000_000, "bit/s") == short.measured
    assert {} == told(report)
    assert [1_000_000_000] == [judged.path.promised_bit_per_s for judged in report.paths]


@every_optic
def test_a_module_links_with_its_opposite_or_one_that_it_hears_and_with_no_other(optic: Optic) -> None:
    rates = "[100M, 1G, 10G, 25G, 40G, 50G, 100G]"
    for other in OPTICS:
        report = report_of(run(fibre("OS2", "5 m"), near=optic.phy, far=other.phy, rates=rates))
        assert (other.phy not in (optic.opposite, optic.also)) == bool(found(report, DIFFER)), other.phy


def test_two_halves_of_a_pair_on_one_short_fibre_are_clean_and_the_path_passes() -> None:
    text = """\
netaudit: 1
networks: {media: {purpose: storage}}
devices:
  cut-1:
    role: station
    wants: 10G
    ports: {wire: {connector: sfp+, rates: [10G], module: 10GBASE-BR10-U, network: media}}
  vault:
    role: storage
    ports: {fast: {connector: sfp+, rates: [10G], module: 10GBASE-BR10-D, network: media}}
cables:
  F1: {from: cut-1/wire, to: vault/fast, category: OS2, length: 12 m, fibres: 1}
"""
    report = report_of(text)
    assert ((), ()) == (report.findings, report.not_checked)
    assert ["pass"] == [judged.verdict for judged in report.paths]
    assert ["10GBASE-BR10-U"] == [hop.phy for judged in report.paths for hop in judged.path.hops]


@pytest.mark.parametrize(
    ("near", "far", "grade", "message", "remedy"),
    [
        (
            "10GBASE-SR",
            "10GBASE-LR",
            "OM3",
            "vault/fast has 10GBASE-LR and core/9 has 10GBASE-SR: such modules never link",
            "Put 10GBASE-SR into vault/fast, to go with 10GBASE-SR in core/9.",
        ),
        (
            "10GBASE-SR",
            "10GBASE-LR",
            "OS2",
            "core/9 has 10GBASE-SR and vault/fast has 10GBASE-LR: such modules never link",
            "Put 10GBASE-LR into core/9, to go with 10GBASE-LR in vault/fast.",
        ),
        (
            "10GBASE-LRM",
            "10GBASE-SR",
            "OM3",
            "core/9 has 10GBASE-LRM and vault/fast has 10GBASE-SR: such modules never link",
            "Put 10GBASE-SR into core/9, to go with 10GBASE-SR in vault/fast.",
        ),
        (
            "10GBASE-BR10-D",
            "10GBASE-BR10-D",
            "OS2",
            "vault/fast has 10GBASE-BR10-D and core/9 has 10GBASE-BR10-D: both send alike, and neither hears the other",
            "Put 10GBASE-BR10-U into vault/fast, to go with 10GBASE-BR10-D in core/9.",
        ),
        (
            "10GBASE-SR",
            "10GBASE-LR",
            "unknown",
            "vault/fast has 10GBASE-LR and core/9 has 10GBASE-SR: such modules never link",
            "Put 10GBASE-SR into vault/fast, to go with 10GBASE-SR in core/9.",
        ),
    ],
)
def test_the_module_that_suits_the_fibre_stays(near: str, far: str, grade: str, message: str, remedy: str) -> None:
    finding = only(run(fibre(grade), near=near, far=far), DIFFER)

    wrong, _, right = message.partition(" and ")
    ends = [f"port {end.split()[0]}" for end in (wrong, right)]
    assert ("fail", [*ends, "cable F1"]) == (finding.severity, places(finding))
    assert (message, remedy) == (finding.message, finding.remedy)


FAST_AND_SLOW = """\
netaudit: 1
devices:
  cut-1: {{role: station, wants: 10G, ports: {{slot: {{connector: sfp+, rates: [{seat}], module: {near}}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: sfp+, rates: [{store}], module: {far}}}}}}}
cables:
  F1: {{from: cut-1/slot, to: vault/fast, category: {grade}, length: 20 m}}
"""


@pytest.mark.parametrize(
    ("near", "far"), [("10GBASE-SR", "1000BASE-SX"), ("1000BASE-SX", "10GBASE-SR")], ids=["fast first", "slow first"]
)
@pytest.mark.parametrize(
    ("cages", "stays"),
    [
        (("10G, 1G", "10G, 1G"), "10GBASE-SR"),
        (("10G, 1G", "1G"), "1000BASE-SX"),
        (("1G", "10G, 1G"), "1000BASE-SX"),
        (("10G", "10G, 1G"), "10GBASE-SR"),
    ],
)
def test_of_unequal_rates_the_faster_module_stays_where_both_cages_run_it(
    near: str, far: str, cages: tuple[str, str], stays: str
) -> None:
    """1000BASE-SX reaches farther over OM3, 550 m against 300 m (IEEE 802.3 clauses 38 and 52), and is a tenth as fast."""
    seat, store = cages
    text = FAST_AND_SLOW.format(seat=seat, store=store, near=near, far=far, grade="OM3")
    finding = only(text, DIFFER)
    right, wrong = ("cut-1/slot", "vault/fast") if near == stays else ("vault/fast", "cut-1/slot")

    assert f"Put {stays} into {wrong}, to go with {stays} in {right}." == finding.remedy
    assert [f"port {wrong}", f"port {right}", "cable F1"] == places(finding)


def test_where_no_module_runs_in_both_cages_the_remedy_is_other_cages() -> None:
    text = FAST_AND_SLOW.format(seat="10G", store="1G", near="10GBASE-SR", far="1000BASE-SX", grade="OM3")

    assert (
        "Use cages at vault/fast and cut-1/slot that run one rate, with two modules of one kind for it."
        == only(text, DIFFER).remedy
    )


def test_a_cage_that_does_not_take_the_faster_module_keeps_the_slower_one() -> None:
    """An SFP+ module stays dark in an SFP cage: i7fiber.com on compatibility."""
    text = FAST_AND_SLOW.format(seat="10G, 1G", store="10G, 1G", near="10GBASE-SR", far="1000BASE-SX", grade="OM3")
    old = text.replace("fast: {connector: sfp+", "fast: {connector: sfp")

    assert "Put 1000BASE-SX into cut-1/slot, to go with 1000BASE-SX in vault/fast." == only(old, DIFFER).remedy


@pytest.mark.parametrize(("near", "far"), [("10GBASE-LR", "10GBASE-SR"), ("10GBASE-SR", "10GBASE-LR")])
def test_where_modules_differ_the_fibre_is_judged_by_the_one_that_stays(near: str, far: str) -> None:
    assert [] == found(report_of(run(fibre("OM3"), near=near, far=far)), MISMATCH)
    assert [] == found(report_of(run(fibre("OS2"), near=near, far=far)), MISMATCH)


@pytest.mark.parametrize(("near", "far"), [("10GBASE-LR", "1000BASE-SX"), ("1000BASE-SX", "10GBASE-LR")])
def test_a_module_that_stays_and_is_not_made_for_the_fibre_is_told_with_what_is(near: str, far: str) -> None:
    text = FAST_AND_SLOW.format(seat="10G, 1G", store="10G, 1G", near=near, far=far, grade="OM3")
    kept, wrong = ("cut-1/slot", "vault/fast") if near == "10GBASE-LR" else ("vault/fast", "cut-1/slot")
    fault = only(text, MISMATCH)

    assert ["cable F1", f"port {kept}"] == places(fault)
    assert "F1 is OM3; 10GBASE-LR is made for OS1, OS1a or OS2" == fault.message
    assert fault.remedy.startswith("Put 10GBASE-LRM modules into cut-1/slot and vault/fast, good to 220 m over OM3")
    assert f"Put two modules of one kind that is made for OM3 into {wrong} and {kept}." == only(text, DIFFER).remedy


def test_where_modules_differ_only_the_one_that_stays_asks_for_its_fibres() -> None:
    """40GBASE-LR4 goes over two fibres and reaches 10 km over OS2; 40GBASE-SR4 over eight (IEEE 802.3 clauses 86, 87)."""
    text = run(fibre("OS2", "20 m", ", fibres: 2"), near="40GBASE-SR4", far="40GBASE-LR4")

    assert [] == found(report_of(text), MISMATCH)
    assert "Put 40GBASE-LR4 into core/9, to go with 40GBASE-LR4 in vault/fast." == only(text, DIFFER).remedy


def test_where_modules_differ_the_odd_fibre_is_the_one_that_the_module_that_stays_cannot_use() -> None:
    pieces = [fibre("OM3", "60 m"), fibre("OS2", "2 m")]
    fault = only(run(*pieces, near="1000BASE-SX", far="10GBASE-LR", rates="[10G, 1G]"), MISMATCH)

    assert "Replace F1 by OS2, so that one kind of fibre runs from end to end." == fault.remedy


def test_the_seats_reason_and_step_name_the_ports_and_the_same_module() -> None:
    text = FAST_AND_SLOW.format(seat="10G", store="10G", near="10GBASE-LR", far="10GBASE-SR", grade="OM3")
    (short,) = found(report_of(text), "path-below-target")

    assert "because the modules at cut-1/slot and vault/fast, 10GBASE-LR and 10GBASE-SR, differ" in short.message
    assert only(text, DIFFER).remedy == short.remedy


def test_the_lesser_grade_of_a_run_says_which_module_suits_it() -> None:
    """Over OM1, 10GBASE-LRM reaches 220 m and 10GBASE-SR 33 m; over OM4 alone it would be the other way round."""
    finding = only(run(fibre("OM4"), fibre("OM1"), near="10GBASE-SR", far="10GBASE-LRM"), DIFFER)
    assert "Put 10GBASE-LRM into core/9, to go with 10GBASE-LRM in vault/fast." == finding.remedy


@pytest.mark.parametrize(
    "text",
    [
        run(fibre("OM3"), far=None),
        run(fibre("OM3"), near=None),
        run(fibre("OM3"), near=None, far="10GBASE-SR"),
        run("category: twinax, length: 2 m", near="10GSFP+Cu", far="25GBASE-CR"),
    ],
)
def test_modules_that_may_still_match_are_no_fault(text: str) -> None:
    assert [] == found(report_of(text), DIFFER)
    assert [] == gaps(report_of(text), DIFFER)


def test_the_ends_of_a_breakout_differ_by_design() -> None:
    assert [] == found(report_of(breakout(8)), DIFFER)


def test_the_sources_of_differing_modules_are_those_of_the_modules() -> None:
    assert {optic.source for optic in OPTICS} == set(OPTICS_DIFFER.sources())
