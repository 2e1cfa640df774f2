"""The facts for want of which a promise is open."""

from __future__ import annotations

import pytest
from rooms import plan_of, room

from netaudit.model.place import PortRef
from netaudit.rules import gaps
from netaudit.rules.facts import Facts, build_facts


def facts_of(text: str) -> Facts:
    return build_facts(plan_of(text))


def run_of(facts: Facts):  # type: ignore[no-untyped-def]
    return facts.link_between[frozenset((PortRef("cut-1", "wire"), PortRef("core", "1")))]


@pytest.mark.parametrize(
    ("text", "decides"),
    [
        (room(None), "measure W01: up to 96 m is good"),
        (room(None, wall="6"), "measure W01: up to 33 m is good"),
        (room(None, rates="[1G]", switch="[1G]"), "measure W01: up to 96 m is good"),
        (room().replace("length: 3 m, ", "").replace("length: 38 m", "length: 98 m"), "measure C01: up to 1 m is good"),
        (room(None).replace("length: 3 m, ", ""), "measure C01 and W01: together up to 99 m is good"),
        (room("30 m", wall="unknown", rates="[1G]", switch="[1G]"), "read the jacket of W01: 6A means 1 Gb/s (125 MB/s), 6 means 1 Gb/s (125 MB/s), 5e means 1 Gb/s (125 MB/s)"),
        (room("70 m", wall="unknown"), "read the jacket of W01: 6A means 10 Gb/s (1250 MB/s), 6 means 5 Gb/s (625 MB/s), 5e means 2.5 Gb/s (312 MB/s)"),
        (room(joint=", category: unknown"), "read the category moulded into plate/1"),
        (room("85 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "length: 8 m"), "read the gauge printed on C01: 24 AWG is best"),
        (room(None, top="ambient: 40 °C"), "measure W01: up to 82.8 m is good"),
        (room(None).replace("length: 3 m", "length: 19 m"), "measure W01: up to 75 m is good"),
        (room("70 m").replace("length: 3 m, cord", "cord"), "measure C01: up to 22.3 m is good"),
        (room("70 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "cord: 28 AWG"), "measure C01: up to 15.6 m is good"),
        (room("70 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "cord: 28 AWG").replace("length: 1 m, ", ""), "measure C01 and P01: together up to 16.4 m is good"),
        (room(None, switch="10G").replace("1-8: {connector: rj45, rates: 10G", "1-8: {connector: sfp+, rates: 10G, module: 10GBASE-T"), "measure W01: up to 26 m is good"),
        (room("30 m", top="ambient: 61 °C"), "measure the air along C01, W01 and P01, or move it somewhere cooler"),
        (room("79 m", top="regime: tia").replace("length: 3 m, cord: 26", "length: 20 m, cord: 22"), "shorten C01, W01 and P01"),
        (room().replace("rates: up to 10G, network", "network"), "write down `rates` of cut-1/wire, as its data sheet has them"),
    ],
)  # fmt: skip
def test_the_missing_fact_is_the_one_that_decides(text: str, decides: str) -> None:
    facts = facts_of(text)

    assert decides == gaps.missing_fact(run_of(facts), facts.plan).decides
