"""`nettop -x -L 1`. Format: as published in captures; these are invented and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture

from netaudit.machine.parse.macos.nettop import Flow, parse_nettop
from netaudit.model.machine_state import Endpoint


def test_a_flow_of_the_kernels_file_client_names_its_interface() -> None:
    """It stands under kernel_task.0."""
    expected = Flow(
        local=Endpoint(ip_address("10.44.20.11"), 61042),
        remote=Endpoint(ip_address("10.44.20.10"), 445),
        interface="en7",
        state="Established",
        received_bytes=322_736,
        sent_bytes=229_260,
        retransmitted_bytes=2896,
        round_trip_s=pytest.approx(0.00122),
        process="kernel_task",
        pid=0,
    )

    assert expected == parse_nettop(capture("nettop.csv"))[0]


def test_ipv6_ends_are_parted_by_a_dot_and_times_may_be_in_microseconds() -> None:
    flow = parse_nettop(capture("nettop.csv"))[1]

    assert Endpoint(ip_address("2001:db8:44::1111:2222:3333:51"), 52000) == flow.local
    assert pytest.approx(0.00085) == flow.round_trip_s


def test_a_process_may_have_commas_and_dots_in_its_name() -> None:
    flow = parse_nettop(capture("nettop.csv"))[2]

    assert ("Sync, v1.2 help", 731) == (flow.process, flow.pid)


def test_a_listener_is_no_flow() -> None:
    assert 3 == len(parse_nettop(capture("nettop.csv")))


def test_columns_go_by_their_names() -> None:
    text = "time,,re-tx,interface,\nx,kernel_task.0,,,\nx,tcp4 10.44.20.11:1<->10.44.20.10:445,7,en7,\n"
    (flow,) = parse_nettop(text)

    assert ("en7", 7, None, None) == (flow.interface, flow.retransmitted_bytes, flow.sent_bytes, flow.round_trip_s)


@pytest.mark.parametrize(
    ("words", "seconds"),
    [("850 us", 0.00085), ("850 usec", 0.00085), ("1.22 ms", 0.00122), ("1.22msec", 0.00122), ("2 s", 2), ("2 sec", 2)],
)
def test_a_round_trip_is_told_in_any_unit_of_time(words: str, seconds: float) -> None:
    (flow,) = parse_nettop(f"time,,rtt_avg\nx,tcp4 10.44.20.11:1<->10.44.20.10:445,{words}\n")

    assert pytest.approx(seconds) == flow.round_trip_s


def test_a_line_that_is_cut_short_is_no_process_and_no_flow() -> None:
    flow = "x,tcp4 10.44.20.11:{}<->10.44.20.10:445,"
    text = f"time,,state\nx,kernel_task.0,\nrubbish\nx,rubbish.9\n{flow.format(65_535)}\n{flow.format(65_536)}\n"

    text += "x,tcp4 *:22<->10.44.20.10:445,\n"

    assert [("kernel_task", 0, 65_535)] == [(each.process, each.pid, each.local.port) for each in parse_nettop(text)]


def test_without_a_header_nothing_is_guessed() -> None:
    assert () == parse_nettop("x,tcp4 10.44.20.11:1<->10.44.20.10:445,en7,\n")
