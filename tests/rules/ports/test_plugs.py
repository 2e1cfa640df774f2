"""The rule on plugs: every kind of cable before every kind of port."""

from __future__ import annotations

from typing import get_args

import pytest
from rooms import found, gaps, places, report_of, room
from wiring import UP_TO_10G, cable, cage, jack, panel, switch, topology_of, wired

from netaudit.audit import audit
from netaudit.model.finding import Finding
from netaudit.model.plan import Category, Connector, Device, Plan, Port
from netaudit.model.report import Report
from netaudit.standards.optics import optics


def judged(*things: object) -> Report:
    return audit(wired(*things))  # type: ignore[arg-type]


def mismatches(*things: object) -> list[Finding]:
    return found(judged(*things), "connector-mismatch")


def between(near: Port, category: Category, far: Port) -> list[str]:
    """The ports at which a cable between two switches does not fit."""
    ends = [switch("a", {"1": near}), switch("b", {"1": far})]
    return [places(finding)[1] for finding in mismatches(*ends, cable("C1", "a/1", "b/1", category, 1.0))]


# What fits, typed from the connectors: IEC 60603-7 is the plug of twisted pair, IEC 61754 those of fibre, SFF-8431 and
# SFF-8665 the cages, USB Type-C R2.0 the plug that USB and Thunderbolt share; USB-A takes USB alone.
FIT = {
    "rj45": {"6A", "5e"},
    "sfp+": {"twinax", "active-twinax", "active-optical", "OM4", "OS2"},
    "qsfp28": {"twinax", "active-twinax", "active-optical", "OM4", "OS2"},
    "lc": {"OM4", "OS2"},
    "sc": {"OM4", "OS2"},
    "mpo": {"OM4", "OS2"},
    "usb-a": {"usb"},
    "usb-c": {"usb", "thunderbolt"},
    "thunderbolt": {"usb", "thunderbolt"},
    "radio": set(),
}
TRIED: tuple[Category, ...] = (
    "6A", "5e", "OM4", "OS2", "twinax", "active-twinax", "active-optical", "thunderbolt", "usb",
)  # fmt: skip


@pytest.mark.parametrize("category", TRIED)
@pytest.mark.parametrize("connector", FIT)
def test_each_end_is_judged_by_its_own_port(connector: Connector, category: Category) -> None:
    wrong = [] if category in FIT[connector] else ["port a/1"]

    assert wrong == between(Port(connector=connector), category, Port())
    assert [place.replace("a", "b") for place in wrong] == between(Port(), category, Port(connector=connector))[-1:]


@pytest.mark.parametrize(
    ("module", "fits"),
    [("10GBASE-T", {"6A"}), ("10GBASE-SR", {"OM4"}), ("10GSFP+Cu", {"twinax"}), ("25GBASE-SR", {"OM4"})],
)
@pytest.mark.parametrize("category", ["6A", "OM4", "twinax"])
def test_a_module_says_what_its_cage_takes(module: str, fits: set[str], category: Category) -> None:
    assert ([] if category in fits else ["port a/1"]) == between(cage(10, module=module), category, Port())


def test_a_cord_before_an_empty_cage_is_told_with_the_free_port_and_the_module() -> None:
    text = room(devices="  cut-2: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, network: media}}}").replace(
        "cables:\n", "cables:\n  C02: {from: cut-2/wire, to: core/10, category: 6A, length: 3 m}\n"
    )  # fmt: skip

    (finding,) = found(report_of(text), "connector-mismatch")

    assert ["cable C02", "port core/10"] == places(finding)
    assert ("fail", "plan") == (finding.severity, finding.source.standing)
    assert (
        "C02 is twisted pair (6A) and does not go into core/10, an empty sfp+ cage that takes a module or a made-up cable"
        == finding.message
    )
    assert (
        "Plug C02 into core/2, which is free and takes it, or put a 10GBASE-T module into core/10 and write "
        "`module: 10GBASE-T`." == finding.remedy
    )


