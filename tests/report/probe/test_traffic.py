"""What moved, as tables."""

from __future__ import annotations

from observations import (
    CHANNEL,
    COLD_READ,
    ELSEWHERE,
    MOVED,
    SESSION,
    first_look,
    observed,
    situated,
)

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.machine_state import Channel, ClientFacts, Counters
from netaudit.model.observation import Growth
from netaudit.report.probe import traffic
from netaudit.report.probe.tables import Row


def test_every_row_has_a_cell_for_each_column(troubled: Diagnosis) -> None:
    for make in (traffic.sessions, traffic.channels, traffic.moved, traffic.files):
        table = make(troubled.situation)

        assert {len(table.head)} == {len(row.cells) for row in table.rows}


def test_a_session_is_told_with_both_ends_and_what_tcp_counted() -> None:
    assert traffic.sessions(situated()).rows == (
        Row(
            ("SMB", "10.44.20.11:51820", "10.44.20.10:445", "en5", "81 GB", "4 MB"),
            (
                "held by kernel",
                "round trip 200 µs",
                "packets sent again 0 of 3000",
                "8948 octets of data in a packet at most",
            ),
        ),
    )


def test_what_tcp_does_not_tell_is_not_known_and_never_zero() -> None:
    bare = ELSEWHERE._replace(interface=None, tcp=ELSEWHERE.tcp._replace(sent_bytes=None, retransmitted=3))
    (row,) = traffic.sessions(situated(observed(sessions=(bare,)))).rows

    assert (("not known",) * 3, ("packets sent again 3",)) == (row.cells[3:], row.finer)


def test_a_channel_of_the_client_is_told_with_its_state() -> None:
    unknown = Channel("media", None, active=False)
    (first, second) = traffic.channels(situated(observed(client=ClientFacts((CHANNEL, unknown))))).rows

    assert ("media", "en5", "10.44.20.11", "10.44.20.10", "10 Gb/s (1250 MB/s)", "active") == first.cells
    assert ("received 81 GB", "sent 4 MB") == first.finer
    assert Row(("media", *("not known",) * 4, "stands by")) == second


def test_what_moved_has_a_rate_and_a_trickle_has_only_its_amount() -> None:
    table = traffic.moved(situated())

    assert "What moved in 2 s" == table.title
    assert table.rows == (
        Row(("en5", "2.1 GB at 8.4 Gb/s (1050 MB/s)", "9 MB at 36 Mb/s (4.5 MB/s)")),
        Row(("wlan0", "5.1 kB", "2.4 kB")),
    )


def test_new_errors_and_lost_links_within_the_interval_are_told() -> None:
    growth = Growth(Counters(1, None, errors={"rx_crc_errors": 7, "rx_dropped": 0}), 2)
    (row,) = traffic.moved(situated(observed(moved=MOVED._replace(interfaces={"en5": growth})))).rows

    assert Row(("en5", "not known", "1 B"), ("link changed twice", "new errors: rx_crc_errors 7")) == row


def test_other_interfaces_are_told_only_where_more_than_a_trickle_went_through() -> None:
    """1 Mb/s is the least that is told: 250,000 octets in 2 s."""
    amounts = {"docker0": (10, 249_999), "en9": (0, 250_000), "tap0": (None, None)}
    more = {name: Growth(Counters(sent, received)) for name, (sent, received) in amounts.items()}
    seen = observed(moved=MOVED._replace(interfaces={**MOVED.interfaces, **more}))
    rows = traffic.moved(situated(seen)).rows

    assert ["en5", "wlan0", "en9"] == [row.cells[0] for row in rows]
    assert rows[2].cells[1].startswith("250 kB at 1 Mb/s")


def test_an_interval_of_no_length_has_no_rates() -> None:
    stopped = observed(moved=MOVED._replace(seconds=0.0))

    assert Row(("en5", "2.1 GB", "9 MB")) == traffic.moved(situated(stopped)).rows[0]


def test_without_an_interval_nothing_moved_that_is_known() -> None:
    assert () == traffic.moved(situated(first_look())).rows


def test_a_timed_file_is_told_with_where_it_came_from() -> None:
    cached = COLD_READ._replace(received_bytes=1000, cold=None)
    write = COLD_READ._replace(direction="write", cold=None)
    nothing = COLD_READ._replace(bytes=0, received_bytes=None, cold=False)
    rows = traffic.files(situated(observed(timings=(COLD_READ, cached, write, nothing)))).rows

    assert [
        ("read from the disks", "3.3 Gb/s (412 MB/s)"),
        ("read from this machine's memory, in part", "3.3 Gb/s (412 MB/s)"),
        ("written", "3.3 Gb/s (412 MB/s)"),
        ("read from the storage's memory", "not known"),
    ] == [row.cells[1:3] for row in rows]
    assert ["whether it came from disks or memory is not known" in row.finer for row in rows] == [
        False, True, False, False,
    ]  # fmt: skip


def test_the_finer_facts_of_a_timed_file_are_its_slowest_moments() -> None:
    (row,) = traffic.files(situated()).rows
    bare = COLD_READ._replace(steps_s=(), interface=None, handshakes_s=(), cpu_share=None)

    assert row.finer == (
        "slowest 1 MB in 3.3 ms",
        "over en5",
        "slowest handshake meanwhile 400 µs",
        "31 % of a processor core here",
    )
    assert () == traffic.files(situated(observed(timings=(bare,)))).rows[0].finer


def test_sessions_over_several_interfaces_stand_in_the_order_seen() -> None:
    rows = traffic.sessions(situated(observed(sessions=(SESSION, ELSEWHERE)))).rows

    assert ["en5", "wlan0"] == [row.cells[3] for row in rows]
