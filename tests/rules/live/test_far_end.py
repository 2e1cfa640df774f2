"""Who answers for the storage's addresses: one port for each, and nobody else."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv6Address

import pytest
from deskwork import found, gaps, only, passes, places, silent

from netaudit.model.expectation import Expectation
from netaudit.model.machine_state import Route
from netaudit.model.observation import FarAddress, Knock, Neighbours, Observation, Offer, Skipped
from netaudit.rules.live.desk import (
    BY_WIRE,
    EXPECTED,
    FAR,
    FAST_MAC,
    SEEN,
    SLOW_FAR,
    SLOW_MAC,
    VAULT,
    first_look,
    with_far,
)
from netaudit.rules.live.far_end import ONE_HARDWARE_ADDRESS_TWICE, TWO_ANSWERS_FOR_ADDRESS

STRANGER = "02:00:00:99:99:99"
NEAR_SLOW = SLOW_FAR._replace(route=BY_WIRE)


def answered(*macs: str, asked: bool = True) -> Neighbours:
    return Neighbours(macs, asked)


def seen(*addresses: FarAddress) -> Observation:
    return SEEN._replace(addresses=addresses, sessions=())


def with_macs(fast: str | None = FAST_MAC, slow: str | None = SLOW_MAC) -> Expectation:
    """A plan that knows the storage's hardware addresses."""
    ports = EXPECTED.storage_ports
    known = {"fast": ports["fast"]._replace(mac=fast), "slow": ports["slow"]._replace(mac=slow)}
    return EXPECTED._replace(storage_ports=known)


def test_two_answers_fail_and_each_is_named() -> None:
    finding = only(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=answered(SLOW_MAC, FAST_MAC)))

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "2 hardware addresses answer for 10.44.20.10: 02:00:00:44:44:10 and 02:00:00:44:20:10; which of them is sent to is "
        "chance" == finding.message
    )


def test_one_answer_passes() -> None:
    assert passes(TWO_ANSWERS_FOR_ADDRESS, SEEN)


def test_a_port_that_the_plan_knows_is_named() -> None:
    message = only(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=answered(SLOW_MAC, STRANGER)), with_macs()).message

    assert "02:00:00:44:44:10 (vault/slow) and 02:00:00:99:99:99;" in message


BONDED = with_macs()._replace(
    storage_ports={
        **with_macs().storage_ports,
        "slow": with_macs().storage_ports["slow"]._replace(addresses=(VAULT,)),
        "third": with_macs().storage_ports["slow"],
    }
)
"""A plan whose storage answers for one address on two ports; a third one bears the hardware address of the second."""
BOTH_OWN = "Both are ports of vault, which stand in one subnet, and each answers for the other's address."
ONE_STRANGER = "One of them is not vault: another machine has the address too."
EITHER = "Either two ports of vault stand in one subnet and each answers for the other's address"


@pytest.mark.parametrize(
    ("addresses", "expected", "begins"),
    [
        (
            [
                FAR._replace(neighbours=answered(SLOW_MAC, FAST_MAC)),
                NEAR_SLOW._replace(neighbours=answered(FAST_MAC, SLOW_MAC)),
            ],
            None,
            BOTH_OWN,
        ),
        (
            [FAR._replace(neighbours=answered(SLOW_MAC, FAST_MAC)), NEAR_SLOW._replace(neighbours=answered(SLOW_MAC))],
            None,
            ONE_STRANGER,
        ),
        ([FAR._replace(neighbours=answered(SLOW_MAC, FAST_MAC))], None, EITHER),
        ([FAR._replace(neighbours=answered(SLOW_MAC, FAST_MAC)), NEAR_SLOW._replace(neighbours=None)], None, EITHER),
        (
            [
                FAR._replace(neighbours=answered(SLOW_MAC, FAST_MAC)),
                NEAR_SLOW._replace(neighbours=answered(SLOW_MAC)),
                SLOW_FAR._replace(neighbours=None),
            ],
            None,
            ONE_STRANGER,
        ),
        ([FAR._replace(neighbours=answered(SLOW_MAC, FAST_MAC))], with_macs(), BOTH_OWN),
        ([FAR._replace(neighbours=answered(STRANGER, FAST_MAC))], with_macs(), ONE_STRANGER),
        ([FAR._replace(neighbours=answered(STRANGER, FAST_MAC))], with_macs(slow=None), ONE_STRANGER),
        ([FAR._replace(neighbours=answered(STRANGER, "02:00:00:99:99:98"))], with_macs(), EITHER),
        ([FAR._replace(neighbours=answered(STRANGER, FAST_MAC))], EXPECTED, EITHER),
    ],
)
def test_the_storages_own_port_is_told_from_a_stranger(
    addresses: list[FarAddress], expected: Expectation | None, begins: str
) -> None:
    assert found(TWO_ANSWERS_FOR_ADDRESS, seen(*addresses), expected)[0].remedy.startswith(begins)


@pytest.mark.parametrize(
    ("system", "command"),
    [
        ("linux", "`sudo ip neigh del 10.44.20.10 dev en5`"),
        ("macos", "`sudo arp -d 10.44.20.10`"),
        ("windows", "`arp -d 10.44.20.10`"),
    ],
)
def test_each_system_forgets_in_its_own_way(system: str, command: str) -> None:
    for other in (FAST_MAC, STRANGER):
        far = FAR._replace(neighbours=answered(SLOW_MAC, other))
        assert command in only(TWO_ANSWERS_FOR_ADDRESS, seen(far)._replace(system=system), with_macs()).remedy