def test_without_a_free_port_the_module_is_the_one_of_the_rate_in_common() -> None:
    slow = [switch("a", {"1": jack(1)}), switch("b", {"1": cage(10, 1)}), cable("C1", "a/1", "b/1")]
    both = [switch("a", {"1": cage(10, 1)}), switch("b", {"1": cage(10, 1)}), cable("C1", "a/1", "b/1")]

    assert ["Put a 1000BASE-T module into b/1 and write `module: 1000BASE-T`."] == [
        finding.remedy for finding in mismatches(*slow)
    ]
    assert [
        f"Put a 10GBASE-T module into {port} and write `module: 10GBASE-T`, or use fibre or a made-up cable instead of C1."
        for port in ("a/1", "b/1")
    ] == [finding.remedy for finding in mismatches(*both)]


def test_a_cage_that_no_copper_module_is_made_for_asks_for_another_port() -> None:
    ends = [switch("a", {"1": jack()}), switch("b", {"1": Port(connector="qsfp+")}), cable("C1", "a/1", "b/1")]

    (finding,) = mismatches(*ends)

    assert "Use a port or a module at b/1 that takes twisted pair." == finding.remedy


def test_an_empty_cage_of_unknown_rates_gets_the_fastest_copper_module() -> None:
    ends = [switch("a", {"1": Port()}), switch("b", {"1": Port(connector="sfp+")}), cable("C1", "a/1", "b/1")]

    (finding,) = mismatches(*ends)

    assert "Put a 10GBASE-T module into b/1 and write `module: 10GBASE-T`." == finding.remedy


@pytest.mark.parametrize(
    ("near", "category", "message", "remedy"),
    [
        (
            jack(),
            "twinax",
            "C1 is a made-up cable (twinax) and does not go into a/1, which is rj45 and takes twisted pair",
            "Use twisted pair instead of C1.",
        ),
        (
            cage(10, module="10GBASE-SR"),
            "6A",
            "C1 is twisted pair (6A) and does not go into a/1, whose 10GBASE-SR module takes fibre",
            "Use a port or a module at a/1 that takes twisted pair.",
        ),
        (
            Port(rates=UP_TO_10G),
            "OM3",
            "C1 is fibre (OM3) and does not go into a/1, whose rates `up to 10 Gb/s` are those of rj45",
            "Use twisted pair instead of C1.",
        ),
        (
            Port(connector="radio"),
            "6A",
            "C1 is twisted pair (6A) and does not go into a/1, which is radio and takes no cable",
            "Use a port or a module at a/1 that takes twisted pair.",
        ),
        (
            Port(connector="usb-a"),
            "thunderbolt",
            "C1 is a Thunderbolt cable and does not go into a/1, which is usb-a and takes a USB cable",
            "Use a port or a module at a/1 that takes a Thunderbolt cable.",
        ),
        (
            Port(connector="usb-c"),
            "6A",
            "C1 is twisted pair (6A) and does not go into a/1, which is usb-c and takes a Thunderbolt cable or a USB cable",
            "Use a port or a module at a/1 that takes twisted pair.",
        ),
    ],
)
def test_the_message_says_what_the_port_takes_and_the_remedy_what_both_ports_take(
    near: Port, category: Category, message: str, remedy: str
) -> None:
    finding, *_ = mismatches(switch("a", {"1": near}), switch("b", {"1": jack()}), cable("C1", "a/1", "b/1", category))

    assert (message, remedy) == (finding.message, finding.remedy)


def test_what_may_be_at_an_unknown_far_end_is_no_remedy() -> None:
    (finding,) = mismatches(switch("a", {"1": jack()}), switch("b", {"1": Port()}), cable("C1", "a/1", "b/1", "OM3"))

    assert "Use a port or a module at a/1 that takes fibre." == finding.remedy


