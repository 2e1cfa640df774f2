"""A measured rate: where the missing part went, once the network has passed."""

from __future__ import annotations

import pytest
from deskwork import found, gaps, only, passes, places, planned, silent

from netaudit.model.expectation import Expectation
from netaudit.model.finding import Measure
from netaudit.model.observation import FarAddress, Observation, SmbFacts, Timing
from netaudit.rules.live.desk import COLD, EXPECTED, FAR, SEEN, WARM, with_far, with_growth, with_wire
from netaudit.rules.live.fingerprints import RATES
from netaudit.rules.live.rates import NOT_THE_NETWORK, SIGNING_OR_ENCRYPTION

PROMISED = 9_900_420_447
SHORT = 0.7 * PROMISED
"""Under this a reading falls short [bit/s]."""


def at(timing: Timing, rate_bit_per_s: float, steady: bool = False, **fields: object) -> Timing:
    """A transfer at a rate, in steps that waver unless they are steady."""
    seconds = timing.bytes * 8 / rate_bit_per_s
    steps = len(timing.steps_s)
    waver = (1.0, 1.0) if steady else (0.6, 1.4)
    return timing._replace(
        seconds=seconds, steps_s=tuple(seconds / steps * waver[n % 2] for n in range(steps)), **fields
    )


def reading(cold: float, warm: float | None, seen: Observation = SEEN, **fields: object) -> Observation:
    """A file read twice at two rates."""
    timings = [at(COLD, cold, **fields)] + ([at(WARM, warm, **fields)] if warm is not None else [])
    return seen._replace(timings=tuple(timings))


def signed(seen: Observation, **facts: object) -> Observation:
    return seen._replace(client=seen.client._replace(**(facts or {"signing": True})))


