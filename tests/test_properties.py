"""What must hold of every room: the verdict hangs on the facts and not on how they are written down."""

from __future__ import annotations

import random
import re
from collections import Counter
from typing import Any

import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from rooms import report_of

from netaudit.model.report import Report

CATEGORIES = ["5e", "6", "6A", "unknown", "8.1", "3"]
RATES = ["up to 10G", "[10G, 1G]", "[10G]", "up to 5G", "up to 2.5G", "[1G]", None]
METRES = [0.5, 1, 3, 12.5, 30, 37, 38, 55, 56, 84, 90, 100, 101, 130]

lengths = st.one_of(st.none(), st.sampled_from(METRES))
seats = st.fixed_dictionaries(
    {
        "wants": st.sampled_from([None, "1G", "2.5G", "10G"]),
        "rates": st.sampled_from(RATES),
        "port": st.sampled_from(RATES),
        "network": st.sampled_from(["media", "media", "media", "office", None]),
        "bus": st.sampled_from([None, None, "usb 5G", "pcie 3 x4"]),
        "cord": st.sampled_from([None, "24 AWG", "26 AWG", "28 AWG"]),
        "categories": st.tuples(*[st.sampled_from(CATEGORIES)] * 3),
        "lengths": st.tuples(lengths, lengths, lengths),
        "screened": st.booleans(),
        "up": st.booleans(),
    }
)
rooms = st.fixed_dictionaries(
    {
        "seats": st.lists(seats, min_size=1, max_size=4),
        "regime": st.sampled_from(["iso", "tia"]),
        "ambient": st.sampled_from(["20 °C", "24 °C", "40 °C"]),
        "keyed": st.booleans(),
        "uplink": st.sampled_from(RATES),
    }
)


def plan(parts: dict[str, Any]) -> dict[str, Any]:
    """A room as the mapping that its YAML would be: seats on two switches, one storage."""
    network = {"network": "media"} if parts["keyed"] else {}
    devices: dict[str, Any] = {
        "core": {"role": "switch", "ports": {}},
        "attic": {"role": "switch", "ports": {"up": port(parts["uplink"], **network)}},
        "plate": {"role": "outlet", "ports": {"1-4": {"connector": "rj45"}}},
        "board": {"role": "panel", "ports": {"1-4": {"connector": "rj45"}}},
        "vault": {"role": "storage", "ports": {"fast": port("[10G]", network="media", mtu="9000")}},
    }
    core = devices["core"]["ports"]
    core["s"] = port("up to 10G", **network)
    core["u"] = port("up to 10G", **network)
    cables: dict[str, Any] = {
        "S": {"from": "core/s", "to": "vault/fast", "category": "6A", "length": "2 m"},
        "U": {"from": "core/u", "to": "attic/up", "category": "6A", "length": "20 m"},
    }
    for number, seat in enumerate(parts["seats"], 1):
        lead(number, seat, devices, cables, network)
    return {
        "netaudit": "1", "regime": parts["regime"], "ambient": parts["ambient"],
        "networks": {"media": {"purpose": "storage"}, "office": {}}, "devices": devices, "cables": cables,
    }  # fmt: skip


def port(rates: str | None, **keys: str | None) -> dict[str, Any]:
    """A port; a list of rates is a list."""
    listed = yaml.load(rates, yaml.BaseLoader) if rates else None  # noqa: S506 - it makes texts alone
    given = {"connector": "rj45", "rates": listed, **keys}
    return {key: value for key, value in given.items() if value is not None}


def lead(number: int, seat: dict[str, Any], devices: dict[str, Any], cables: dict[str, Any], network: Any) -> None:
    """Put one seat into a room: cord, wall, cord."""
    devices[f"seat-{number}"] = {
        "role": "station",
        **({"wants": seat["wants"]} if seat["wants"] else {}),
        "ports": {"wire": port(seat["rates"], network=seat["network"], bus=seat["bus"])},
    }
    switch = "attic" if seat["up"] else "core"
    devices[switch]["ports"][str(number)] = port(seat["port"], **network)
    ends = [f"seat-{number}/wire", f"plate/{number}", f"board/{number}", f"{switch}/{number}"]
    for place, name in enumerate(("C", "W", "P")):
        cable = {"from": ends[place], "to": ends[place + 1]}
        if seat["categories"][place] != "unknown":
            cable["category"] = seat["categories"][place]
        if seat["lengths"][place] is not None:
            cable["length"] = f"{seat['lengths'][place]} m"
        if place != 1 and seat["cord"]:
            cable["cord"] = seat["cord"]
        cable.update({"installed": "true"} if place == 1 else {}, **({"screened": "true"} if seat["screened"] else {}))
        cables[f"{name}{number}"] = cable


def verdict(document: dict[str, Any]) -> Report:
    return report_of(yaml.safe_dump(document, sort_keys=False, allow_unicode=True))


def essence(report: Report) -> tuple[Any, ...]:
    """What must not change: the counts, and for each road what it is promised and gives."""
    return (
        report.summary,
        Counter(
            (judged.verdict, judged.path.planned, judged.path.promised_bit_per_s, judged.path.agreed_bit_per_s,
             judged.path.goodput_bit_per_s, judged.path.share_bit_per_s, judged.path.shared_by, len(judged.path.hops))
            for judged in report.paths
        ),
        Counter((finding.rule, finding.severity, finding.measured, finding.limit) for finding in report.findings),
        Counter(gap.rule for gap in report.not_checked),
    )  # fmt: skip


