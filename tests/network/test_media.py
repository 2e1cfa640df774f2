"""Media: what a channel is made of, which part of it is cord, and what is promised over fibre, twinax and a mixture."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import UP_TO_10G, G, aerial, cable, cage, jack, only_link, panel, rates, ref, seat, switch, vault, wired

from netaudit.calculations.copper_run import CopperRun, Cord
from netaudit.calculations.promise import Answer
from netaudit.model.plan import Cable, Category, Device, Port
from netaudit.network.channels import find_channels
from netaudit.network.media import Carrier, is_cord, parts_below

TEN = 10 * G


def carrier(*cables: Cable, near: Port | None = None, far: Port | None = None, **joint: Any) -> Carrier:
    """What carries the frames between a/1 and b/1, through as many panels as there are cables to join."""
    panels = [panel(f"p{number}", 1, **joint) for number in range(1, len(cables))]
    ends: list[Device] = [switch("a", {"1": near or jack()}), switch("b", {"1": far or jack()})]
    found = only_link(*ends, *panels, *cables).carrier
    assert found is not None
    return found


def line(*categories: Category, length_m: float | None = 10.0, **fields: Any) -> list[Cable]:
    """Cables of those categories in a row from a/1 to b/1."""
    ends = ["a/1", *(f"p{number}/1" for number in range(1, len(categories))), "b/1"]
    return [
        cable(f"C{number}", ends[number - 1], ends[number], category, length_m, **fields)
        for number, category in enumerate(categories, 1)
    ]


def copper(*cables: Cable, **joint: Any) -> CopperRun:
    found = carrier(*cables, **joint).copper
    assert found is not None
    return found


def test_the_length_of_a_channel_is_known_where_that_of_every_cable_is() -> None:
    known, unknown = carrier(*line("6A", "6A")), carrier(*line("6A", length_m=None))
    assert (known.length_known, known.length_m) == (True, 20.0)
    assert (unknown.length_known, unknown.length_m) == (False, None)


# Twisted pair


def test_the_lowest_category_of_cables_and_passive_ports_counts() -> None:
    assert copper(*line("6A", "5e", "6")).lowest_category == "5e"
    assert copper(*line("6A", "6A"), category="6").lowest_category == "6"
    assert copper(*line("6A", "6A")).lowest_category == "6A"
    assert copper(*line("7", "8.1"), category="7A").lowest_category == "7"


def test_a_channel_is_screened_only_if_every_part_is_and_a_silent_port_matches_its_cables() -> None:
    assert copper(*line("6A", "6A", screened=True)).screened
    assert copper(*line("6A", "6A", screened=True), screened=True).screened
    assert not copper(*line("6A", "6A", screened=True), screened=False).screened
    mixed = [cable("C1", "a/1", "p1/1", screened=True), cable("C2", "p1/1", "b/1")]
    assert not copper(*mixed).screened


def test_a_part_of_unknown_category_leaves_that_of_the_channel_open() -> None:
    half = copper(*line("6", "unknown"))
    assert (half.lowest_category, half.category_known) == ("6", False)
    socket = copper(*line("6", "6"), category="unknown")
    assert (socket.lowest_category, socket.category_known) == ("6", False)
    nothing = copper(*line("unknown"))
    assert (nothing.lowest_category, nothing.category_known) == (None, False)


@pytest.mark.parametrize(
    ("near", "far", "fields", "cord"),
    [
        ("a/1", "p1/1", {}, True),
        ("p1/1", "b/1", {}, True),
        ("a/1", "b/1", {}, True),
        ("p1/1", "p2/1", {}, False),
        ("a/1", "p1/1", {"installed": True}, False),
        ("p1/1", "p2/1", {"cord_awg": 26}, True),
        ("a/1", "p1/1", {"installed": True, "cord_awg": 24}, True),
    ],
)
def test_a_cord_says_so_or_hangs_loose_on_an_active_port(
    near: str, far: str, fields: dict[str, Any], cord: bool
) -> None:
    joints = {ref("p1/1"), ref("p2/1")}
    assert is_cord(cable("C1", near, far, **fields), joints) == cord


def test_solid_cable_and_cords_are_told_apart_and_summed() -> None:
    parts = [
        cable("C1", "a/1", "p1/1", length_m=3.0, cord_awg=26),
        cable("W1", "p1/1", "p2/1", length_m=30.0),
        cable("W2", "p2/1", "p3/1", length_m=8.5, installed=True),
        cable("C2", "p3/1", "b/1", length_m=1.0),
    ]
    run = copper(*parts)
    assert (run.fixed_m, run.cords, run.connections) == (38.5, (Cord(3.0, 26), Cord(1.0, None)), 3)
    assert run.length_m == 42.5


def test_an_unknown_length_leaves_the_sum_of_the_others() -> None:
    parts = [cable("C1", "a/1", "p1/1", length_m=3.0), cable("W1", "p1/1", "b/1", length_m=None)]
    found = carrier(*parts)
    assert (found.least_m, found.length_m) == (3.0, None)
    assert found.copper is not None
    assert (found.copper.least_m, found.copper.length_m) == (3.0, None)


def test_the_air_is_the_warmest_along_solid_cable_and_that_of_the_plan_where_a_cable_does_not_say() -> None:
    ends = [switch("a", {"1": jack()}), switch("b", {"1": jack()}), panel("p1"), panel("p2")]
    parts = [
        cable("C1", "a/1", "p1/1", ambient_c=55.0),
        cable("W1", "p1/1", "p2/1", ambient_c=18.0),
        cable("C2", "p2/1", "b/1"),
    ]
    run = only_link(*ends, *parts, ambient_c=31.0).copper
    assert run is not None
    assert run.ambient_c == 18.0
    warmer = cable("C2", "p2/1", "b/1", installed=True, ambient_c=44.0)
    run = only_link(*ends, *parts[:2], warmer, ambient_c=31.0).copper
    assert run is not None
    assert run.ambient_c == 44.0
    bare = only_link(*ends, parts[0], cable("W1", "p1/1", "p2/1"), parts[2], ambient_c=31.0).copper
    assert bare is not None
    assert bare.ambient_c == 31.0
    cord = only_link(*ends[:2], cable("C1", "a/1", "b/1", ambient_c=55.0), ambient_c=31.0).copper
    assert cord is not None
    assert cord.ambient_c == 31.0


def test_the_parts_below_a_category_are_the_cables_and_ports_to_replace() -> None:
    plan = wired(
        switch("a", {"1": jack()}), switch("b", {"1": jack()}), panel("p1", category="5"), panel("p2"),
        cable("C1", "a/1", "p1/1", "6A"), cable("W1", "p1/1", "p2/1", "5e"), cable("C2", "p2/1", "b/1", "unknown"),
    )  # fmt: skip
    (channel,) = find_channels(plan).channels
    cables, joints = parts_below(plan, channel, "6")
    assert ([each.name for each in cables], joints) == (["W1"], (ref("p1/1"),))
    assert parts_below(plan, channel, "5e") == ((), (ref("p1/1"),))
    assert parts_below(plan, channel, "5") == ((), ())


def test_one_cable_of_clad_aluminium_makes_a_channel_clad_and_leaves_it_no_reach() -> None:
    """ANSI/TIA-568-C.2 section 5.3 asks for solid copper, as given by copper.org (4 March 2011)."""
    parts = [cable("C1", "a/1", "p1/1", material="aluminium-clad"), cable("W1", "p1/1", "b/1")]
    assert copper(*parts).clad
    assert not copper(*line("6A", "6A")).clad
    assert carrier(*parts).promise(TEN).why == "material"
    assert carrier(*parts).reach_m(TEN) is None


# Which medium


BLANK = {"near": Port(), "far": Port()}
"""Two ports of unknown connector, which may take anything."""


@pytest.mark.parametrize(
    ("categories", "medium"),
    [
        (("6A",), "copper"),
        (("6A", "unknown"), "copper"),
        (("OM3",), "fibre"),
        (("OM3", "OS2"), "fibre"),
        (("twinax",), "twinax"),
        (("active-twinax",), "twinax"),
        (("active-optical",), "twinax"),
        (("thunderbolt",), "host"),
        (("usb",), "host"),
        (("unknown",), "unknown"),
        (("6A", "OM3"), "mixed"),
        (("6A", "twinax"), "mixed"),
    ],
)
def test_the_cables_say_what_a_channel_is_made_of(categories: tuple[Category, ...], medium: str) -> None:
    assert carrier(*line(*categories), **BLANK).medium == medium


def optic(module: str = "10GBASE-SR") -> Port:
    return cage(10, module=module)


@pytest.mark.parametrize(
    ("near", "category", "far"),
    [
        (optic(), "6A", optic()),
        (cage(10), "6A", optic()),
        (cage(10), "6A", jack()),
        (cage(10), "6A", optic("10GBASE-T")),
        (cage(10), "usb", cage(10)),
        (Port(connector="usb-a"), "thunderbolt", Port(connector="thunderbolt")),
        (Port(rates=UP_TO_10G), "OM3", Port()),
        (jack(), "twinax", jack()),
        (jack(), "OM3", jack()),
        (cage(10), "active-optical", jack()),
        (optic(), "twinax", optic()),
        (cage(10), "active-twinax", optic("10GBASE-T")),
        (cage(10), "active-optical", optic()),
        (cage(10), "active-optical", Port(connector="lc")),
        (Port(connector="lc"), "6A", Port(connector="sc")),
        (jack(), "6A", Port(connector="mpo")),
        (Port(connector="usb-c"), "6A", jack()),
        (Port(connector="thunderbolt"), "OM3", optic()),
        (jack(), "usb", jack()),
        (jack(), "6A", aerial()),
        (optic("10GSFP+Cu"), "6A", optic("10GSFP+Cu")),
        (optic("10GBASE-T"), "OM3", optic("10GBASE-T")),
    ],
)
def test_a_cable_that_does_not_go_into_the_port_at_its_end_is_promised_nothing(
    near: Port, category: Category, far: Port
) -> None:
    """What goes where follows from the connectors: IEC 60603-7 (rj45), IEC 61754 (lc, sc, mpo), SFF-8431 (cages)."""
    for one, other in ((near, far), (far, near)):
        found = carrier(*line(category, length_m=1.0), near=one, far=other)
        assert (found.medium, found.copper, found.fibres) == ("mixed", None, ())
        assert (found.promise(TEN).answer, found.promise(TEN).why) == ("no", "medium")


@pytest.mark.parametrize(
    ("near", "category", "far", "medium"),
    [
        (optic("10GBASE-T"), "6A", optic("10GBASE-T"), "copper"),
        (optic("10GBASE-T"), "6A", jack(), "copper"),
        (Port(), "6A", jack(), "copper"),
        (optic("10GSFP+Cu"), "twinax", cage(10), "twinax"),
        (Port(), "twinax", cage(10), "twinax"),
        (optic("10GBASE-LR"), "OS2", Port(connector="lc"), "fibre"),
        (optic("1000BASE-LX"), "OM3", cage(10), "fibre"),
        (Port(connector="usb-c"), "thunderbolt", Port(connector="thunderbolt"), "host"),
    ],
)
def test_a_cable_that_goes_into_both_ports_keeps_its_medium(
    near: Port, category: Category, far: Port, medium: str
) -> None:
    for one, other in ((near, far), (far, near)):
        assert carrier(*line(category), near=one, far=other).medium == medium


@pytest.mark.parametrize(
    ("near", "far", "medium"),
    [
        (jack(), cage(10), "mixed"),
        (jack(), Port(), "copper"),
        (Port(rates=UP_TO_10G), Port(), "copper"),
        (Port(), Port(), "unknown"),
        (cage(10), cage(10), "unknown"),
        (cage(10, module="10GBASE-SR"), cage(10), "fibre"),
        (cage(10, module="10GBASE-T"), cage(10), "mixed"),
        (cage(10, module="10GSFP+Cu"), cage(10), "twinax"),
        (jack(), cage(10, module="10GBASE-SR"), "mixed"),
        (Port(connector="lc"), cage(10), "fibre"),
        (Port(connector="usb-a"), cage(10), "mixed"),
        (Port(connector="usb-c"), Port(connector="thunderbolt"), "host"),
        (aerial(), Port(), "mixed"),
    ],
)
def test_the_ends_say_it_where_no_cable_does(near: Port, far: Port, medium: str) -> None:
    assert carrier(*line("unknown"), near=near, far=far).medium == medium


def test_what_is_in_no_table_is_undecided_and_a_mixture_is_refused() -> None:
    assert carrier(*line("thunderbolt"), **BLANK).promise(TEN).answer == "undecided"
    assert carrier(*line("unknown"), near=cage(10), far=cage(10)).promise(TEN).answer == "undecided"
    mixture = carrier(*line("6A", "OM3")).promise(TEN)
    assert (mixture.answer, mixture.why) == ("no", "medium")


# Fibre: IEEE 802.3 clause 52 (10GBASE-SR 300 m of OM3, 400 m of OM4, 82 m of OM2, 33 m of OM1)


def optics(*cables: Cable, near: str | None = "10GBASE-SR", far: str | None = "10GBASE-SR") -> tuple[Answer, str]:
    promise = carrier(*cables, near=cage(10, module=near), far=cage(10, module=far)).promise(TEN)
    return promise.answer, promise.why


@pytest.mark.parametrize(
    ("grade", "length_m", "expected"),
    [
        ("OM1", 33.0, ("yes", "length")),
        ("OM1", 34.0, ("no", "length")),
        ("OM2", 82.0, ("yes", "length")),
        ("OM3", 300.0, ("yes", "length")),
        ("OM3", 300.1, ("no", "length")),
        ("OM4", 400.0, ("yes", "length")),
        ("OM4", 400.1, ("no", "length")),
        ("OS2", 10.0, ("no", "grade")),
        ("unknown", 10.0, ("undecided", "medium")),
    ],
)
def test_fibre_is_promised_by_module_and_grade(grade: Category, length_m: float, expected: tuple[Answer, str]) -> None:
    assert optics(*line(grade, length_m=length_m)) == expected


def test_modules_that_differ_never_meet_and_a_module_that_is_not_given_leaves_it_open() -> None:
    assert optics(*line("OM3"), far="10GBASE-LRM") == ("no", "optics")
    assert optics(*line("OM3"), near=None)[0] == "undecided"
    assert optics(*line("OM3"), far=None)[0] == "undecided"


def test_two_grades_are_judged_as_if_all_were_the_lower_one() -> None:
    assert optics(*line("OM4", "OM3", length_m=140.0)) == ("yes", "length")
    assert optics(*line("OM4", "OM3", length_m=151.0)) == ("no", "length")
    assert optics(*line("OS2", "OS1")) == ("no", "grade")


@pytest.mark.parametrize(("one", "other"), [("OM3", "OS2"), ("OS2", "OM1"), ("OM1", "OM2"), ("OM5", "OM1")])
def test_grades_of_unequal_cores_carry_nothing(one: Category, other: Category) -> None:
    """62.5, 50 and 9 µm: cablinginstall.com, Three reasons not to mix 50- and 62.5-micron multimode fibers (2010)."""
    assert optics(*line(one, other, length_m=1.0)) == ("no", "cores")
    assert optics(*line(other, one, length_m=1.0)) == ("no", "cores")


def test_the_two_halves_of_a_bidirectional_pair_meet_and_two_equal_halves_do_not() -> None:
    down, up = "10GBASE-BR10-D", "10GBASE-BR10-U"
    assert optics(*line("OS2", fibres=1), near=down, far=up) == ("yes", "length")
    assert optics(*line("OS2", fibres=1), near=up, far=down) == ("yes", "length")
    assert optics(*line("OS2", fibres=1), near=down, far=down) == ("no", "optics")
    assert optics(*line("OS2", fibres=1), near=down, far="25GBASE-BR10-U") == ("no", "optics")
    assert optics(*line("OM3", fibres=1), near=down, far=up) == ("no", "grade")


@pytest.mark.parametrize(
    ("fibres", "answer"), [((1, 2), "no"), ((2, 1), "no"), ((2, 2), "yes"), ((None, 1), "no"), ((None, None), "yes")]
)
def test_a_module_gets_no_light_through_fewer_fibres_than_it_needs(
    fibres: tuple[int | None, int | None], answer: Answer
) -> None:
    near, far = fibres
    parts = [cable("F1", "a/1", "p1/1", "OM3", fibres=near), cable("F2", "p1/1", "b/1", "OM3", fibres=far)]
    assert optics(*parts)[0] == answer
    if answer == "no":
        assert optics(*parts)[1] == "fibres"


def test_a_grade_that_is_unknown_leaves_it_open_unless_the_known_one_refuses() -> None:
    assert optics(*line("OM3", "unknown"))[0] == "undecided"
    assert optics(*line("OM3", "unknown", length_m=151.0)) == ("no", "length")


def test_fibre_of_unknown_length_is_open_unless_the_known_part_is_too_long() -> None:
    assert optics(*line("OM3", length_m=None)) == ("undecided", "length")
    parts = [cable("F1", "a/1", "p1/1", "OM3", 301.0), cable("F2", "p1/1", "b/1", "OM3", None)]
    assert optics(*parts) == ("no", "length")


def test_joints_splices_and_a_measured_loss_count() -> None:
    """Two pairs of 0.75 dB and 300 m of 3.5 dB/km come to 2.55 dB of 2.6 dB; a splice of 0.3 dB breaks that."""
    assert optics(*line("OM3", "OM3", "OM3", length_m=100.0)) == ("yes", "length")
    assert optics(*line("OM3", "OM3", "OM3", length_m=100.0, splices=1))[0] == "undecided"
    assert optics(*line("OM3", "OM3", "OM3", length_m=100.0, splices=1, loss_db=0.5)) == ("yes", "length")
    assert optics(*line("OM3", loss_db=2.7)) == ("no", "loss")


def test_the_reach_of_fibre_is_the_limit_that_its_promise_names() -> None:
    ends = {"near": cage(10, module="10GBASE-SR"), "far": cage(10, module="10GBASE-SR")}
    assert carrier(*line("OM3"), **ends).reach_m(TEN) == 300.0
    assert carrier(*line("OM3", loss_db=2.7), **ends).reach_m(TEN) is None


# Twinax: SFF-8431 appendix E, 7 m of passive cable at 10 Gb/s


@pytest.mark.parametrize(
    ("kind", "length_m", "answer"),
    [
        ("twinax", 7.0, "yes"),
        ("twinax", 7.01, "no"),
        ("twinax", None, "undecided"),
        ("active-optical", 30.0, "yes"),
        ("active-optical", None, "yes"),
    ],
)
def test_twinax_reaches_seven_metres_and_an_optical_cable_what_its_maker_says(
    kind: Category, length_m: float | None, answer: Answer
) -> None:
    ends = {"near": cage(10), "far": cage(10)}
    assert carrier(*line(kind, length_m=length_m), **ends).promise(TEN).answer == answer


def test_a_piece_of_unknown_kind_keeps_twinax_from_a_promise_and_of_two_kinds_the_gravest_answer_counts() -> None:
    ends = {"near": cage(10), "far": cage(10)}
    assert carrier(*line("twinax", "unknown", length_m=1.0), **ends).promise(TEN).answer == "undecided"
    assert carrier(*line("twinax", "unknown", length_m=4.0), **ends).promise(TEN).answer == "no"
    assert carrier(*line("active-optical", "twinax", length_m=4.0), **ends).promise(TEN).answer == "no"
    assert carrier(*line("twinax"), near=cage(10, module="10GSFP+Cu"), far=cage(10)).reach_m(TEN) == 7.0


def test_the_reach_of_twisted_pair_is_that_of_its_category_and_none_while_that_is_open() -> None:
    assert carrier(*line("6")).reach_m(TEN) == 37.0
    assert carrier(*line("6", screened=True)).reach_m(TEN) == 55.0
    assert carrier(*line("6A", length_m=120.0)).reach_m(TEN) == 100.0
    assert carrier(*line("5e")).reach_m(TEN) is None
    assert carrier(*line("5e")).reach_m(5 * G) is None
    assert carrier(*line("unknown")).reach_m(TEN) is None
    assert carrier(*line("6", "unknown")).reach_m(TEN) is None


def test_a_seat_cabled_straight_to_its_storage_has_no_connection() -> None:
    run = only_link(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast")).copper
    assert run is not None
    assert (run.connections, run.cords) == (0, (Cord(10.0, None),))


def test_a_loss_measured_on_one_cable_of_a_run_counts_for_that_cable() -> None:
    joints = panel("board", 2)
    lit = {"wire": Port(connector="sfp+", rates=rates(10), module="10GBASE-SR")}
    lines = [
        cable("A", "cut-1/wire", "board/1", "OM3", 100, loss_db=10.0), cable("B", "board/1", "board/2", "OM3", 100),
        cable("C", "board/2", "vault/fast", "OM3", 50),
    ]  # fmt: skip
    link = only_link(seat("cut-1", lit), vault(ports={"fast": lit["wire"]}), joints, *lines)
    (run,) = link.carrier.fibres if link.carrier else ()

    assert (None, 10.0, 100.0) == (run.measured_db, run.parts_db, run.parts_m)
    assert 0 == link.promised.bit_per_s
