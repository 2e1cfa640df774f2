"""The words that every form shares."""

from __future__ import annotations

from rooms import report_of, room

from netaudit.citation import OBSERVED, Citation
from netaudit.model.finding import Finding
from netaudit.model.place import Place
from netaudit.model.report import Report
from netaudit.report import words


def test_a_seat_that_falls_short_is_the_answer() -> None:
    assert words.sentence(report_of(room(wall="5e"))) == (
        "cut-1 will not hold 10 Gb/s (1250 MB/s): its road to vault is promised 2.5 Gb/s (312 MB/s), "
        "because W01 is category 5e."
    )


def test_a_good_plan_is_told_with_its_slowest_road() -> None:
    assert words.sentence(report_of(room())) == (
        "cut-1 is good; its road carries 9.9 Gb/s (1238 MB/s) to one seat alone, bounded by link core/9 - vault/fast."
    )


def test_what_is_left_when_all_read_at_once_is_told_where_it_is_less() -> None:
    second = "  cut-2: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, network: media, mtu: 9000}}}"
    report = report_of(room(devices=second, cables="  C02: {from: cut-2/wire, to: core/2, category: 6A, length: 2 m}"))

    assert words.sentence(report).endswith(
        "carries 9.9 Gb/s (1238 MB/s) to one seat alone, bounded by link core/9 - vault/fast; "
        "when all seats read at once, cut-1 gets 4.95 Gb/s (619 MB/s)."
    )


def test_every_fact_that_is_wanted_is_told_up_to_three() -> None:
    def open_seats(count: int) -> str:
        seats = range(2, count + 2)
        return words.sentence(report_of(room(
            None,
            devices="\n".join(
                f"  cut-{n}: {{role: station, ports: {{wire: {{connector: rj45, rates: up to 10G, network: media, mtu: 9000}}}}}}"
                for n in seats
            ),
            cables="\n".join(f"  C0{n}: {{from: cut-{n}/wire, to: core/{n}, category: 6A, cord: 26 AWG}}" for n in seats),
        )))  # fmt: skip

    assert open_seats(1).endswith("measure W01: up to 96 m is good; measure C02: up to 70 m is good.")
    assert open_seats(3).endswith("measure C03: up to 70 m is good; more stands below.")


def test_an_open_plan_is_told_with_the_fact_that_would_decide() -> None:
    report = report_of(room(None))

    assert "Nothing fails, but cut-1 is not proven: measure W01: up to 96 m is good." == words.sentence(report)
    assert () == words.standing_lines(report)


def test_the_first_warning_has_a_line_of_its_own_and_the_others_are_counted() -> None:
    one = report_of(room(port=", bus: usb 10G"))
    two = report_of(
        room(port=", bus: usb 10G").replace(
            "rates: [10G], network: media", "rates: [10G], bus: usb 10G, network: media"
        )
    )

    assert ("One warning: " + one.findings[0].message + ".",) == words.standing_lines(one)
    assert words.standing_lines(two)[-1].startswith("2 warnings, the first: USB 10G behind cut-1/wire carries")


def test_a_plan_without_seats_proves_nothing() -> None:
    report = report_of("netaudit: 1\n")

    assert "No seat of this plan edits from a storage, so that nothing is proven." == words.sentence(report)
    assert ("incomplete", 0) == (report.summary.verdict, report.exit_code)


def test_a_fault_beside_good_seats_is_told_as_such() -> None:
    text = room(
        devices="  other: {role: other, ports: {wire: {connector: rj45, rates: [5G]}}}",
        cables="  X01: {from: other/wire, to: core/10, category: 6A, length: 2 m}",
    )

    assert words.sentence(report_of(text)).startswith("Every seat is good, but not all is well: other/wire runs ")


def test_several_seats_that_fall_short_are_all_named(report: Report) -> None:
    assert words.sentence(report).endswith(" Neither does the road of cut-4 hold.")


def test_headroom_is_kept_free_of_the_shared_rate(report: Report) -> None:
    path = report.paths[0].path

    assert "3.3 Gb/s (413 MB/s)" == words.together(path)
    assert "2.31 Gb/s (289 MB/s)" == words.usable(path, 0.3)
    assert "open" == words.usable(path._replace(share_bit_per_s=None), 0.3)


def test_the_same_missing_fact_is_told_once(report: Report) -> None:
    ((reason, places, rules, _),) = words.gaps(report.not_checked)

    assert "the length of W03 is not given" == reason
    assert ["path =cut-3 > vault", "cable W03"] == [str(place) for place in places]
    assert ("path-below-target", "channel-too-long") == rules


def test_each_seat_is_told_its_own_fault_and_not_its_neighbours() -> None:
    text = room(
        seat="",
        wall="5e",
        devices="  cut-2: {role: station, wants: 10G, ports: {wire: {connector: rj45, rates: [1G], network: media}}}",
        cables="  C02: {from: cut-2/wire, to: core/2, category: 6A, length: 2 m}",
    )

    assert words.sentence(report_of(text)) == (
        "cut-1 cannot rely on its road to vault. W01 is category 5e; 10 Gb/s (1250 MB/s) is specified from category 6 up. "
        "Neither does the road of cut-2 hold."
    )


def test_a_title_stays_on_one_line_whatever_is_in_it(report: Report) -> None:
    assert words.title("two\nlines", "a\x1b[31m.yaml").startswith("two lines (a [31m.yaml)")


def test_a_fault_beside_an_open_seat_does_not_call_every_seat_good() -> None:
    text = room(
        None,
        devices="  other: {role: other, ports: {wire: {connector: rj45, rates: [5G]}}}",
        cables="  X01: {from: other/wire, to: core/10, category: 6A, length: 2 m}",
    )
    report = report_of(text)

    assert words.sentence(report).startswith("No seat falls short, but not all is well: other/wire runs ")
    assert ("Not proven: cut-1; measure W01: up to 96 m is good.",) == words.standing_lines(report)


def test_a_source_is_cited_with_its_clause_where_one_is_known() -> None:
    assert "A standard, clause 3" == words.cited(Citation("A standard", "clause 3", "read"))
    assert "A habit" == words.cited(Citation("A habit", None, "common practice"))


def test_what_a_probe_saw_needs_no_standing() -> None:
    finding = Finding("carrier-lost", "fail", (Place("interface", "en5"),), "no link", "Plug it in.", OBSERVED)

    assert "source: what this machine and the storage answered just now" == words.evidence(finding)
    assert words.evidence(finding._replace(source=Citation("A standard", None, "read"))).endswith("A standard (read)")