def test_a_free_cage_is_offered_to_a_made_up_cable_but_not_to_bare_fibre() -> None:
    def remedy(category: Category) -> str:
        ports = {"1": jack(10), "2": Port(rates=cage(10).rates), "3": cage(10), "4": cage(10, module="10GBASE-SR")}
        ends = [switch("a", ports), switch("b", {"1": cage(10)}), cable("C1", "a/1", "b/1", category)]
        return mismatches(*ends)[0].remedy

    assert "Plug C1 into a/3, which is free and takes it." == remedy("twinax")
    assert "Use a port or a module at a/1 that takes fibre." == remedy("OM3")


# A cable whose category is unknown


@pytest.mark.parametrize(
    ("near", "far", "fits"),
    [
        (jack(), jack(), True),
        (jack(), Port(), True),
        (cage(10), cage(10), True),
        (cage(10), cage(10, module="10GBASE-SR"), True),
        (Port(connector="lc"), cage(10), True),
        (Port(connector="usb-c"), Port(connector="usb-a"), True),
        (jack(), cage(10, module="10GBASE-T"), True),
        (jack(), cage(10), False),
        (jack(), cage(10, module="10GBASE-SR"), False),
        (Port(connector="lc"), jack(), False),
        (Port(connector="usb-a"), cage(10), False),
        (Port(connector="radio"), Port(), False),
    ],
)
def test_a_cable_of_unknown_category_is_a_mismatch_if_no_plug_goes_into_both_its_ports(
    near: Port,
    far: Port,
    fits: bool,
) -> None:
    for one, other in ((near, far), (far, near)):
        assert ([] if fits else ["port b/1"]) == between(one, "unknown", other)


@pytest.mark.parametrize("cage_at", ["a/1", "b/1"])
def test_the_remedy_for_an_unread_cable_is_a_module_where_the_other_port_takes_twisted_pair(cage_at: str) -> None:
    ports = {"a/1": jack(), "b/1": jack(), cage_at: cage(10, 1)}
    ends = [switch("a", {"1": ports["a/1"]}), switch("b", {"1": ports["b/1"]})]

    (finding,) = mismatches(*ends, cable("C1", "a/1", "b/1", "unknown"))

    assert f"Put a 10GBASE-T module into {cage_at} and write `module: 10GBASE-T`." == finding.remedy
    assert "No cable goes into both a/1, " in finding.message
    assert ", and b/1, " in finding.message


def test_where_no_module_helps_an_unread_cable_both_ports_are_named() -> None:
    ends = [switch("a", {"1": Port(connector="lc")}), switch("b", {"1": jack()})]

    (finding,) = mismatches(*ends, cable("C1", "a/1", "b/1", "unknown"))

    assert "Use ports or modules at a/1 and b/1 that take the same cable." == finding.remedy


def test_an_unread_breakout_is_judged_at_each_of_its_far_ends() -> None:
    ends = [switch("a", {"1": cage(40)}), switch("b", {"1": jack(), "2": cage(10)})]

    (finding,) = mismatches(*ends, cable("B1", "a/1", ["b/1", "b/2"], "unknown"))

    assert ["cable B1", "port b/1"] == places(finding)


# Ports whose connector is not given


def test_a_port_of_unknown_connector_leaves_it_open_where_the_cable_is_known() -> None:
    report = judged(switch("a", {"1": Port()}), switch("b", {"1": jack()}), cable("C1", "a/1", "b/1"))

    (gap,) = gaps(report, "connector-mismatch")

    assert ["port a/1", "cable C1"] == places(gap)
    assert "Which connector a/1 has is not given" == gap.reason
    assert "write down `connector` of a/1, such as rj45 or sfp+" == gap.decides


@pytest.mark.parametrize("near", [Port(rates=UP_TO_10G), Port(module="10GBASE-T"), jack()])
def test_rates_up_to_one_of_twisted_pair_or_a_module_stand_for_the_connector(near: Port) -> None:
    report = judged(switch("a", {"1": near}), switch("b", {"1": jack()}), cable("C1", "a/1", "b/1"))

    assert [] == gaps(report, "connector-mismatch") == found(report, "connector-mismatch")


