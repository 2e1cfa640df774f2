"""Services: does the storage answer, and does it serve files."""

from __future__ import annotations

from ipaddress import IPv4Network

import pytest
from deskwork import found, gaps, only, passes, places, silent

from netaudit.model.machine_state import Interface, Route
from netaudit.model.observation import FarAddress, Knock, Observation, Outcome
from netaudit.rules.live.desk import FAR, OPEN, SEEN, SLOW_FAR, SMALL_PASSES, with_far, with_interface
from netaudit.rules.live.services import NO_ANSWER, SERVICE_REFUSED

SILENT, REFUSED = Knock("silent", (), 1), Knock("refused", (0.0002,))
UNMOUNTED = SEEN._replace(sessions=(), mount=None)


def answering(**outcomes: Outcome) -> Observation:
    """A desk whose storage answers on ports in some way: `_445="open"`."""
    knocks = {int(port[1:]): Knock(outcome) for port, outcome in outcomes.items()}
    return with_far(UNMOUNTED, knocks=knocks, frames=())


def mute(far: FarAddress) -> FarAddress:
    return far._replace(knocks={445: SILENT, 2049: SILENT}, frames=())


def test_a_storage_that_keeps_silent_everywhere_fails() -> None:
    finding = only(NO_ANSWER, UNMOUNTED._replace(addresses=(mute(FAR), mute(SLOW_FAR))))

    assert ["address 10.44.20.10", "address 192.168.44.10"] == places(finding)
    assert (
        "vault does not answer at 10.44.20.10 and 192.168.44.10, asked by en5 (cut-1/wire) at 10 Gb/s (1250 MB/s): this "
        "system heard nothing in time" == finding.message
    )
    assert finding.remedy.startswith("Look whether vault is on and its lamp at the switch is lit")
    assert "follow the cable from core/1 on" in finding.remedy


def test_a_host_that_is_not_found_on_the_link_is_told_so() -> None:
    assert only(NO_ANSWER, answering(_445="unreachable")).message.endswith(
        ": this system says that there is no way there"
    )
    assert only(NO_ANSWER, answering(_445="unreachable", _2049="silent")).message.endswith("in time")


def test_a_host_that_answers_pings_keeps_its_services_to_itself() -> None:
    finding = only(NO_ANSWER, with_far(answering(_445="silent"), frames=(SMALL_PASSES,)))

    assert finding.message.endswith("heard nothing in time, although 10.44.20.10 answers to ping")
    assert finding.remedy.startswith("The host is there but keeps silent on its file services")


@pytest.mark.parametrize("outcome", ["open", "refused"])
def test_any_answer_at_any_address_is_an_answer(outcome: Outcome) -> None:
    seen = UNMOUNTED._replace(addresses=(mute(SLOW_FAR), FAR._replace(knocks={445: Knock(outcome), 2049: SILENT})))

    assert passes(NO_ANSWER, seen)


def test_the_planned_end_must_answer_itself() -> None:
    finding = only(NO_ANSWER, UNMOUNTED._replace(addresses=(mute(FAR), SLOW_FAR)))

    assert ["address 10.44.20.10"] == places(finding)
    assert finding.message.startswith("the planned end of vault does not answer at 10.44.20.10, asked by")
    assert passes(NO_ANSWER, UNMOUNTED._replace(addresses=(mute(FAR), SLOW_FAR)), None)


@pytest.mark.parametrize("other", ["blocked", "silent", "unreachable"])
def test_a_program_that_may_not_ask_has_heard_nothing(other: Outcome) -> None:
    (gap,) = gaps(NO_ANSWER, answering(_445="blocked", _2049=other))

    assert ["address 10.44.20.10"] == places(gap)
    assert gap.reason.startswith("This system forbids this program to talk to devices on the local network")
    assert "Local Network" in gap.decides


