"""The best a USB device could do: layouts of the Universal Serial Bus 3.2 specification, 9.6.2, from memory."""

import struct
from collections.abc import Callable, Iterable

import pytest

from netaudit.machine.linux.usb_capabilities import best_bit_per_s

USB_2_EXTENSION = struct.pack("<BBBI", 7, 0x10, 0x02, 0x2)


def store(*capabilities: bytes) -> bytes:
    body = b"".join(capabilities)
    return struct.pack("<BBHB", 5, 0x0F, 5 + len(body), len(capabilities)) + body


def super_speed(speeds: int) -> bytes:
    return struct.pack("<BBBBHBBH", 10, 0x10, 0x03, 0, speeds, 1, 10, 2047)


def super_speed_plus(*sublinks: int) -> bytes:
    head = struct.pack("<BBBBIHH", 12 + 4 * len(sublinks), 0x10, 0x0A, 0, len(sublinks) - 1, 1, 0)
    return head + struct.pack(f"<{len(sublinks)}I", *sublinks)


def gigabits(mantissa: int) -> int:
    """A sublink speed attribute: mantissa in the upper half, exponent 3 for giga."""
    return mantissa << 16 | 3 << 4 | 1


def test_a_device_for_5g() -> None:
    assert 5_000_000_000 == best_bit_per_s(store(USB_2_EXTENSION, super_speed(0b1110)))


def test_a_device_for_10g() -> None:
    assert 10_000_000_000 == best_bit_per_s(
        store(USB_2_EXTENSION, super_speed(0b1110), super_speed_plus(gigabits(5), gigabits(10)))
    )


def test_a_device_for_480m_only() -> None:
    assert 480_000_000 == best_bit_per_s(store(super_speed(0b0100)))


def test_a_capability_of_three_bytes_is_passed_over() -> None:
    assert 5_000_000_000 == best_bit_per_s(store(b"\x03\x10\x02", super_speed(0b1000)))


def test_a_device_that_says_nothing_of_speeds() -> None:
    assert best_bit_per_s(store(USB_2_EXTENSION)) is None
    assert best_bit_per_s(b"") is None


def test_what_no_usb_carries_is_not_believed() -> None:
    assert 5_000_000_000 == best_bit_per_s(store(super_speed(0b1000), super_speed_plus(gigabits(65_535))))


@pytest.mark.parametrize("wrong", [b"\5\x0e\x0f\0\1", b"\0\x0f\x0f\0\1" + super_speed(8), store(b"\0\x10\x03")])
def test_a_store_of_another_shape_says_nothing(wrong: bytes) -> None:
    assert best_bit_per_s(wrong) is None


def test_rubbish_is_a_rate_or_none(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    for bad in spoilt(store(USB_2_EXTENSION, super_speed(0b1110), super_speed_plus(gigabits(10)))):
        found = best_bit_per_s(bad)
        assert found is None or 0 < found <= 20_000_000_000