def test_an_unread_cable_before_an_unknown_port_is_left_to_those_who_ask_for_its_category() -> None:
    report = judged(switch("a", {"1": Port()}), switch("b", {"1": Port()}), cable("C1", "a/1", "b/1", "unknown"))

    assert [] == gaps(report, "connector-mismatch") == found(report, "connector-mismatch")


# Passive ports


def bare(name: str) -> Device:
    return Device(name=name, role="panel", ports={"1": Port()})


def test_a_passive_port_without_a_connector_matches_its_cables_as_long_as_they_are_alike() -> None:
    ends = [switch("a", {"1": jack()}), switch("b", {"1": jack()}), bare("p")]
    alike = judged(*ends, cable("C1", "a/1", "p/1", "6A"), cable("W1", "p/1", "b/1", "5e"))
    unread = judged(*ends, cable("C1", "a/1", "p/1", "unknown"), cable("W1", "p/1", "b/1", "5e"))
    lone = judged(*ends, cable("C1", "a/1", "p/1", "6A"))

    for report in (alike, unread, lone):
        assert [] == gaps(report, "connector-mismatch") == found(report, "connector-mismatch")


def test_a_passive_port_cannot_join_two_kinds_of_cable() -> None:
    ends = [switch("a", {"1": jack()}), switch("b", {"1": cage(10)}), bare("p")]

    (finding,) = mismatches(*ends, cable("C1", "a/1", "p/1", "6A"), cable("F1", "p/1", "b/1", "OM3"))

    assert ["cable F1", "port p/1"] == places(finding)
    assert "p/1 joins C1, which is twisted pair, and F1, which is fibre" == finding.message
    assert "Use twisted pair instead of F1, or put a switch with both kinds of port there." == finding.remedy


def test_fibre_does_not_go_into_a_panel_for_twisted_pair() -> None:
    ends = [switch("a", {"1": cage(10)}), switch("b", {"1": cage(10)}), panel("p")]

    first, second = mismatches(*ends, cable("F1", "a/1", "p/1", "OM3"), cable("F2", "p/1", "b/1", "OM3"))

    assert (["cable F1", "port p/1"], ["cable F2", "port p/1"]) == (places(first), places(second))


# Fibre plugs: IEC 61754-7 (mpo) holds many fibres, IEC 61754-20 (lc) and 61754-4 (sc) one each.
# 40GBASE-SR4 and 100GBASE-SR4 use eight fibres in an mpo, 10GBASE-SR two in lc: IEEE 802.3 clauses 86, 95 and 52.
PARALLEL = {"40GBASE-SR4", "100GBASE-SR4", "100GBASE-SR10", "PSM4"}


def facing(module: str, connector: Connector, *, turned: bool = False) -> list[str]:
    ends = [switch("a", {"1": cage(10, module=module)}), Device(name="p", role="panel", ports={"1": Port(connector=connector)})]  # fmt: skip
    line = cable("F1", "p/1", "a/1", "OM4") if turned else cable("F1", "a/1", "p/1", "OM4")
    return [str(place) for finding in mismatches(*ends, line) for place in finding.where]


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("module", sorted(optics()))
def test_a_module_meets_a_passive_port_with_its_own_kind_of_plug(module: str, turned: bool) -> None:
    wrong = ["cable F1", "port p/1"]

    assert (wrong if module in PARALLEL else []) == facing(module, "lc", turned=turned)
    assert (wrong if module in PARALLEL else []) == facing(module, "sc", turned=turned)
    assert ([] if module in PARALLEL else wrong) == facing(module, "mpo", turned=turned)


def fixed(name: str, connector: Connector, count: int = 1) -> Device:
    return Device(name=name, role="panel", ports={str(nth): Port(connector=connector) for nth in range(1, count + 1)})