def test_addresses_that_nobody_knocked_at_do_not_count() -> None:
    assert silent(NO_ANSWER, with_far(UNMOUNTED, knocks={}))
    assert silent(NO_ANSWER, UNMOUNTED._replace(addresses=()))
    assert ["address 10.44.20.10"] == places(
        only(NO_ANSWER, UNMOUNTED._replace(addresses=(mute(FAR), SLOW_FAR._replace(knocks={}))))
    )


def test_without_a_route_the_way_is_not_told() -> None:
    finding = only(NO_ANSWER, with_far(answering(_445="silent"), route=None))

    assert "at 10.44.20.10: this system heard" in finding.message
    assert "follow the cable from the switch on" in finding.remedy


def test_a_storage_that_refuses_every_file_service_fails() -> None:
    finding = only(SERVICE_REFUSED, answering(_445="refused", _2049="refused"))

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "vault is there at 10.44.20.10 but refuses SMB (445) and NFS (2049): no file service runs on that address"
        == finding.message
    )


def test_a_storage_without_a_name_is_told_by_its_address_once() -> None:
    nameless = answering(_445="refused", _2049="refused")._replace(host="10.44.20.10", mount=None)

    assert only(SERVICE_REFUSED, nameless, None).message.startswith("10.44.20.10 is there but refuses")


@pytest.mark.parametrize(
    ("outcomes", "strikes"),
    [
        ({"_445": "refused", "_2049": "open"}, False),
        ({"_445": "refused", "_2049": "silent"}, True),
        ({"_445": "refused", "_22": "open"}, True),
        ({"_22": "refused"}, True),
        ({"_22": "open"}, False),
        ({"_8445": "refused"}, True),
        ({"_445": "open", "_22": "refused"}, False),
    ],
)
def test_one_open_file_service_is_enough(outcomes: dict[str, Outcome], strikes: bool) -> None:
    assert strikes == bool(found(SERVICE_REFUSED, answering(**outcomes)))


def test_a_port_without_a_name_is_told_by_its_number() -> None:
    assert "refuses port 8445:" in only(SERVICE_REFUSED, answering(_8445="refused")).message
    assert "refuses SSH (22):" in only(SERVICE_REFUSED, answering(_22="refused")).message


def test_the_service_of_the_mount_is_the_one_that_counts() -> None:
    knocks = {445: REFUSED, 2049: OPEN}

    assert found(SERVICE_REFUSED, with_far(knocks=knocks))
    assert passes(SERVICE_REFUSED, with_far(SEEN._replace(mount=None), knocks=knocks))


def test_a_mount_whose_service_was_not_asked_for_is_judged_by_the_others() -> None:
    assert SEEN.mount is not None
    seen = with_far(SEEN._replace(mount=SEEN.mount._replace(port=9)), knocks={445: REFUSED})

    assert found(SERVICE_REFUSED, seen)


def test_a_storage_that_does_not_answer_refuses_nothing() -> None:
    assert silent(SERVICE_REFUSED, answering(_445="silent"))
    assert silent(SERVICE_REFUSED, answering())


def test_this_machine_itself_may_refuse_too() -> None:
    assert found(SERVICE_REFUSED, with_far(answering(_445="refused"), route=Route("lo", local=True)))


def test_the_desk_passes() -> None:
    assert passes(NO_ANSWER, SEEN)
    assert passes(SERVICE_REFUSED, SEEN)


def test_an_address_that_was_asked_through_a_tunnel_is_to_be_asked_without_it_first() -> None:
    tunnel = Interface("tun0", medium="tunnel")
    far = FAR._replace(route=Route("tun0", prefix=IPv4Network("10.44.0.0/16")), knocks={445: SILENT}, frames=())
    remedy = only(NO_ANSWER, with_interface(tunnel, UNMOUNTED._replace(addresses=(far,), moved=None))).remedy

    assert remedy.startswith("First: 10.44.20.10 itself leads into the tunnel tun0. Take 10.44.0.0/16 out of what")
    assert remedy.endswith(
        "After that: probe again; nothing that is asked by the wrong way tells whether the storage is there."
    )