def test_disks_are_told_by_a_second_reading_that_is_fast() -> None:
    finding = only(NOT_THE_NETWORK, reading(2e9, 9e9))

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "the network is not to blame: it leaves 9.9 Gb/s (1238 MB/s), and a file was read at 2 Gb/s (250 MB/s) cold and at "
        "9 Gb/s (1125 MB/s) from the storage's memory, so that the disks hold it back" == finding.message
    )
    assert (Measure(2_000_000_000, "bit/s"), Measure(PROMISED, "bit/s")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Look at the pool of vault: how full it is")
    assert RATES == finding.source


def test_protocol_or_processor_are_told_by_two_slow_readings() -> None:
    finding = only(NOT_THE_NETWORK, reading(1.9e9, 2e9, cpu_share=0.3))

    assert finding.message.endswith(
        "so that neither the disks nor the network hold it back: the file protocol or a processor does"
    )
    assert Measure(2_000_000_000, "bit/s") == finding.measured
    assert finding.remedy.startswith("A rate like 250 MB/s is often a 2.5 Gb/s link with little to spare")


def test_a_storage_that_stands_still_is_not_told_as_its_protocol() -> None:
    seen = reading(1.9e9, 2e9)
    stalled = seen.timings[1]._replace(steps_s=(*seen.timings[1].steps_s[:-1], 20 * seen.timings[1].seconds))
    finding = only(NOT_THE_NETWORK, seen._replace(timings=(seen.timings[0], stalled)))

    assert finding.message.endswith("so that the storage holds it back, which stands still in between")
    assert finding.remedy.startswith("Look on vault itself at what was running then")


@pytest.mark.parametrize(("share", "told"), [(0.85, True), (0.84, False), (None, False)])
def test_a_busy_core_of_this_machine_is_told(share: float | None, told: bool) -> None:
    remedy = only(NOT_THE_NETWORK, reading(1e9, 6e9, cpu_share=share)).remedy

    assert told == remedy.startswith("One core of this machine was 85 % busy with it: the reading end is the limit.")


def test_without_a_usual_suspect_the_ends_are_looked_at() -> None:
    assert only(NOT_THE_NETWORK, reading(6e9, 6e9)).remedy.startswith("Look at the load of one core at both ends")


@pytest.mark.parametrize(
    ("cold", "warm", "said"),
    [
        (SHORT + 1e5, SHORT + 1e5, "silent"),
        (SHORT - 1e5, 9e9, "disks"),
        (9e9, SHORT - 1e5, "neither"),
        (SHORT - 1e5, SHORT - 1e5, "neither"),
    ],
)
def test_short_is_under_seven_tenths_of_what_the_chain_should_carry(cold: float, warm: float, said: str) -> None:
    seen = reading(cold, warm)

    assert (said == "silent") == silent(NOT_THE_NETWORK, seen)
    assert said == "silent" or said in only(NOT_THE_NETWORK, seen).message


def test_disks_that_are_planned_to_be_slow_are_not_short() -> None:
    slow_pool = planned(goodput_bit_per_s=3_000_000_000)

    assert silent(NOT_THE_NETWORK, reading(2.9e9, 9e9), slow_pool)
    assert Measure(3_000_000_000, "bit/s") == only(NOT_THE_NETWORK, reading(1e9, 9e9), slow_pool).limit
    assert "it leaves 9.9 Gb/s" in only(NOT_THE_NETWORK, reading(1e9, 9e9), slow_pool).message


def test_a_single_reading_tells_nothing_yet() -> None:
    (gap,) = gaps(NOT_THE_NETWORK, reading(2e9, None))

    assert (
        "Reading ran at 2 Gb/s (250 MB/s), short of what the chain should carry, and the file was not read a second time"
        == gap.reason
    )


@pytest.mark.parametrize("expected", [EXPECTED, None])
def test_a_network_that_does_not_pass_is_not_acquitted(expected: Expectation | None) -> None:
    assert silent(NOT_THE_NETWORK, with_growth("en5", reading(2e9, 9e9), carrier_changes=2), expected)
    assert silent(NOT_THE_NETWORK, with_wire(reading(2e9, 9e9), duplex="half"), expected)


def test_what_came_from_this_machines_own_memory_proves_nothing() -> None:
    own = reading(2e9, 9e9)
    cold, warm = own.timings

    assert silent(NOT_THE_NETWORK, own._replace(timings=(cold._replace(received_bytes=cold.bytes - 1), warm)))
    assert gaps(NOT_THE_NETWORK, own._replace(timings=(cold, warm._replace(received_bytes=10))))
    assert found(NOT_THE_NETWORK, own._replace(timings=(cold._replace(received_bytes=None), warm)))
    assert found(NOT_THE_NETWORK, own._replace(timings=(cold._replace(received_bytes=cold.bytes), warm)))


def test_a_first_reading_that_may_be_warm_counts_as_the_first() -> None:
    cold, warm = reading(2e9, 9e9).timings

    assert found(NOT_THE_NETWORK, SEEN._replace(timings=(cold._replace(cold=None), warm)))


@pytest.mark.parametrize(
    "change", [{"timings": ()}, {"complete": False}, {"sessions": (), "addresses": ()}, {"interfaces": {}}]
)
def test_without_a_reading_a_whole_look_or_a_chain_nothing_is_judged(change: dict[str, object]) -> None:
    assert silent(NOT_THE_NETWORK, reading(2e9, 9e9)._replace(**change))
    assert silent(SIGNING_OR_ENCRYPTION, signed(reading(2e9, 2e9))._replace(**change))


@pytest.mark.parametrize("change", [{"direction": "write"}, {"seconds": 0.0}, {"bytes": 0}])
def test_what_was_not_read_is_no_reading(change: dict[str, object]) -> None:
    cold, warm = reading(2e9, 9e9).timings

    assert silent(NOT_THE_NETWORK, SEEN._replace(timings=(cold._replace(**change), warm)))


@pytest.mark.parametrize(
    ("rate", "steady", "open_"),
    [(0.94e9, True, True), (0.94e9, False, False), (2.35e9, True, True), (2.0e9, True, False), (6e9, True, False)],
)
def test_a_flat_rate_just_under_that_of_a_link_is_not_acquitted(rate: float, steady: bool, open_: bool) -> None:
    """94.15 % of 1 and 2.5 Gb/s are what TCP leaves at 1500 octets."""
    seen = reading(rate, rate, steady=steady)

    assert open_ == bool(gaps(NOT_THE_NETWORK, seen))
    assert open_ != bool(found(NOT_THE_NETWORK, seen))


def test_a_flat_rate_is_told_with_its_suspect() -> None:
    (gap,) = gaps(NOT_THE_NETWORK, reading(0.94e9, 0.94e9, steady=True))

    assert (
        "Reading runs flat at 940 Mb/s (118 MB/s), and a rate like 118 MB/s is often a 1 Gb/s link somewhere on the way: a "
        "port, an uplink, a router" == gap.reason
    )


def test_the_slow_reading_is_the_one_that_looks_like_a_link() -> None:
    assert gaps(NOT_THE_NETWORK, reading(0.94e9, 9e9, steady=True))
    assert found(NOT_THE_NETWORK, reading(0.94e9, 3.8e9, steady=True))


def test_a_few_steps_are_never_flat() -> None:
    cold, warm = reading(0.94e9, 0.94e9, steady=True).timings
    short = tuple(timing._replace(steps_s=timing.steps_s[:3]) for timing in (cold, warm))
    just = tuple(timing._replace(steps_s=timing.steps_s[:4]) for timing in (cold, warm))

    assert found(NOT_THE_NETWORK, SEEN._replace(timings=short))
    assert gaps(NOT_THE_NETWORK, SEEN._replace(timings=just))


def test_signing_is_told_with_its_cost_and_kept() -> None:
    finding = only(SIGNING_OR_ENCRYPTION, signed(reading(2e9, 2.1e9)))

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "reading runs at 2.1 Gb/s (262 MB/s) even from the storage's memory, where the network leaves 9.9 Gb/s (1238 MB/s), "
        "and each packet of the session is signed" == finding.message
    )
    assert (Measure(2_100_000_000, "bit/s"), Measure(PROMISED, "bit/s")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith(
        "Keep it unless the owner of the pictures decides otherwise: without it, whoever gets onto this network can change "
        "what passes."
    )


def by_server(**facts: bool | None) -> Observation:
    return with_far(signed(reading(2e9, 2e9), signing=None, encryption=None), smb=SmbFacts("3.1.1", **facts))


@pytest.mark.parametrize(
    ("seen", "how"),
    [
        (signed(reading(2e9, 2e9), encryption=True), "encrypted"),
        (signed(reading(2e9, 2e9), signing=True, encryption=True), "signed and encrypted"),
        (by_server(signing_required=True), "signed"),
        (by_server(encryption_required=True), "encrypted"),
    ],
)
def test_what_is_done_to_each_packet_is_told(seen: Observation, how: str) -> None:
    finding = only(SIGNING_OR_ENCRYPTION, seen)

    assert finding.message.endswith(f"of the session is {how}")
    assert ("can read what passes" in finding.remedy) == ("encrypted" in how)


@pytest.mark.parametrize(
    "seen",
    [
        reading(2e9, 2e9),
        by_server(signing_required=False, encryption_required=None),
        with_far(signed(reading(2e9, 2e9), signing=None, encryption=None), smb=None),
        with_far(signed(reading(2e9, 2e9), signing=False), smb=SmbFacts(signing_required=True)),
        with_far(signed(reading(2e9, 2e9), encryption=False), smb=SmbFacts(encryption_required=True)),
        signed(reading(2e9, 9e9)),
        signed(reading(9e9, 9e9)),
    ],
)
def test_a_session_that_is_plain_or_fast_is_not_slowed_by_it(seen: Observation) -> None:
    assert silent(SIGNING_OR_ENCRYPTION, seen)


def test_without_a_second_reading_it_is_not_checked() -> None:
    (gap,) = gaps(SIGNING_OR_ENCRYPTION, signed(reading(2e9, None)))

    assert "The session is signed, and no second reading tells whether the disks are to blame" == gap.reason


def test_a_storage_without_an_address_in_use_is_named_itself() -> None:
    other: FarAddress = FAR._replace(address=SEEN.sessions[0].local.address)
    seen = signed(reading(2e9, 2e9))._replace(addresses=(other,))

    for rule in (NOT_THE_NETWORK, SIGNING_OR_ENCRYPTION):
        assert ["device vault"] == places(only(rule, seen))


def test_the_desk_has_nothing_to_explain() -> None:
    assert silent(NOT_THE_NETWORK, SEEN)
    assert silent(SIGNING_OR_ENCRYPTION, SEEN)
    assert not passes(NOT_THE_NETWORK, SEEN)
