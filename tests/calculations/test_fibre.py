"""Fibre: loss and promise against worked handbook cases, and their order in length and joints."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.calculations.fibre import FibreRun, fibre_loss_db, fibre_promise, typical_loss_db, worst_loss_db
from netaudit.model.finding import Measure
from netaudit.standards.fibre import fibre_attenuation, fibre_reach

ORDER = {"no": 0, "undecided": 1, "yes": 2}
LAYERS_AND_GRADES = sorted(fibre_reach())
layers_and_grades = st.sampled_from(LAYERS_AND_GRADES)
lengths = st.floats(min_value=0, max_value=50_000)
joint_counts = st.integers(min_value=0, max_value=12)


def run(grade: str, length_m: float, pairs: int = 0, splices: int = 0) -> FibreRun:
    return FibreRun(grade=grade, least_m=length_m, length_m=length_m, pairs=pairs, splices=splices)


def test_the_worked_example_of_two_kilometres_of_multimode() -> None:
    """Two router hardware guides: 13 dB, 2 km at 1 dB/km, 5 connectors and 2 splices at 0.5, 0.5 of higher modes."""
    loss_db = fibre_loss_db(run("OM2", 2000, 5, 2), 1.0, pair_db=0.5, splice_db=0.5)
    assert 13 - 0.5 - loss_db == pytest.approx(7.0)


def test_the_worked_example_of_eight_kilometres_of_singlemode() -> None:
    """The same guides: 13 dB, 8 km at 0.5 dB/km, 7 connectors at 0.5."""
    loss_db = fibre_loss_db(run("OS2", 8000, 7), 0.5, pair_db=0.5, splice_db=0.5)
    assert 13 - loss_db == pytest.approx(5.5)


@pytest.mark.parametrize(
    ("length_m", "joints_db", "printed_db"),
    [
        # Fibre Channel at 850 nm on 50 µm fibre, as IBM prints it for 9176-MLR: 32GFC on OM3 and OM4
        (70, 1.5, 1.75),
        (100, 1.5, 1.86),
        # Budgets of IEEE 802.3 as the tables cite them: 10G, 25G, 40G on OM3 and OM4, of which the last with 1.0 dB joints
        (300, 1.5, 2.6),
        (400, 1.5, 2.9),
        (70, 1.5, 1.8),
        (100, 1.5, 1.9),
        (150, 1.0, 1.5),
    ],
)
def test_printed_budgets_at_850_nm_are_joints_and_what_the_fibre_loses(
    length_m: float, joints_db: float, printed_db: float
) -> None:
    """3.6 dB/km, from which the printed budgets differ by their rounding."""
    loss_db = fibre_loss_db(run("OM3", length_m, 2), 3.6, pair_db=joints_db / 2, splice_db=0.0)
    assert loss_db == pytest.approx(printed_db, abs=0.055)


@pytest.mark.parametrize(("db_per_km", "reach_km"), [(0.4, 10), (0.5, 8), (1.0, 4)])
def test_the_reach_of_40gbase_lr4_follows_from_its_shortest_lane(db_per_km: float, reach_km: float) -> None:
    """tiafotc.org prints 10, 8 and 4 km: 6.7 dB less 2.0 dB of joints, the fibre losing 1.175 times as much at 1271 nm."""
    loss_db = fibre_loss_db(run("OS2", reach_km * 1000, 2), 1.175 * db_per_km, pair_db=1.0, splice_db=0.0)
    assert loss_db == pytest.approx(6.7)


@pytest.mark.parametrize(("grade", "db_per_km"), [("OS2", 0.4), ("OS1a", 1.0)])
def test_the_loss_at_the_shortest_lane_is_1_175_times_that_at_1310_nm(grade: str, db_per_km: float) -> None:
    assert fibre_attenuation()[grade, 1310].worst_db_per_km == db_per_km
    assert fibre_attenuation()[grade, 1271].worst_db_per_km == pytest.approx(1.175 * db_per_km)


@pytest.mark.parametrize(("strands", "answer"), [(None, "yes"), (7, "no"), (8, "yes"), (12, "yes")])
def test_fewer_fibres_than_a_module_needs_are_refused(strands: int | None, answer: str) -> None:
    """Four lanes each way: Ethernet Alliance (June 2012)."""
    promise = fibre_promise(replace(run("OM4", 20, 1), strands=strands), "40GBASE-SR4")
    assert promise.answer == answer
    if answer == "no":
        assert (promise.limit, promise.why) == (Measure(8, ""), "fibres")


@pytest.mark.parametrize(
    ("phy", "channel", "loss_db", "answer"),
    [
        # Loss worked by hand at 3.5 dB/km (singlemode 0.4) and 0.75 dB a pair, the most that TIA-568 and ISO/IEC 11801
        # allow; budgets of IEEE 802.3 as the tables cite them
        ("10GBASE-SR", run("OM3", 300, 2), 2.55, "yes"),
        ("10GBASE-SR", run("OM4", 400, 2), 2.90, "yes"),
        ("25GBASE-SR", run("OM3", 70, 2), 1.745, "yes"),
        ("25GBASE-SR", run("OM4", 100, 2), 1.85, "yes"),
        ("100GBASE-SR4", run("OM4", 100, 2), 1.85, "yes"),
        ("25GBASE-SR", run("OM4", 100, 4), 3.35, "no"),
        ("100GBASE-SR4", run("OM4", 100, 4), 3.35, "no"),
        ("40GBASE-SR4", run("OM4", 150, 2), 2.025, "no"),
        ("40GBASE-SR4", run("OM3", 100, 2), 1.85, "yes"),
        ("1000BASE-SX", run("OM2", 550, 2), 3.425, "yes"),
        ("10GBASE-LR", run("OS2", 10_000, 2), 5.5, "yes"),
        # Only the worst pairs break it: four decent ones at 0.5 dB come to 6.0 of 6.2 dB
        ("10GBASE-LR", run("OS2", 10_000, 4), 7.0, "undecided"),
    ],
)
def test_length_and_loss_are_judged_apart(phy: str, channel: FibreRun, loss_db: float, answer: str) -> None:
    window_nm = fibre_reach()[phy, channel.grade].window_nm
    assert loss_db == pytest.approx(worst_loss_db(channel, window_nm))
    assert answer == fibre_promise(channel, phy).answer


def test_a_loss_that_equals_the_budget_but_for_rounding_passes() -> None:
    channel = run("OM4", 400, 2)
    assert worst_loss_db(channel, 850) == 2.9000000000000004
    assert fibre_promise(channel, "10GBASE-SR").answer == "yes"


def test_a_loss_over_the_budget_names_the_budget() -> None:
    promise = fibre_promise(run("OM4", 100, 4), "25GBASE-SR")
    assert (promise.limit, promise.why) == (Measure(1.9, "dB"), "loss")
    assert promise.source == fibre_reach()["25GBASE-SR", "OM4"].loss_source


@pytest.mark.parametrize(("phy", "grade", "reach_m"), [("10GBASE-SR", "OM3", 300), ("25GBASE-SR", "OM4", 100)])
def test_a_metre_too_many_is_refused_whatever_the_loss(phy: str, grade: str, reach_m: float) -> None:
    assert fibre_promise(run(grade, reach_m), phy).answer == "yes"
    promise = fibre_promise(run(grade, reach_m + 1), phy)
    assert (promise.answer, promise.limit, promise.why) == ("no", Measure(reach_m, "m"), "length")


@pytest.mark.parametrize(
    ("grade", "length_m", "pairs", "answer"),
    [
        # 1.6 dB on OM1 and 1.8 dB on OM2 are printed by IEEE 802.3, 2.4 and 2.3 dB with the extra of cabling bodies
        ("OM1", 20, 2, "yes"),
        ("OM1", 33, 3, "undecided"),
        ("OM1", 33, 5, "no"),
        ("OM2", 82, 2, "yes"),
        ("OM2", 82, 4, "undecided"),
        ("OM2", 82, 5, "no"),
    ],
)
def test_old_multimode_has_a_promised_and_a_possible_budget(
    grade: str, length_m: float, pairs: int, answer: str
) -> None:
    assert answer == fibre_promise(run(grade, length_m, pairs), "10GBASE-SR").answer


@pytest.mark.parametrize(("phy", "grade"), LAYERS_AND_GRADES)
def test_no_layer_is_refused_at_its_own_reach(phy: str, grade: str) -> None:
    promise = fibre_promise(run(grade, fibre_reach()[phy, grade].reach_m), phy)
    assert promise.answer in ("yes", "undecided")


def test_10gbase_er_doubts_thirty_kilometres_of_the_worst_fibre() -> None:
    """30 km of OS2 lose 12 dB at the 0.4 dB/km that ISO/IEC 11801 allows and 6 dB at the 0.2 dB/km of the FOA."""
    promise = fibre_promise(run("OS2", 30_000), "10GBASE-ER")
    assert (promise.answer, promise.limit, promise.why) == ("undecided", Measure(10.9, "dB"), "loss")


def test_beyond_the_reach_but_within_an_engineered_link_is_undecided() -> None:
    promise = fibre_promise(replace(run("OS2", 35_000), measured_db=8.0), "10GBASE-ER")
    assert (promise.answer, promise.limit, promise.why) == ("undecided", Measure(30_000, "m"), "reach")


def test_an_unknown_length_is_undecided_without_a_limit() -> None:
    promise = fibre_promise(replace(run("OM3", 40, 2), length_m=None), "10GBASE-SR")
    assert (promise.answer, promise.limit, promise.why) == ("undecided", None, "length")


def test_a_known_part_decides_if_it_is_too_long_or_loses_too_much() -> None:
    too_long = fibre_promise(replace(run("OM3", 301), length_m=None), "10GBASE-SR")
    too_lossy = fibre_promise(replace(run("OM3", 10, 8), length_m=None), "10GBASE-SR")
    assert (too_long.answer, too_long.why) == ("no", "length")
    assert (too_lossy.answer, too_lossy.why) == ("no", "loss")


@pytest.mark.parametrize(("measured_db", "answer"), [(2.6, "yes"), (2.61, "no"), (0.4, "yes")])
def test_a_measured_loss_stands_in_for_fibre_and_joints(measured_db: float, answer: str) -> None:
    channel = replace(run("OM3", 200, 9), measured_db=measured_db)
    assert worst_loss_db(channel, 850) == typical_loss_db(channel, 850) == measured_db
    assert answer == fibre_promise(channel, "10GBASE-SR").answer


def test_a_measured_loss_does_not_stretch_the_reach() -> None:
    assert fibre_promise(replace(run("OM3", 310), measured_db=1.0), "10GBASE-SR").answer == "no"


@pytest.mark.parametrize(
    ("phy", "grade", "length_m", "pairs", "why"),
    [
        # 4.57 dB of 1000BASE-LX and 3.0 dB of 100GBASE-DR are from memory
        ("1000BASE-LX", "OS2", 4000, 12, "loss"),
        ("100GBASE-DR", "OS2", 400, 12, "loss"),
        # 70 m of OM3 for 50GBASE-SR are from memory
        ("50GBASE-SR", "OM3", 71, 0, "length"),
        # the loss of OM5 is from memory
        ("10GBASE-SR", "OM5", 300, 12, "loss"),
    ],
)
def test_a_remembered_figure_doubts_where_it_would_have_to_refuse(
    phy: str, grade: str, length_m: float, pairs: int, why: str
) -> None:
    promise = fibre_promise(run(grade, length_m, pairs), phy)
    assert (promise.answer, promise.why) == ("undecided", why)
    assert promise.limit is not None
    assert promise.source is not None
    assert promise.source.standing == "memory"


def test_a_measured_loss_does_not_rest_on_what_is_remembered_of_the_fibre() -> None:
    channel = replace(run("OM5", 300), measured_db=4.0)
    assert fibre_promise(channel, "10GBASE-SR").answer == "no"


@pytest.mark.parametrize(("phy", "grade"), [("10GBASE-SR", "OS2"), ("10GBASE-LR", "OM3"), ("25GBASE-SR", "OM2")])
def test_a_grade_that_a_layer_is_not_specified_for_is_refused(phy: str, grade: str) -> None:
    promise = fibre_promise(run(grade, 5), phy)
    assert (promise.answer, promise.limit, promise.why) == ("no", None, "grade")


def test_a_layer_in_no_table_is_undecided() -> None:
    assert fibre_promise(run("OS2", 5), "10GBASE-ZR").why == "phy"
    assert fibre_promise(run("OS2", 5), "10GBASE-ZR").answer == "undecided"


@pytest.mark.parametrize("phy", ["PSM4", "CWDM4"])
def test_a_layer_without_a_published_budget_is_undecided_within_its_reach(phy: str) -> None:
    assert fibre_promise(run("OS2", 100, 2), phy).answer == "undecided"
    assert fibre_promise(run("OS2", 2100, 2), phy).answer == "no"


@pytest.mark.parametrize(("phy", "grade"), LAYERS_AND_GRADES)
def test_a_short_cord_between_two_modules_is_always_good(phy: str, grade: str) -> None:
    budget = fibre_reach()[phy, grade].loss_db
    assert fibre_promise(run(grade, 5), phy).answer == ("undecided" if budget is None else "yes")


@given(layers_and_grades, lengths, lengths, joint_counts, joint_counts)
def test_a_longer_channel_is_never_promised_more(
    layer_and_grade: tuple[str, str], one_m: float, other_m: float, pairs: int, splices: int
) -> None:
    phy, grade = layer_and_grade
    short_m, long_m = sorted((one_m, other_m))
    short, long = (fibre_promise(run(grade, length_m, pairs, splices), phy) for length_m in (short_m, long_m))
    assert ORDER[long.answer] <= ORDER[short.answer]


@given(layers_and_grades, lengths, st.tuples(joint_counts, joint_counts), st.tuples(joint_counts, joint_counts))
def test_more_joints_are_never_promised_more(
    layer_and_grade: tuple[str, str], length_m: float, joints: tuple[int, int], more: tuple[int, int]
) -> None:
    phy, grade = layer_and_grade
    few = fibre_promise(run(grade, length_m, *joints), phy)
    many = fibre_promise(run(grade, length_m, joints[0] + more[0], joints[1] + more[1]), phy)
    assert ORDER[many.answer] <= ORDER[few.answer]


FIRM = [at for at, row in sorted(fibre_reach().items()) if row.source.may_fail]


@given(st.sampled_from(FIRM), st.floats(min_value=0.01, max_value=50_000), lengths, joint_counts)
def test_learning_the_rest_of_a_length_never_overturns_a_refusal(
    layer_and_grade: tuple[str, str], beyond_m: float, rest_m: float, pairs: int
) -> None:
    phy, grade = layer_and_grade
    known_m = fibre_reach()[layer_and_grade].possible_m + beyond_m
    assert "no" == fibre_promise(replace(run(grade, known_m, pairs), length_m=None), phy).answer
    assert "no" == fibre_promise(run(grade, known_m + rest_m, pairs), phy).answer


@given(layers_and_grades, lengths, joint_counts, joint_counts)
def test_decent_joints_never_lose_more_than_the_worst(
    layer_and_grade: tuple[str, str], length_m: float, pairs: int, splices: int
) -> None:
    phy, grade = layer_and_grade
    channel, window_nm = run(grade, length_m, pairs, splices), fibre_reach()[phy, grade].window_nm
    assert typical_loss_db(channel, window_nm) <= worst_loss_db(channel, window_nm)


def test_parts_that_were_measured_count_as_they_were_and_the_rest_by_its_length() -> None:
    """10 dB measured on 100 m of 250: the other 150 m add 0.525 dB at 3.5 dB/km, two pairs at worst 1.5 dB."""
    channel = replace(run("OM3", 250, 2), parts_db=10.0, parts_m=100.0)

    assert 10.525 == pytest.approx(typical_loss_db(channel, 850))
    assert 12.025 == pytest.approx(worst_loss_db(channel, 850))
    assert ("no", "loss") == ((promise := fibre_promise(channel, "10GBASE-SR")).answer, promise.why)