def test_the_message_about_fibre_plugs_names_the_module_and_the_remedy_each_way_out() -> None:
    (many,) = mismatches(
        switch("a", {"1": Port(connector="qsfp+", module="40GBASE-SR4")}), fixed("p", "lc"), cable("F1", "a/1", "p/1", "OM4")
    )  # fmt: skip
    (few,) = mismatches(switch("a", {"1": cage(10, module="10GBASE-SR")}), fixed("p", "mpo"), cable("F1", "a/1", "p/1", "OM4"))  # fmt: skip

    assert "F1 joins the 40GBASE-SR4 module in a/1, whose plug is mpo, to p/1, which is lc" == many.message
    assert (
        "Use a port at p/1 that is mpo, a module at a/1 whose plug is lc, or a breakout between mpo and lc."
        == many.remedy
    )
    assert "F1 joins the 10GBASE-SR module in a/1, whose plug is lc, to p/1, which is mpo" == few.message
    assert (
        "Use a port at p/1 that is lc, a module at a/1 whose plug is mpo, or a breakout between lc and mpo."
        == few.remedy
    )


def test_two_ports_without_modules_are_told_once_at_the_far_end() -> None:
    (finding,) = mismatches(fixed("p", "lc"), fixed("q", "mpo"), cable("F1", "p/1", "q/1", "OM4"))

    assert ["cable F1", "port q/1"] == places(finding)
    assert "F1 joins p/1, whose plug is lc, to q/1, which is mpo" == finding.message
    assert [] == mismatches(fixed("p", "lc"), fixed("q", "sc"), cable("F1", "p/1", "q/1", "OM4"))
    assert [] == mismatches(fixed("p", "mpo"), fixed("q", "mpo"), cable("F1", "p/1", "q/1", "OM4"))


def test_a_breakout_is_made_to_join_them_and_two_modules_are_left_to_the_rule_on_optics() -> None:
    trunk = switch("a", {"1": Port(connector="qsfp+", module="40GBASE-SR4")})

    assert [] == mismatches(trunk, fixed("p", "lc", 2), cable("B1", "a/1", ["p/1", "p/2"], "OM4"))
    assert [] == mismatches(trunk, switch("b", {"1": cage(10, module="10GBASE-SR")}), cable("F1", "a/1", "b/1", "OM4"))
    assert [] == mismatches(trunk, switch("b", {"1": cage(10)}), cable("F1", "a/1", "b/1", "OM4"))


# Where everything fits, and that a mismatch is never promised a rate


def test_an_ordinary_room_has_no_mismatch_and_nothing_open() -> None:
    report = report_of(room())

    assert [] == gaps(report, "connector-mismatch") == found(report, "connector-mismatch")


@pytest.mark.parametrize("category", get_args(Category))
@pytest.mark.parametrize("connector", sorted({*get_args(Connector)} - {"mpo"}))
def test_over_a_mismatch_at_its_ends_a_link_is_promised_nothing(connector: Connector, category: Category) -> None:
    for far in (jack(), cage(10), cage(10, module="10GBASE-SR"), Port()):
        things = [switch("a", {"1": Port(connector=connector)}), switch("b", {"1": far})]
        line = cable("C1", "a/1", "b/1", category)
        (link,) = topology_of(*things, line).links
        assert link.carrier is not None
        assert bool(mismatches(*things, line)) == (link.carrier.medium == "mixed")


def test_a_plan_without_cables_asks_nothing() -> None:
    assert () == audit(Plan(file="room.yaml")).findings


def test_the_module_goes_by_the_rate_of_this_link_and_not_of_another_one() -> None:
    things = [switch("a", {"1": jack(10), "2": jack(1)}), switch("b", {"1": jack(10), "2": cage(10, 1)})]

    (finding,) = mismatches(*things, cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2"))

    assert "Put a 1000BASE-T module into b/2 and write `module: 1000BASE-T`." == finding.remedy
