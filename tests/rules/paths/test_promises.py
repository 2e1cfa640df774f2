"""What the rules of paths say of a link's promise."""

from __future__ import annotations

import pytest
from rooms import TREE, plan_of, triangle, two_switches
from wiring import G, aerial, cable, cage, device, jack, only_link, seat, vault, wired

from netaudit.citation import PLAN
from netaudit.rules.facts import build_facts
from netaudit.rules.paths.promises import lacking, promise_sources, source_of, widened
from netaudit.standards.reading import sources


def test_a_promise_may_rest_on_every_source_of_cabling_and_on_the_plan() -> None:
    found = promise_sources()

    assert PLAN == found[0]
    assert len(found) == len(set(found))
    keys = ("tsb-155", "channel-100-m", "iso-cord-factor", "tia-cord-28", "tia-temperature-unscreened", "tia-conductors",
            "tia-temperature-screened", "fibre-om3-om4", "pair-worst", "splice-typical", "sff-8431", "ieee-10gbase-r", "loss-100base-fx-50")  # fmt: skip
    assert {sources()[key] for key in keys} <= set(found)


@pytest.mark.parametrize(
    ("category", "length_m", "document"), [("6A", 30, "the plan itself"), ("6", 60, "TIA TSB-155-A")]
)
def test_what_holds_a_link_back_is_its_source_and_otherwise_the_plan(
    category: str, length_m: float, document: str
) -> None:
    link = only_link(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast", category, length_m))  # type: ignore[arg-type]

    assert source_of(link).document.startswith(document)


def test_a_link_is_widened_by_ports_by_cables_or_by_ports_with_a_rate_in_common() -> None:
    def step(near: object, far: object, category: str = "6A") -> str:
        cut, box = seat("cut-1", {"wire": near}), vault("vault", {"fast": far})  # type: ignore[dict-item]
        facts = build_facts(wired(cut, box, cable("C1", "cut-1/wire", "vault/fast", category)))  # type: ignore[arg-type]
        return widened(facts.topology.links[0], 10 * G, 10 * G, facts)

    assert step(jack(1), jack()).startswith(
        "cut-1/wire runs at most 1 Gb/s (125 MB/s): use a port or a module that runs"
    )
    assert step(jack(), jack(), "5e").startswith("Replace C1 by category 6A")
    common = (
        "cut-1/wire and vault/fast agree on 1 Gb/s (125 MB/s) only: use ports that have 10 Gb/s (1250 MB/s) in common."
    )
    assert common == step(jack(10, 1), jack(25, 1))
    assert "1 Gb/s" in step(cage(1), cage(1), "twinax")


def test_a_radio_and_a_link_of_unknown_rates_are_held_back_by_nothing_published() -> None:
    base = device("beacon", "access-point", {"air": aerial(1)})
    bare = jack()._replace(rates=None)
    cord = cable("C1", "cut-1/wire", "vault/fast", "5e")

    assert PLAN == source_of(only_link(seat("cut-1", {"air": aerial(1)}), base))
    assert PLAN == source_of(only_link(seat("cut-1", {"wire": bare}), vault("vault", {"fast": bare}), cord))


def test_where_one_end_is_unknown_the_cable_is_measured_by_what_the_other_has() -> None:
    """TIA TSB-155-A: 10GBASE-T reaches 37 m over unscreened category 6, in most surroundings."""
    bare = seat("cut-1", {"wire": jack()._replace(rates=None)})
    facts = build_facts(wired(bare, vault(), cable("C1", "cut-1/wire", "vault/fast", "6", 60)))
    (link,) = facts.topology.links

    assert source_of(link).document.startswith("TIA TSB-155-A")
    assert widened(link, 10 * G, 10 * G, facts).startswith("Replace C1 by category 6A, good to 100 m")


def test_a_link_lacks_its_own_fact_and_on_an_open_ring_that_of_the_tree() -> None:
    def reason(text: str) -> str:
        facts = build_facts(plan_of(text))
        return lacking(next(link for link in facts.topology.links if link.cables == ("U01",)), facts).reason

    ring = triangle()
    assert "ring of attic, core and old" in reason(ring)
    unread = ring.replace("to: core/2, category: 6A", "to: core/2")
    assert unread != ring
    assert "The category of U01 is not known" == reason(unread)
    assert "No published limit tells" in reason(two_switches(attic=TREE, core=TREE))
