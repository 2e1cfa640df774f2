"""Made-up cables, at every published length and one centimetre beyond."""

from __future__ import annotations

import pytest
from rooms import found, gaps, places, report_of

from netaudit.model.finding import Finding
from netaudit.model.report import Report
from netaudit.rules.cabling.twinax import TWINAX_TOO_LONG
from netaudit.standards.twinax import TwinaxReach, twinax_reach, twinax_reach_of

RULE = "twinax-too-long"
G = 1_000_000_000
BY_RATE = list(twinax_reach().values())
BY_LAYER = list(twinax_reach_of().values())


def shelf(*pieces: str, rates: str = "[10G]", modules: tuple[str | None, str | None] = (None, None)) -> Report:
    """The verdict on a switch and a storage that pieces D1, D2 … join, through as many panels as needed."""
    last = len(pieces)
    ends = ["core/9", *(f"p{number}/1" for number in range(1, last)), "vault/fast"]
    near, far = ("" if module is None else f", module: {module}" for module in modules)
    return report_of(
        "\n".join(
            [
                "netaudit: 1",
                "devices:",
                f"  core: {{role: switch, ports: {{9: {{connector: qsfp28, rates: {rates}{near}}}}}}}",
                f"  vault: {{role: storage, ports: {{fast: {{connector: qsfp28, rates: {rates}{far}}}}}}}",
                *(f"  p{number}: {{role: panel, ports: {{1-2: {{}}}}}}" for number in range(1, last)),
                "cables:",
                *(f"  D{n}: {{from: {ends[n - 1]}, to: {ends[n]}, {piece}}}" for n, piece in enumerate(pieces, 1)),
            ]
        )
    )


def only(report: Report) -> Finding:
    (finding,) = found(report, RULE)
    return finding


def of_rate(row: TwinaxReach, length_m: float) -> Report:
    return shelf(f"category: {row.kind}, length: {length_m:.2f} m", rates=f"[{row.rate_bit_per_s // G}G]")


def of_layer(row: TwinaxReach, length_m: float) -> Report:
    rates = f"[{row.rate_bit_per_s // G}G]"
    return shelf(f"category: {row.kind}, length: {length_m:.2f} m", rates=rates, modules=(row.phy, None))


def row_id(row: TwinaxReach) -> str:
    return f"{row.rate_bit_per_s // G}G-{row.kind}-{row.phy}"


@pytest.mark.parametrize("row", BY_RATE, ids=row_id)
def test_a_cable_at_its_longest_is_no_fault(row: TwinaxReach) -> None:
    report = of_rate(row, 150 if row.reach_m is None else row.reach_m)

    assert [] == [*found(report, RULE), *gaps(report, RULE)]


@pytest.mark.parametrize("row", [row for row in BY_RATE if row.reach_m is not None], ids=row_id)
def test_a_cable_a_centimetre_longer_strikes(row: TwinaxReach) -> None:
    assert row.reach_m is not None
    finding = only(of_rate(row, row.reach_m + 0.01))

    assert ("fail" if row.source.may_fail else "warn", row.source) == (finding.severity, finding.source)
    assert ["cable D1"] == places(finding)
    assert ((row.reach_m, "m"), (pytest.approx(row.reach_m + 0.01), "m")) == (finding.limit, finding.measured)


@pytest.mark.parametrize("row", BY_LAYER, ids=row_id)
def test_a_named_layer_has_its_own_length(row: TwinaxReach) -> None:
    assert row.reach_m is not None
    finding = only(of_layer(row, row.reach_m + 0.01))

    assert [] == found(of_layer(row, row.reach_m), RULE)
    assert ("fail" if row.source.may_fail else "warn", row.source) == (finding.severity, finding.source)
    assert f" as {row.phy} reaches {row.reach_m:g} m at the most" in finding.message


# Typed from the documents named: SFP+ as sold, 7 m (a switch maker's guide, December 2025); tiafotc.org, 25GBASE-CR to
# 5 m; fowiki.com, 40GBASE-CR4 to 7 m; the definitions of 802.3bj and 802.3cd at informant158.rssing.com, 5 m and 3 m
@pytest.mark.parametrize(("rate", "longest_m"), [("10G", 7), ("25G", 5), ("40G", 7), ("50G", 3), ("100G", 5)])
def test_the_lengths_of_passive_cables(rate: str, longest_m: int) -> None:
    assert [] == found(shelf(f"category: twinax, length: {longest_m} m", rates=f"[{rate}]"), RULE)
    assert "fail" == only(shelf(f"category: twinax, length: {longest_m}.01 m", rates=f"[{rate}]")).severity


@pytest.mark.parametrize(
    "modules", [("25GBASE-CR", "25GBASE-CR-S"), ("25GBASE-CR-S", "25GBASE-CR"), (None, "25GBASE-CR-S")]
)
def test_one_end_without_error_correction_leaves_three_metres(modules: tuple[str | None, str | None]) -> None:
    """IEEE 802.3by as described at informant158.rssing.com: CR-S has no RS-FEC."""
    assert [] == found(shelf("category: twinax, length: 3 m", rates="[25G]", modules=modules), RULE)
    finding = only(shelf("category: twinax, length: 3.01 m", rates="[25G]", modules=modules))

    assert ("fail", (3, "m")) == (finding.severity, finding.limit)
    assert (
        "D1: 3.01 m of twinax, over which 25 Gb/s (3125 MB/s) as 25GBASE-CR-S reaches 3 m at the most"
        == finding.message
    )
    assert (
        "Use 3 m or less instead of D1, or ends that run 25GBASE-CR, good to 5 m, "
        "or active-optical, whose maker answers for its length. As it is, no rate is promised." == finding.remedy
    )


