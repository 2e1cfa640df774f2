"""The adapter and its wire: does the link hold, do frames arrive whole, is the bus wide enough."""

from __future__ import annotations

import pytest
from deskwork import found, gaps, only, passes, places, planned_port, silent

from netaudit.citation import OBSERVED
from netaudit.model.finding import Measure
from netaudit.model.machine_state import AdapterBus
from netaudit.rules.live.adapter import ADAPTER_BUS_BELOW_LINK, LINK_FLAPPING, RECEIVE_ERRORS
from netaudit.rules.live.desk import GBIT, MOVED, SEEN, with_growth, with_wire


@pytest.mark.parametrize(("changes", "times"), [(1, "once"), (2, "2 times")])
def test_a_link_that_came_or_went_meanwhile_warns(changes: int, times: str) -> None:
    finding = only(LINK_FLAPPING, with_growth("en5", carrier_changes=changes))

    assert ["interface en5"] == places(finding)
    assert f"the link of en5 (cut-1/wire) came or went {times} within 2.0 s" == finding.message
    assert (Measure(changes, "times"), Measure(0, "times")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Reseat both plugs, at en5 and at core/1, then replace the cable.")


def test_old_changes_and_those_of_other_ports_do_not_matter() -> None:
    assert passes(LINK_FLAPPING, with_wire(carrier_changes=900))
    assert passes(LINK_FLAPPING, with_growth("wlan0", carrier_changes=9))


def test_changes_that_nobody_counts_are_not_judged() -> None:
    assert silent(LINK_FLAPPING, with_growth("en5", carrier_changes=None))  # type: ignore[arg-type]
    assert silent(LINK_FLAPPING, SEEN._replace(moved=None))
    assert silent(LINK_FLAPPING, SEEN._replace(moved=MOVED._replace(interfaces={})))


@pytest.mark.parametrize(
    "name",
    [
        "rx_crc_errors",
        "rx_frame_errors",
        "FrameCheckSequenceErrors",
        "rx_fcs_error",
        "AlignmentErrors",
        "SymbolErrorDuringCarrier",
    ],
)
def test_a_single_damaged_frame_warns(name: str) -> None:
    finding = only(RECEIVE_ERRORS, with_growth("en5", errors={name: 1, "rx_dropped": 40}))

    assert ["interface en5"] == places(finding)
    assert f"en5 (cut-1/wire) received damaged frames within 2.0 s: {name} grew by 1" == finding.message
    assert (Measure(1, "frames"), Measure(0, "frames")) == (finding.measured, finding.limit)


@pytest.mark.parametrize("name", ["rx_errors", "Ierrs", "ReceivedPacketErrors"])
def test_a_counter_of_everything_in_vain_warns_with_a_doubt(name: str) -> None:
    assert only(RECEIVE_ERRORS, with_growth("en5", errors={name: 1})).message.endswith(
        f"{name} grew by 1, though some drivers count packets with a wrong checksum there too"
    )


def test_damage_is_told_rather_than_everything_in_vain() -> None:
    finding = only(
        RECEIVE_ERRORS, with_growth("en5", errors={"rx_errors": 9, "rx_crc_errors": 7, "rx_frame_errors": 2})
    )

    assert finding.message.endswith(": rx_crc_errors grew by 7 and rx_frame_errors grew by 2")
    assert Measure(7, "frames") == finding.measured


@pytest.mark.parametrize(
    "name",
    [
        "rx_dropped",
        "rx_missed_errors",
        "rx_fifo_errors",
        "rx_over_errors",
        "tx_errors",
        "tx_frame_errors",
        "collisions",
    ],
)
def test_drops_and_what_is_sent_are_left_alone(name: str) -> None:
    assert passes(RECEIVE_ERRORS, with_growth("en5", errors={name: 500}))


def test_old_errors_that_do_not_grow_pass() -> None:
    assert passes(RECEIVE_ERRORS, with_growth("en5", errors={"rx_crc_errors": 0, "rx_errors": 0}))
    assert passes(RECEIVE_ERRORS, with_growth("wlan0", errors={"rx_crc_errors": 9}))


def test_errors_that_nobody_counts_are_not_judged() -> None:
    assert silent(RECEIVE_ERRORS, with_growth("en5", errors={}))


def test_a_bus_below_its_link_warns_with_what_it_carries() -> None:
    """USB 3.2: 8b/10b at 5 Gb/s leaves 4 Gb/s of data."""
    finding = only(ADAPTER_BUS_BELOW_LINK, with_wire(bus=AdapterBus("USB 5G", best_text="USB 10G")))

    assert ["interface en5"] == places(finding)
    assert (
        "en5 (cut-1/wire) has a link of 10 Gb/s (1250 MB/s) but hangs on USB 5G, which carries 4 Gb/s (500 MB/s) at the "
        "most" == finding.message
    )
    assert (Measure(4 * GBIT, "bit/s"), Measure(10 * GBIT, "bit/s")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Plug the adapter straight into a faster port of the computer")
    assert finding.remedy.endswith(" The adapter itself could run USB 10G.")
    assert OBSERVED != finding.source
    assert finding.source in set(ADAPTER_BUS_BELOW_LINK.sources())


@pytest.mark.parametrize(("planned", "told"), [("USB 10G", "; the plan says USB 10G"), ("USB 5G", ""), (None, "")])
def test_a_bus_that_is_not_the_planned_one_is_told_beside_it(planned: str | None, told: str) -> None:
    finding = only(ADAPTER_BUS_BELOW_LINK, with_wire(bus=AdapterBus("usb 5G")), planned_port("wire", bus=planned))

    assert finding.message.endswith(f" carries 4 Gb/s (500 MB/s) at the most{told}")


def test_a_card_in_a_narrow_slot_is_moved() -> None:
    finding = only(ADAPTER_BUS_BELOW_LINK, with_wire(bus=AdapterBus("PCI Express 3 x1", best_text="PCI Express 3 x1")))

    assert "Move the card to a slot with more lanes or a newer generation." == finding.remedy


def test_the_bare_signal_of_an_old_usb_is_certainly_too_little() -> None:
    finding = only(ADAPTER_BUS_BELOW_LINK, with_wire(bus=AdapterBus("usb 480M")))

    assert "carries 480 Mb/s (60 MB/s) at the most" in finding.message
    assert OBSERVED == finding.source


@pytest.mark.parametrize(("rate", "strikes"), [(4 * GBIT + 1, True), (4 * GBIT, False), (GBIT, False)])
def test_as_much_as_the_link_is_enough(rate: int, strikes: bool) -> None:
    assert strikes == bool(found(ADAPTER_BUS_BELOW_LINK, with_wire(bus=AdapterBus("usb 5G"), rate_bit_per_s=rate)))


@pytest.mark.parametrize("bus", [AdapterBus("firewire 800"), AdapterBus("thunderbolt 9"), AdapterBus("usb 80G")])
def test_a_bus_in_no_table_is_not_checked(bus: AdapterBus) -> None:
    (gap,) = gaps(ADAPTER_BUS_BELOW_LINK, with_wire(bus=bus))

    assert f"What {bus.text} behind en5 carries is in no table" == gap.reason
    assert "look it up in the computer's data sheet: 10 Gb/s (1250 MB/s) is enough" == gap.decides


@pytest.mark.parametrize("change", [{"bus": None}, {"rate_bit_per_s": None}, {"made_up_rate": True}])
def test_without_a_bus_or_a_real_rate_nothing_is_judged(change: dict[str, object]) -> None:
    assert silent(ADAPTER_BUS_BELOW_LINK, with_wire(**change))


def test_the_desk_passes() -> None:
    for rule in (LINK_FLAPPING, RECEIVE_ERRORS, ADAPTER_BUS_BELOW_LINK):
        assert passes(rule, SEEN)
