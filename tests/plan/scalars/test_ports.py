"""Rates, buses and references of ports."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.model.place import PortRef
from netaudit.model.plan import Bus, Rates
from netaudit.plan.scalars.ports import bus, joined_rates, pool_reference, port_reference, rates, storage_reference

Refusal = Callable[[Callable[[str], object], str], str]


def test_up_to_means_every_rate_over_twisted_pairs_from_100m() -> None:
    # IEEE Std 802.3: 100BASE-TX, 1000BASE-T, 2.5G/5GBASE-T, 10GBASE-T, 25G/40GBASE-T.
    every = (40, 25, 10, 5, 2.5, 1, 0.1)
    for highest, text in zip(every, ("40G", "25G", "10G", "5G", "2.5G", "1G", "100M"), strict=True):
        expected = tuple(int(rate * 10**9) for rate in every if rate <= highest)
        assert Rates(expected, up_to=True) == rates(f"up to {text}")


def test_one_rate_stands_for_itself() -> None:
    assert Rates((10_000_000_000,)) == rates("10G")


def test_listed_rates_are_each_kept_once_the_highest_first() -> None:
    assert Rates((10_000_000_000, 1_000_000_000)) == joined_rates((rates("1G"), rates("10G"), rates("1000M")))


def test_up_to_does_not_stand_in_a_list() -> None:
    with pytest.raises(ValueError, match="'up to' stands alone: write 'up to 10G' without a list, or list every rate"):
        joined_rates((rates("1G"), rates("up to 10G")))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("pcie 3 x4", Bus(kind="pcie", generation=3, lanes=4)),
        ("thunderbolt 3", Bus(kind="thunderbolt", generation=3)),
        ("usb 10G", Bus(kind="usb", rate_bit_per_s=10_000_000_000)),
        ("thunderbolt 4 via dock", Bus(kind="thunderbolt", generation=4, via="dock")),
        ("pcie 4 x8 via riser a", Bus(kind="pcie", generation=4, lanes=8, via="riser a")),
    ],
)
def test_a_bus_says_its_kind_and_who_shares_it(text: str, expected: Bus) -> None:
    assert expected == bus(text)


def test_a_port_is_its_device_up_to_the_first_slash() -> None:
    assert PortRef("core", "ge/0/1") == port_reference("core/ge/0/1")


def test_a_pool_is_its_storage_up_to_the_first_slash() -> None:
    assert ("vault", "a/b") == pool_reference("vault/a/b")


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (rates, "up to 9G", "'up to 9G': '9G' is not a rate over twisted pairs: write up to 100M, 1G, 2.5G, 5G, 10G, 25G or 40G, or list the rates"),
        (rates, "up to 10M", "'up to 10M': '10M' is not a rate over twisted pairs: write up to 100M, 1G, 2.5G, 5G, 10G, 25G or 40G, or list the rates"),
        (rates, "up to 10 Gbps", "'10 Gbps': 'Gbps' is not how that unit is written: write 10 Gb/s"),
        (rates, "upto 10G", "'upto 10G' is not a rate: write a number and a unit, such as 10G, 183.5 Mb/s or 240 MB/s"),
        (bus, "pcie 3", "'pcie 3' is not a bus: write pcie 3 x4 (generation 1 to 7, lanes 1 2 4 8 16), thunderbolt 3 (1 to 5) or usb 10G, and ' via NAME' where several ports share a dock"),
        (bus, "PCIe 3 x4", "'PCIe 3 x4' is not a bus: write pcie 3 x4 (generation 1 to 7, lanes 1 2 4 8 16), thunderbolt 3 (1 to 5) or usb 10G, and ' via NAME' where several ports share a dock"),
        (bus, "usb 3", "'3' has no unit: write 3G or 3 Gb/s, 3M or 3 Mb/s, or 3 MB/s"),
        (bus, "thunderbolt 3 via ", "a name is missing here: write 1 to 64 characters"),
        (port_reference, "core", "'core' is not a port: write device/port, as core/9"),
        (port_reference, "/9", "'/9' is not a port: write device/port, as core/9"),
        (port_reference, "core/", "'core/' is not a port: write device/port, as core/9"),
        (port_reference, "core /9", "'core ' ends with a blank: write 'core'"),
        (pool_reference, "vault", "'vault' is not a pool: write storage/pool, as vault/main"),
    ],
)  # fmt: skip
def test_what_is_not_right_is_told_what_would_be(
    parse: Callable[[str], object], text: str, message: str, refusal: Refusal
) -> None:
    assert message == refusal(parse, text)


def test_a_storage_reference_may_hold_two_whole_names() -> None:
    longest = "s" * 64 + "/" + "p" * 64

    assert [longest, "vault"] == [storage_reference(text) for text in (longest, "vault")]
    with pytest.raises(ValueError, match="65 characters"):
        storage_reference("s" * 65)
    with pytest.raises(ValueError, match="65 characters"):
        storage_reference("vault/" + "p" * 65)