@pytest.mark.parametrize(
    ("rates", "length", "message", "remedy"),
    [
        (
            "[10G]",
            "9 m",
            "D1: 9 m of twinax, over which 10 Gb/s (1250 MB/s) reaches 7 m at the most",
            "Use 7 m or less instead of D1, or active-twinax, good to 15 m, or active-optical, whose maker answers for "
            "its length. As it is, no rate is promised.",
        ),
        (
            "[25G, 10G]",
            "6 m",
            "D1: 6 m of twinax, over which 25 Gb/s (3125 MB/s) reaches 5 m at the most",
            "Use 5 m or less instead of D1, or active-optical, whose maker answers for its length. "
            "As it is, 10 Gb/s (1250 MB/s) is promised.",
        ),
        (
            "[10G]",
            "15.01 m",
            "D1: 15.01 m of twinax, over which 10 Gb/s (1250 MB/s) reaches 7 m at the most",
            "Use 7 m or less instead of D1, or active-optical, whose maker answers for its length. "
            "As it is, no rate is promised.",
        ),
        (
            "[10G]",
            "15 m",
            "D1: 15 m of twinax, over which 10 Gb/s (1250 MB/s) reaches 7 m at the most",
            "Use 7 m or less instead of D1, or active-twinax, good to 15 m, or active-optical, whose maker answers for "
            "its length. As it is, no rate is promised.",
        ),
    ],
)
def test_the_remedy_names_the_kinds_that_reach_so_far(rates: str, length: str, message: str, remedy: str) -> None:
    finding = only(shelf(f"category: twinax, length: {length}", rates=rates))

    assert (message, remedy) == (finding.message, finding.remedy)


def test_the_rate_that_is_agreed_decides_not_what_the_ports_could() -> None:
    report = shelf("category: twinax, rates: [10G], length: 7 m", rates="[25G, 10G]")

    assert [] == [*found(report, RULE), *gaps(report, RULE)]
    assert (7, "m") == only(shelf("category: twinax, rates: [10G], length: 7.01 m", rates="[25G, 10G]")).limit


def test_pieces_add_up_and_the_lesser_kind_decides() -> None:
    finding = only(shelf("category: active-twinax, length: 3 m", "category: twinax, length: 5 m"))

    assert ["cable D2", "cable D1"] == places(finding)
    assert (7, "m") == finding.limit
    assert "D1 + D2: 8 m of twinax" in finding.message
    assert (7, "m") == only(shelf("category: twinax, length: 4 m", "category: active-optical, length: 5 m")).limit


# What is unknown


def test_a_known_part_that_is_too_long_decides_whatever_the_rest_is() -> None:
    assert "at least 8 m of twinax" in only(shelf("category: twinax, length: 8 m", "category: twinax")).message
    assert (7, "m") == only(shelf("category: twinax, length: 8 m", "category: unknown, length: 1 m")).limit


@pytest.mark.parametrize(
    ("pieces", "rates", "reason"),
    [
        (["category: twinax"], "[10G]", "The length of D1 is not given"),
        (
            ["category: twinax, length: 1 m", "category: unknown, length: 1 m"],
            "[10G]",
            "The category of D2 is not known",
        ),
        (["category: twinax, length: 1 m"], "[1G]", "No published limit tells whether twinax carries that rate"),
        (
            ["category: active-twinax, length: 1 m"],
            "[25G]",
            "No published limit tells whether active-twinax carries that rate",
        ),
        (
            ["category: active-twinax, length: 1 m", "category: twinax, length: 9 m"],
            "[25G]",
            "No published limit tells whether active-twinax and twinax carries that rate",
        ),
    ],
)
def test_what_is_missing_or_in_no_table_is_not_checked(pieces: list[str], rates: str, reason: str) -> None:
    report = shelf(*pieces, rates=rates)

    assert [] == found(report, RULE)
    (gap,) = gaps(report, RULE)
    assert reason == gap.reason


def test_an_optical_cable_of_unknown_length_is_its_makers_matter() -> None:
    report = shelf("category: active-optical")

    assert [] == [*found(report, RULE), *gaps(report, RULE)]


@pytest.mark.parametrize(
    ("length", "state"),
    # rates unknown at both ends: 50 Gb/s reaches 3 m, 10 Gb/s and 40 Gb/s 7 m
    [("3 m", "pass"), ("3.01 m", "open"), ("7 m", "open"), ("7.01 m", "fail")],
)
def test_ports_of_unknown_rate_are_judged_by_the_most_generous(length: str, state: str) -> None:
    report = report_of(f"""\
netaudit: 1
devices:
  core: {{role: switch, ports: {{9: {{connector: qsfp28}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: qsfp28}}}}}}
cables:
  D1: {{from: core/9, to: vault/fast, category: twinax, length: {length}}}
""")
    assert ("fail" if found(report, RULE) else "open" if gaps(report, RULE) else "pass") == state


@pytest.mark.parametrize(
    "report",
    [
        shelf("category: OM3, length: 90 m"),
        shelf("category: 6A, length: 90 m"),
        shelf("category: twinax, length: 90 m", modules=("10GBASE-SR", "10GBASE-SR")),
        shelf("category: twinax, length: 90 m, rates: [25G]"),
    ],
)
def test_it_is_silent_over_other_media_and_where_nothing_ever_links(report: Report) -> None:
    assert [] == [*found(report, RULE), *gaps(report, RULE)]


def test_its_sources_are_those_of_the_lengths() -> None:
    assert {row.source for row in (*BY_RATE, *BY_LAYER)} == set(TWINAX_TOO_LONG.sources())
