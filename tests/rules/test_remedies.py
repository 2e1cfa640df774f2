"""The steps that rules advise."""

from __future__ import annotations

from itertools import pairwise

import pytest
from lightrooms import fibre, run
from rooms import plan_of, room
from wiring import G, aerial, cable, device, jack, only_link, panel, seat, vault, wired

from netaudit.model.place import PortRef
from netaudit.rules import remedies
from netaudit.rules.facts import Facts, build_facts


def facts_of(text: str) -> Facts:
    return build_facts(plan_of(text))


def run_of(facts: Facts):  # type: ignore[no-untyped-def]
    return facts.link_between[frozenset((PortRef("cut-1", "wire"), PortRef("core", "1")))]


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        (room(wall="5e"), "W01 is category 5e"),
        (room(wall="5e", cord="5e"), "C01, W01 and P01 are category 5e"),
        (room(joint=", category: 5e"), "plate/1 is category 5e"),
        (room(walls=", material: aluminium-clad"), "W01 is copper-clad aluminium, which no standard allows"),
        (room("40 m", wall="6"), "C01, W01 and P01 are 44 m of unscreened category 6, over which that rate is promised to 37 m"),
        (room("120 m"), "C01, W01 and P01 are 124 m of unscreened category 6A"),
        (room("85 m", top="regime: tia").replace("length: 3 m,", "length: 11 m,"), "C01, W01 and P01 are 97 m of unscreened category 6A, with its cords worth 103 m of solid cable, 102 m at the most"),
        (room("84 m", top="ambient: 40 °C"), "84 m of solid cable in air of 40 °C may be 82.8 m at the most"),
    ],
)  # fmt: skip
def test_what_holds_a_run_back_is_told_by_its_part(text: str, reason: str) -> None:
    facts = facts_of(text)

    assert reason == remedies.held_back_by(run_of(facts), facts.plan)


def test_what_a_run_is_promised_as_it_is_closes_a_remedy() -> None:
    assert "As it is, 2.5 Gb/s (312 MB/s) is promised." == remedies.as_it_is(run_of(facts_of(room(wall="5e"))))
    assert "As it is, no rate is promised." == remedies.as_it_is(run_of(facts_of(room("120 m"))))
    assert "What it is promised as it is stays open." == remedies.as_it_is(run_of(facts_of(room(None))))


def test_the_category_that_is_enough_is_told_with_the_one_that_reaches_farther() -> None:
    run = run_of(facts_of(room("20 m", wall="5e"))).copper

    assert "category 6A, good to 100 m (6 is enough up to 37 m)" == remedies.good_categories(run, 10_000_000_000)
    assert "category 5e, good to 100 m" == remedies.good_categories(run, 1_000_000_000)


@pytest.mark.parametrize(
    ("text", "step"),
    [
        # ISO/IEC 11801, 105 m (Adriaenssens, March 2004): (105 - 80) / 1.5; 568-B.1 6.4.1.4: 22 / 1.5 and 22 / 1.2
        (room("80 m").replace("length: 3 m", "length: 18 m"), "Shorten C01 and P01 to 16.6 m in all, or lay solid cable instead."),
        (room("80 m", top="regime: tia").replace("length: 3 m, cord: 26", "length: 18 m, cord: 28"), "Shorten C01 and P01 to 11.2 m in all, use cords of 24 AWG, good to 18.3 m in all, or lay solid cable instead."),
        (room("80 m", top="regime: tia").replace("length: 3 m", "length: 18 m"), "Shorten C01 and P01 to 14.6 m in all, use cords of 24 AWG, good to 18.3 m in all, or lay solid cable instead."),
    ],
)  # fmt: skip
def test_cords_that_lose_too_much_are_cured_by_what_is_left_for_them(text: str, step: str) -> None:
    facts = facts_of(text)

    assert step == remedies.better_cabling(run_of(facts), facts.plan)


@pytest.mark.parametrize(
    ("value", "rounded"), [(11.333, 11.3), (11.39, 11.3), (11.3, 11.3), (0.3 - 1e-9, 0.3), (12, 12)]
)
def test_a_number_is_rounded_down_to_a_tenth(value: float, rounded: float) -> None:
    assert rounded == remedies.rounded_down(value)


@pytest.mark.parametrize(
    ("text", "step"),
    [
        (room(wall="5e"), "Replace W01 by category 6A, good to 100 m."),
        (room(joint=", category: 5e"), "Replace plate/1 by category 6A, good to 100 m."),
        (room(walls=", material: aluminium-clad"), "Replace W01 by solid copper."),
        (room("84 m", top="ambient: 40 °C"), "Shorten the solid cable among C01, W01 and P01, or keep it cooler."),
        (room("120 m"), "Make C01, W01 and P01 shorter, or use a medium made for that distance."),
    ],
)  # fmt: skip
def test_a_run_is_cured_where_it_is_weak(text: str, step: str) -> None:
    facts = facts_of(text)

    assert step == remedies.better_cabling(run_of(facts), facts.plan)


