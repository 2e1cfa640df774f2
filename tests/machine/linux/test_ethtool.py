"""What drivers say of a link, from answers of every length and from the kernel's own virtual pair."""

import errno
import struct
from collections.abc import Callable, Iterable, Mapping

import pytest

from netaudit.machine.linux import ethtool
from netaudit.machine.linux.ethtool import Driver, LinkSettings, driver, link_settings, parse_driver, parse_settings

SETTINGS = "=IIBBBBBBBbBBBB7I"
"""struct ethtool_link_settings: command, speed [Mb/s], duplex, port, PHY, negotiation, MDIO, two of crossing, words of
each set, transceiver, two of master and slave, rate matching, reserved."""
UNKNOWN_SPEED = 0xFFFFFFFF
GIGABIT, TEN_GIGABIT = 1 << 5, 1 << 12
"""ETHTOOL_LINK_MODE_1000baseT_Full_BIT and _10000baseT_Full_BIT."""


def answer(speed_mbit_per_s: int, duplex: int = 1, words: int = 2, sets: tuple[int, int, int] = (0, 0, 0)) -> bytes:
    head = struct.pack(SETTINGS, 0x4C, speed_mbit_per_s, duplex, 0, 0, 1, 0, 0, 0, words, 0, 0, 0, 0, *[0] * 7)
    return head + b"".join(one.to_bytes(words * 4, "little") for one in sets if words > 0)


class Card:
    """A driver that first tells how many words a set has, then answers the question of that size."""

    def __init__(self, settings: bytes, words: int) -> None:
        self.settings = settings
        self.words = words
        self.sizes: list[int] = []

    def __call__(self, interface: str, question: bytes) -> bytes:
        self.sizes.append(len(question))
        asked = struct.unpack_from("=IIBBBBBBBb", question)[9]
        return self.settings if asked == self.words else answer(0, 0, -self.words)


def refusing(number: int) -> Callable[[str, bytes], bytes]:
    def ask(interface: str, question: bytes) -> bytes:
        raise OSError(number, "refused")

    return ask


def test_the_size_of_a_set_is_asked_for_first() -> None:
    card = Card(answer(10_000, 1, 4, (TEN_GIGABIT | GIGABIT, TEN_GIGABIT, GIGABIT)), 4)

    assert LinkSettings(10_000_000_000, "full", TEN_GIGABIT | GIGABIT, TEN_GIGABIT, GIGABIT) == link_settings(
        "en5", card
    )
    assert [48, 48 + 3 * 4 * 4] == card.sizes


@pytest.mark.parametrize("speed_mbit_per_s", [0, 0xFFFF, UNKNOWN_SPEED])
def test_a_speed_that_is_not_known_is_none(speed_mbit_per_s: int) -> None:
    """SPEED_UNKNOWN of linux/ethtool.h, its 16 bits of old, and what some drivers say without a link."""
    assert LinkSettings(None, None, None, None, None) == parse_settings(answer(speed_mbit_per_s, 255))


def test_half_duplex_is_told() -> None:
    assert (100_000_000, "half") == parse_settings(answer(100, 0))[:2]


def test_a_partner_that_is_not_told_is_none() -> None:
    seen = parse_settings(answer(1000, 1, 2, (GIGABIT, GIGABIT, 0)))

    assert (GIGABIT, GIGABIT, None) == (seen.supported, seen.offered, seen.partner)


def test_a_set_that_is_cut_off_is_not_known() -> None:
    whole = answer(1000, 1, 2, (GIGABIT, GIGABIT, GIGABIT))

    assert (GIGABIT, GIGABIT, None) == parse_settings(whole[:-1])[2:]


@pytest.mark.parametrize("number", [errno.EOPNOTSUPP, errno.ENODEV, errno.EINVAL, errno.EPERM])
def test_a_driver_that_does_not_answer_tells_nothing(number: int) -> None:
    assert LinkSettings() == link_settings("en5", refusing(number))
    assert Driver() == driver("en5", refusing(number))


def test_a_kernel_that_tells_no_size_is_not_asked_again() -> None:
    card = Card(b"", 0)

    assert LinkSettings() == link_settings("en5", card)
    assert [48] == card.sizes


def test_a_driver_has_a_name_and_a_device() -> None:
    """struct ethtool_drvinfo: command, driver, version, firmware, bus, each text of 32 octets."""
    info = struct.pack("=I32s32s32s32s64x", 3, b"example_nic", b"6.1", b"n/a", b"0000:03:00.0")

    assert Driver("example_nic", "0000:03:00.0") == parse_driver(info)
    assert Driver("example_nic", None) == parse_driver(info[:60])
    assert Driver() == parse_driver(b"")


def test_rubbish_is_an_answer_with_nothing_in_it(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    for bad in spoilt(answer(10_000, 1, 3, (TEN_GIGABIT, GIGABIT, GIGABIT))):
        seen = link_settings("en5", lambda interface, question, bad=bad: bad)
        assert seen.rate_bit_per_s is None or seen.rate_bit_per_s > 0
        parse_driver(bad)
        ethtool.parse_words(bad)


def test_an_answer_that_is_cut_short_tells_no_number_of_words() -> None:
    assert 0 == ethtool.parse_words(b"") == ethtool.parse_words(b"\xff" * 20)


def test_a_virtual_pair_answers_without_a_privilege(station) -> None:
    """The driver of virtual pairs says 10 Gb/s, full duplex, whatever runs over it."""
    station.become(1000)

    seen = station.ask(link_settings, "en5")

    assert (10_000_000_000, "full") == (seen.rate_bit_per_s, seen.duplex)
    assert Driver("veth", None) == station.ask(driver, "en5")


def test_what_is_down_or_not_there_tells_nothing(station) -> None:
    assert LinkSettings() == station.ask(link_settings, "en9")
    assert Driver() == station.ask(driver, "en9")
    assert LinkSettings() == station.ask(link_settings, "a name that is too long for the kernel")


def test_the_numbers_are_those_of_the_kernels_header(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/ethtool.h."""
    known = header("ethtool.h")

    assert (known["ETHTOOL_GLINKSETTINGS"], known["ETHTOOL_GDRVINFO"]) == (ethtool._LINK_SETTINGS, ethtool._DRIVER)
    assert {known["DUPLEX_HALF"]: "half", known["DUPLEX_FULL"]: "full"} == ethtool._DUPLEX
