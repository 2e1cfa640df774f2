"""The rule on rings."""

from __future__ import annotations

from rooms import TREE, found, places, report_of, room, triangle, two_switches


def test_two_cables_between_two_switches_without_a_tree_are_a_ring() -> None:
    (finding,) = found(report_of(two_switches()), "loop-unprotected")

    assert ["device attic", "device core"] == places(finding)[:2]
    assert {"cable U01", "cable U02"} < set(places(finding))
    assert "in media, and attic and core do not run a spanning tree" in finding.message


def test_one_switch_without_a_tree_leaves_the_ring_open_and_is_named_first() -> None:
    (finding,) = found(report_of(two_switches(attic=TREE)), "loop-unprotected")

    assert ["device core", "device attic"] == places(finding)[:2]


def test_a_ring_on_which_every_switch_runs_a_tree_is_protected() -> None:
    assert [] == found(report_of(two_switches(attic=TREE, core=TREE)), "loop-unprotected")


def test_a_cord_from_a_switch_through_outlets_back_into_itself_is_a_ring() -> None:
    text = room(cables="  X01: {from: core/5, to: plate/4, category: 6A, length: 3 m}\n"
                       "  X02: {from: plate/4, to: core/6, category: 6A, length: 3 m}")  # fmt: skip

    (finding,) = found(report_of(text), "loop-unprotected")

    assert "A cord leads from core back into itself" in finding.message


def test_a_cable_for_each_of_two_networks_is_no_ring() -> None:
    text = two_switches(keys=", network: media", second="5").replace(
        "  media: {purpose: storage}", "  media: {purpose: storage}\n  office: {}"
    ).replace("5-8: {connector: rj45, rates: up to 1G, network: media}", "5-8: {connector: rj45, rates: up to 1G, network: office}")  # fmt: skip

    assert [] == found(report_of(text), "loop-unprotected")


def test_rings_that_hang_together_are_told_once_by_the_shortest() -> None:
    cables = "\n".join(
        f"  X{n}: {{from: core/{2 * n + 1}, to: core/{2 * n + 2}, category: 6A, length: 1 m}}" for n in (1, 2)
    )
    apart = report_of(room(cables=cables))
    text = two_switches().replace(
        "cables:\n", "cables:\n  U03: {from: attic/4, to: core/4, category: 6A, length: 20 m}\n"
    )

    (finding,) = found(report_of(text), "loop-unprotected")

    assert finding.message.endswith("; 1 more such ring hangs on it")
    assert 2 == len(found(apart, "loop-unprotected"))


def test_of_rings_that_hang_together_the_shortest_is_told_wherever_it_stands_in_the_file() -> None:
    twice = "  U04: {from: attic/4, to: core/4, category: 6A, length: 20 m}\n"

    (finding,) = found(report_of(f"{triangle(tree='')}{twice}"), "loop-unprotected")

    assert finding.message.startswith("Frames can run in a ring through attic and core in media")


def test_of_rings_that_hang_together_one_without_a_tree_is_told_before_a_shorter_one_with_it() -> None:
    twice = "  U04: {from: attic/4, to: core/4, category: 6A, length: 20 m}\n"
    bare = triangle(attic=TREE, core=TREE, tree="")

    (finding,) = found(report_of(f"{bare}{twice}"), "loop-unprotected")

    assert finding.message.startswith("Frames can run in a ring through core, old and attic in media, and old does not")