def test_a_cable_of_unknown_category_between_ports_that_share_no_plug_is_told_by_the_ports() -> None:
    text = room(switch="up to 10G").replace("1-8: {connector: rj45", "1-8: {connector: lc").replace(
        "P01: {from: panel/1, to: core/1, category: 6A", "P01: {from: panel/1, to: core/1, category: unknown"
    ).replace("to: plate/1, category: 6A", "to: plate/1, category: unknown").replace(
        "to: panel/1, category: 6A", "to: panel/1, category: unknown"
    )  # fmt: skip
    facts = facts_of(text)

    assert "no plug fits both cut-1/wire and core/1" == remedies.held_back_by(run_of(facts), facts.plan)


LIGHT = {
    run(fibre(length="301 m")): (
        "F1 is 301 m of OM3, over which 10 Gb/s (1250 MB/s) reaches 300 m",
        "Shorten F1 to 300 m, or use a medium made for 301 m.",
    ),
    run(fibre(), fibre(), far="10GBASE-LR"): (
        "the modules at core/9 and vault/fast, 10GBASE-SR and 10GBASE-LR, differ",
        "Put 10GBASE-SR into vault/fast, to go with 10GBASE-SR in core/9.",
    ),
    run(fibre("OM1"), fibre("OM3")): (
        "F1 and F2 are OM1 and OM3, whose cores are not equally wide",
        "Use one kind of fibre from core/9 to vault/fast.",
    ),
    run(fibre("OM3", more=", fibres: 2"), near="40GBASE-SR4"): (
        "F1 is short of the 8 fibres that 40GBASE-SR4 needs",
        "Use 8 fibres of F1, or modules that need fewer.",
    ),
    run(fibre("OS2")): (
        "F1 is OS2, which 10GBASE-SR is not specified for",
        "Use ports or modules at core/9 and vault/fast that are made for it, or a cable made for them.",
    ),
    run(fibre("6A"), near=None): (
        "F1 is category 6A, which does not fit core/9 and vault/fast",
        "Use ports or modules at core/9 and vault/fast that are made for it, or a cable made for them.",
    ),
    run(fibre(more=", loss: 9 dB")): (
        "F1 is worth more loss than the 2.6 dB that the modules bridge",
        "Make F1 shorter or with fewer joints, or use a medium made for that distance.",
    ),
    run(fibre("twinax", "7.5 m"), near=None): (
        "F1 is 7.5 m of twinax, over which 10 Gb/s (1250 MB/s) reaches 7 m",
        "Shorten F1 to 7 m, or use a medium made for 7.5 m.",
    ),
}


@pytest.mark.parametrize("text", LIGHT)
def test_what_holds_glass_and_made_up_cables_back_is_told_with_its_step(text: str) -> None:
    """IEEE 802.3 clauses 52 and 86 (300 m, 2.6 dB, eight fibres), SFF-8431 appendix E (7 m)."""
    facts = facts_of(text)
    (link,) = facts.topology.links

    assert LIGHT[text] == (remedies.held_back_by(link, facts.plan), remedies.better_cabling(link, facts.plan))


def test_more_than_four_connections_are_taken_out() -> None:
    """ISO/IEC 11801 and TIA-568: at most four connections in a channel."""
    plates = [panel(f"plate-{n}") for n in range(5)]
    stops = ["cut-1/wire", *(f"plate-{n}/1" for n in range(5)), "vault/fast"]
    plan = wired(seat("cut-1"), vault(), *plates, *(cable(f"C{n}", *pair) for n, pair in enumerate(pairwise(stops))))
    (link,) = build_facts(plan).topology.links

    assert remedies.held_back_by(link, plan).endswith("are joined at 5 places, 4 at the most")
    assert "Take out passive ports until 4 are left." == remedies.better_cabling(link, plan)


def test_a_radio_and_ends_of_unknown_rate_are_promised_nothing() -> None:
    bare = jack()._replace(rates=None)
    air = only_link(seat("cut-1", {"air": aerial(1)}), device("beacon", "access-point", {"air": aerial(1)}))
    mute = only_link(
        seat("cut-1", {"wire": bare}), vault("vault", {"fast": bare}), cable("C1", "cut-1/wire", "vault/fast")
    )

    assert "link cut-1/air - beacon/air is promised no rate" == remedies.held_back_by(air, wired())
    assert "link cut-1/wire - vault/fast is promised no rate" == remedies.held_back_by(mute, wired())
    assert "Use a cable." == remedies.better_cabling(air, wired()) == remedies.better_cabling(mute, wired())


def test_no_category_carries_a_rate_farther_than_its_table() -> None:
    def good(length_m: float, rate: float) -> str:
        link = only_link(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast", "5e", length_m))
        assert link.copper is not None
        return remedies.good_categories(link.copper, round(rate * G))

    assert "nothing: no category carries that rate so far" == good(101, 10)
    assert "category 8.1, good to 30 m" == good(20, 25)


def test_cords_of_unknown_length_may_be_as_long_as_solid_cable() -> None:
    """ISO/IEC 11801-1 allows 105 m less one and a half times the cords; of 22 AWG none is known to lose more."""
    plan = plan_of(room("98 m").replace("length: 3 m, cord: 26 AWG", "cord: 26 AWG").replace("length: 1 m, cord: 26 AWG", "cord: 26 AWG"))  # fmt: skip
    (link,) = [link for link in build_facts(plan).topology.links if "W01" in link.cables]
    assert link.channel is not None
    assert link.copper is not None

    step = remedies.shorter_cords(link.channel, link.copper, 10 * G, plan)

    assert "Shorten C01 and P01 to 7 m in all, or lay solid cable instead." == step
