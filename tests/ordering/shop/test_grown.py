"""Where the length that is sold changes what a link is promised."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from rooms import plan_of, room

from netaudit.model.plan import Plan
from netaudit.network.topology import build_topology
from netaudit.ordering.shop.fitting import fitted
from netaudit.ordering.shop.grown import grown
from netaudit.ordering.shop.made_up import made_up
from netaudit.ordering.shop.shopping import shopping
from netaudit.ordering.shop.stock import Stock


def told(text: str, sold: Mapping[str, float]) -> tuple[str, ...]:
    """What is told of a plan whose cables are sold in these lengths [m]."""
    plan = plan_of(text)
    return grown(plan, build_topology(plan), sold)


def with_lengths(plan: Plan, lengths_m: Mapping[str, float | None]) -> Plan:
    """The same plan with other lengths of some cables [m]."""
    changed = {name: plan.cables[name]._replace(length_m=length_m) for name, length_m in lengths_m.items()}
    return replace(plan, cables={**plan.cables, **changed})


def test_a_cord_that_makes_a_channel_too_long_is_to_be_made_to_length() -> None:
    """Ethernet Alliance, June 2012: category 6 is good for 10 Gb/s up to 37 m; IEEE 802.3bz: for 5 Gb/s to 100 m."""
    text = room("30 m", wall="6", cord="6", cords="", cables="").replace("length: 3 m", "length: 6 m")

    assert (
        "C01 bought at 10 m instead of 6 m: its link cut-1/wire - core/1 is then promised 5 Gb/s (625 MB/s) instead of "
        "10 Gb/s (1250 MB/s); have it made to length.",
    ) == told(text, {"C01": 10.0, "P01": 1.0, "D01": 1.0})


def test_a_few_centimetres_decide_where_the_limit_is_that_near() -> None:
    """Category 6 to 37 m: 34 m, 2 m and 1 m are that; a cord of 7 ft is 2.1336 m (NIST SP 811)."""
    text = room("34 m", wall="6", cord="6").replace("length: 3 m", "length: 2 m")

    (sentence,) = told(text, {"C01": 7 * 0.3048})

    assert sentence.startswith("C01 bought at 7 ft (2.13 m) instead of 2 m: its link ")


def test_several_cables_of_one_link_are_told_together() -> None:
    text = room("30 m", wall="6", cord="6")

    (sentence,) = told(text, {"C01": 5.0, "P01": 3.0})

    assert sentence.startswith("C01 bought at 5 m instead of 3 m and P01 bought at 3 m instead of 1 m: their link ")
    assert sentence.endswith("; have them made to length.")


def test_a_made_up_cable_past_its_standard_is_promised_nothing() -> None:
    """SFF-8431: passive direct attach of 10 Gb/s to 7 m."""
    assert (
        "D01 bought at 8 m instead of 1 m: its link core/9 - vault/fast is then promised no rate instead of "
        "10 Gb/s (1250 MB/s); have it made to length.",
    ) == told(room(), {"D01": 8.0})


def test_cables_that_grow_without_harm_and_those_that_do_not_grow_are_not_mentioned() -> None:
    assert () == told(room(), {"C01": 5.0, "P01": 1.0, "D01": 7.0})
    assert () == told(room(), {"C01": 3.0 + 1e-12})
    assert () == told(room(), {})


def test_a_cable_that_nobody_measured_is_not_said_to_grow() -> None:
    text = room().replace("category: twinax, length: 1 m", "category: twinax")

    assert () == told(text, {"D01": 8.0})


def test_while_the_wall_is_not_measured_the_bounds_of_the_promise_are_told() -> None:
    """Category 6 to 55 m may work (ISO/IEC TR 24750); cords of 60 m alone leave no more than 5 Gb/s."""
    text = room(None, wall="6", cord="6")

    (sentence,) = told(text, {"C01": 60.0})

    assert "is then promised at most 5 Gb/s (625 MB/s) instead of at most 10 Gb/s (1250 MB/s)" in sentence


def test_a_link_by_radio_has_no_cable_that_could_grow() -> None:
    seat = room(port="}\n      air: {connector: radio, rates: 1200M, network: media")
    text = seat.replace(
        "devices:\n", "devices:\n  mast: {role: access-point, ports: {air: {connector: radio, rates: 1200M}}}\n"
    )
    plan = plan_of(text)
    topology = build_topology(plan)

    assert any(link.by_radio for link in topology.links)
    assert () == grown(plan, topology, {"C01": 5.0})


@settings(max_examples=80, deadline=None)
@given(
    wall=st.sampled_from(("5e", "6", "6A")),
    cord_dm=st.integers(1, 250),
    wall_dm=st.one_of(st.none(), st.integers(200, 1000)),
    patch_dm=st.integers(1, 120),
    twinax_dm=st.integers(1, 90),
)
def test_a_sentence_is_told_exactly_where_the_room_as_bought_is_promised_something_else(
    wall: str, cord_dm: int, wall_dm: int | None, patch_dm: int, twinax_dm: int
) -> None:
    drawn = plan_of(room("1 m", wall=wall, cord=wall))
    lengths_dm = {"C01": cord_dm, "W01": wall_dm, "P01": patch_dm, "D01": twinax_dm}
    plan = with_lengths(drawn, {name: None if one is None else one / 10 for name, one in lengths_dm.items()})
    rows = made_up(fitted(plan, build_topology(plan), {}), shopping(plan).made_up, Stock((), (), "imperial"), 0.1)
    sold = {name: row.goods.length_m for row in rows if row.goods.length_m is not None for name in row.serves}
    before, after = build_topology(plan), build_topology(with_lengths(plan, sold))
    changed = [one for one, other in zip(before.links, after.links, strict=True) if one.promised != other.promised]

    sentences = grown(plan, before, sold)

    assert len(changed) == len(sentences)
    assert all(str(link.place) in sentence for link, sentence in zip(changed, sentences, strict=True))