LENGTH_RULES = {"channel-too-long", "reach-not-assured", "cords-too-long", "too-warm-for-length"}
COPPER_RULES = {*LENGTH_RULES, "category-too-low", "too-many-connections", "cable-not-standard"}

many = settings(max_examples=60, deadline=None)


@given(rooms, st.randoms(use_true_random=False))
@many
def test_order_does_not_matter(parts: dict[str, Any], chance: random.Random) -> None:
    document = plan(parts)
    before = essence(verdict(document))
    for section in ("devices", "cables", "networks"):
        entries = list(document[section].items())
        chance.shuffle(entries)
        document[section] = dict(entries)

    assert before == essence(verdict(document))


@given(rooms)
@many
def test_names_do_not_matter(parts: dict[str, Any]) -> None:
    document = plan(parts)
    text = yaml.safe_dump(document, sort_keys=False)
    renamed = re.sub(
        r"\b(seat-\d|core|attic|vault|plate|board|media|office)\b", lambda name: f"<b>{name[0]}</b> é", text
    )
    renamed = renamed.replace("</b> é/", "< b> é/").replace("</b>", "< b>")

    assert essence(report_of(text)) == essence(report_of(renamed))


@given(rooms, st.randoms(use_true_random=False))
@many
def test_the_direction_of_a_cable_does_not_matter(parts: dict[str, Any], chance: random.Random) -> None:
    document = plan(parts)
    before = essence(verdict(document))
    for cable in document["cables"].values():
        if chance.random() < 0.5:
            cable["from"], cable["to"] = cable["to"], cable["from"]

    assert before == essence(verdict(document))


@given(rooms)
@many
def test_feet_are_as_good_as_metres(parts: dict[str, Any]) -> None:
    document = plan(parts)
    metres = verdict(document)
    for cable in document["cables"].values():
        if "length" in cable:
            cable["length"] = f"{float(cable['length'].removesuffix(' m')) / 0.3048:.6f} ft"
    feet = verdict(document)

    assert metres.summary == feet.summary
    assert [judged.verdict for judged in metres.paths] == [judged.verdict for judged in feet.paths]


DELETABLE = {"length", "category", "rates", "cord", "network", "screened", "mtu"}


@given(rooms, st.randoms(use_true_random=False))
@many
def test_a_value_left_out_never_turns_a_finding_into_a_pass(parts: dict[str, Any], chance: random.Random) -> None:
    document = plan(parts)
    before = verdict(document)
    holders = [
        *document["cables"].values(),
        *(wire for name, device in document["devices"].items() if device["role"] in ("station", "storage")
          for wire in device["ports"].values()),
        *(each for device in document["devices"].values() if device["role"] == "switch" for each in device["ports"].values()),
    ]  # fmt: skip
    choices = [(holder, key) for holder in holders for key in holder if key in DELETABLE]
    holder, key = chance.choice(choices)
    assume(
        not (
            key == "network"
            and holder
            in [*document["devices"]["core"]["ports"].values(), *document["devices"]["attic"]["ports"].values()]
        )
    )
    del holder[key]
    after = verdict(document)

    failed = {judged.path.place for judged in before.paths if judged.path.planned and judged.verdict == "fail"}
    passed = {judged.path.place for judged in after.paths if judged.path.planned and judged.verdict == "pass"}
    assert set() == failed & passed
    assert (before.summary.verdict, after.summary.verdict) != ("fail", "pass")
    assert (before.summary.verdict, after.summary.verdict) != ("incomplete", "pass")


@given(rooms)
@many
def test_a_bus_left_out_is_named_as_taken_for_granted(parts: dict[str, Any]) -> None:
    document = plan(parts)
    for device in document["devices"].values():
        device["ports"].get("wire", {}).pop("bus", None)

    report = verdict(document)

    ends = [judged.path.from_port for judged in report.paths if judged.path.planned and judged.path.hops]
    assert bool(ends) == any(text.startswith("a bus that keeps up behind") for text in report.assumed)


@given(rooms, st.sampled_from([1, 5, 40]))
@many
def test_longer_never_removes_a_length_finding(parts: dict[str, Any], more: int) -> None:
    document = plan(parts)
    before = {finding.where[0] for finding in verdict(document).findings if finding.rule in LENGTH_RULES}
    for cable in document["cables"].values():
        if "length" in cable:
            cable["length"] = f"{float(cable['length'].removesuffix(' m')) + more} m"
    places = {
        place for finding in verdict(document).findings if finding.rule in LENGTH_RULES for place in finding.where
    }

    assert before <= places


@given(rooms)
@many
def test_a_better_category_adds_no_copper_finding(parts: dict[str, Any]) -> None:
    document = plan(parts)
    before = len(copper(verdict(document)))
    for cable in document["cables"].values():
        if cable.get("category") in ("3", "5e", "6"):
            cable["category"] = "6A"

    assert len(copper(verdict(document))) <= before


def copper(report: Report) -> list[str]:
    return [finding.rule for finding in report.findings if finding.rule in COPPER_RULES]


@given(rooms)
@many
def test_a_device_that_nothing_is_plugged_into_changes_no_path(parts: dict[str, Any]) -> None:
    document = plan(parts)
    before = verdict(document).paths
    document["devices"]["lonely"] = {"role": "switch", "ports": {"1-8": {"connector": "rj45", "rates": "up to 10G"}}}

    assert before == verdict(document).paths
