"""Which of two modules stays at the ends of one fibre."""

from __future__ import annotations

import pytest
from lightrooms import fibre, run
from rooms import plan_of

from netaudit.model.place import PortRef
from netaudit.network.topology import build_topology
from netaudit.rules.optics import Choice, alike, chosen
from netaudit.standards.optics import optics

NEAR, FAR = PortRef("core", "9"), PortRef("vault", "fast")


def choice(text: str) -> Choice | None:
    """What is chosen on the one link of a plan."""
    plan = plan_of(text)
    (link,) = build_topology(plan).links
    return chosen(link, plan)


@pytest.mark.parametrize("phy", optics())
def test_modules_that_belong_together_leave_no_choice(phy: str) -> None:
    assert None is choice(run(fibre("OS2", "5 m"), near=phy, far=optics()[phy].opposite))


@pytest.mark.parametrize(
    "text",
    [
        run(fibre("OM3"), far=None),
        run(fibre("OM3"), near=None),
        run("category: twinax, length: 2 m", near="10GSFP+Cu", far="25GBASE-CR"),
        run("category: 6A, length: 2 m", near="10GBASE-T", far="1000BASE-T"),
    ],
)
def test_a_module_that_is_not_named_or_not_for_fibre_leaves_none(text: str) -> None:
    assert None is choice(text)


def test_the_faster_one_stays_then_the_one_that_reaches_farther_over_the_fibre_then_the_near_one() -> None:
    """IEEE 802.3 clauses 38, 52 and 68: over OM3 1000BASE-SX 550 m, 10GBASE-SR 300 m, 10GBASE-LRM 220 m."""
    rates = "[10G, 1G]"
    fast = choice(run(fibre("OM3"), near="1000BASE-SX", far="10GBASE-LRM", rates=rates))
    far = choice(run(fibre("OM3"), near="10GBASE-LRM", far="10GBASE-SR", rates=rates))
    equal = choice(run(fibre("OS2"), near="10GBASE-BR10-D", far="10GBASE-BR10-D", rates=rates))

    assert fast
    assert (("10GBASE-LRM", FAR), True, 220) == (fast.kept, fast.runs, fast.reach_m)
    assert far
    assert (("10GBASE-SR", FAR), ("10GBASE-LRM", NEAR), 300) == (far.kept, far.wrong, far.reach_m)
    assert equal
    assert (("10GBASE-BR10-D", NEAR), "10GBASE-BR10-U") == (equal.kept, equal.needed)


@pytest.mark.parametrize(("rates", "stays"), [("[10G, 1G]", "10GBASE-SR"), ("[1G]", "1000BASE-SX")])
def test_rates_that_the_cages_state_count_before_all(rates: str, stays: str) -> None:
    found = choice(run(fibre("OM3"), near="10GBASE-SR", far="1000BASE-SX", rates=rates))

    assert found
    assert (stays, True) == (found.kept.phy, found.runs)


def test_a_cage_that_is_not_described_takes_and_runs_any_module() -> None:
    text = run(fibre("OM3"), near="10GBASE-SR", far="1000BASE-SX").replace("connector: qsfp28, rates: [10G], ", "")
    found = choice(text.replace("connector: qsfp28, rates: [1G], ", ""))

    assert found
    assert ("10GBASE-SR", True) == (found.kept.phy, found.runs)


def test_the_step_is_one_module_or_other_cages_or_two_modules_for_the_fibre() -> None:
    one = choice(run(fibre("OM3"), near="10GBASE-LR", far="10GBASE-SR"))
    none = choice(run(fibre("OM3"), near="10GBASE-SR", far="1000BASE-SX"))
    unfit = choice(run(fibre("OM3"), near="10GBASE-LR", far="10GBASE-ER"))
    unread = choice(run(fibre("unknown"), near="10GBASE-LR", far="10GBASE-ER"))

    assert one
    assert "Put 10GBASE-SR into core/9, to go with 10GBASE-SR in vault/fast." == alike(one)
    assert none
    assert alike(none).startswith("Use cages at vault/fast and core/9 that run one rate, ")
    assert unfit
    assert "Put two modules of one kind that is made for OM3 into vault/fast and core/9." == alike(unfit)
    assert unread
    assert "Put 10GBASE-LR into vault/fast, to go with 10GBASE-LR in core/9." == alike(unread)