@pytest.mark.parametrize("known", [None, answered(FAST_MAC, asked=False)])
def test_a_question_that_nobody_answers_in_time_is_told_as_one(known: Neighbours | None) -> None:
    (gap,) = gaps(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=known))

    assert ["address 10.44.20.10"] == places(gap)
    assert "Asked by ARP, no hardware address answered for 10.44.20.10 in time" == gap.reason
    assert "probe once more while less is going on" == gap.decides


def test_the_privilege_is_told_as_the_system_named_it() -> None:
    noted = (Skipped("answers", "no", "probe with CAP_X", ("two-answers-for-address",)),)
    (gap,) = gaps(TWO_ANSWERS_FOR_ADDRESS, with_far(SEEN._replace(skipped=noted), neighbours=None))

    assert "probe with CAP_X" == gap.decides


def test_the_systems_own_table_proves_a_wrong_port_against_the_plan() -> None:
    finding = only(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=answered(SLOW_MAC, asked=False)), with_macs())

    assert (
        "vault/slow answers for 10.44.20.10, which is the address of vault/fast: this system holds 02:00:00:44:44:10 for it, "
        "and 02:00:00:44:20:10 is planned" == finding.message
    )
    assert finding.remedy.startswith(BOTH_OWN)


@pytest.mark.parametrize(
    ("held", "expected"),
    [
        (answered(FAST_MAC, asked=False), with_macs()),
        (answered(SLOW_MAC, asked=False), BONDED),
        (answered(STRANGER, asked=False), with_macs()),
        (answered(SLOW_MAC, asked=False), with_macs(fast=None)),
        (answered(SLOW_MAC, asked=False), with_macs(slow=None)),
        (answered(SLOW_MAC, asked=False), None),
    ],
)
def test_without_both_planned_hardware_addresses_the_table_proves_nothing(
    held: Neighbours, expected: Expectation | None
) -> None:
    assert gaps(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=held), expected)


@pytest.mark.parametrize(
    "change",
    [
        {"route": None},
        {"route": Route("en5", gateway=IPv4Address("10.44.20.1"))},
        {"route": Route("lo", local=True)},
        {"knocks": {}},
        {"knocks": {445: Knock("silent")}},
    ],
)
def test_only_addresses_on_the_link_that_answer_are_asked_for(change: dict[str, object]) -> None:
    assert silent(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=answered(SLOW_MAC, FAST_MAC), **change))


def test_an_address_of_version_6_is_not_checked_since_nobody_asks_who_else_has_it() -> None:
    six = {"address": IPv6Address("fd44::10"), "knocks": FAR.knocks}
    (gap,) = gaps(TWO_ANSWERS_FOR_ADDRESS, with_far(neighbours=answered(FAST_MAC, asked=False), **six))

    assert ["address fd44::10"] == places(gap)
    assert gap.reason.startswith("An address of version 6 is read from this machine's table only")
    assert "unplug vault for a moment and probe fd44::10 again: what still answers is another machine" == gap.decides
    assert silent(TWO_ANSWERS_FOR_ADDRESS, with_far(**{**six, "knocks": {}}))


def test_a_first_look_asks_nobody() -> None:
    assert silent(TWO_ANSWERS_FOR_ADDRESS, SEEN._replace(complete=False))
    assert silent(ONE_HARDWARE_ADDRESS_TWICE, first_look(SEEN))


def test_one_hardware_address_for_two_ports_warns() -> None:
    held = answered(SLOW_MAC, asked=False)
    finding = only(ONE_HARDWARE_ADDRESS_TWICE, seen(FAR._replace(neighbours=held), NEAR_SLOW._replace(neighbours=held)))

    assert ["address 10.44.20.10", "address 192.168.44.10"] == places(finding)
    assert (
        "02:00:00:44:44:10 answers for both 10.44.20.10 and 192.168.44.10, which are on different ports of vault: one of "
        "the two goes by the wrong port" == finding.message
    )


def test_different_hardware_addresses_pass() -> None:
    assert passes(ONE_HARDWARE_ADDRESS_TWICE, seen(FAR, NEAR_SLOW))


def test_aliases_that_nobody_puts_on_different_ports_are_left_alone() -> None:
    alias = FAR._replace(address=IPv4Address("10.44.30.10"))
    offers = (Offer(VAULT, None, 1), Offer(alias.address, None, 1))

    assert silent(ONE_HARDWARE_ADDRESS_TWICE, seen(FAR, alias))
    assert silent(ONE_HARDWARE_ADDRESS_TWICE, seen(FAR, alias)._replace(offers=offers))
    apart = (Offer(VAULT, None, 1), Offer(alias.address, None, 2))
    assert found(ONE_HARDWARE_ADDRESS_TWICE, seen(FAR, alias)._replace(offers=apart))


def test_several_answers_are_the_other_rules_business() -> None:
    both = answered(SLOW_MAC, FAST_MAC)

    assert silent(ONE_HARDWARE_ADDRESS_TWICE, seen(FAR._replace(neighbours=both), NEAR_SLOW._replace(neighbours=both)))
