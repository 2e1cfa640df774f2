"""The best a USB device could do, by its own binary object store: the descriptors it shows whatever it runs at.

Layouts: Universal Serial Bus 3.2 specification, 9.6.2 (from memory, without the document at hand).
"""

from __future__ import annotations

from collections.abc import Iterator

_STORE, _CAPABILITY = 0x0F, 0x10
_SUPER_SPEED, _SUPER_SPEED_PLUS = 0x03, 0x0A
_HEADER_BYTES = 5
_SPEEDS_BIT_PER_S = {1: 12_000_000, 2: 480_000_000, 3: 5_000_000_000}
"""Bits of wSpeedsSupported: full, high, and 5 Gb/s."""
_FIRST_SUBLINK = 12
_EXPONENTS = (1, 10**3, 10**6, 10**9)
_BEST_BIT_PER_S = 20_000_000_000
"""The most that two lanes of USB 3.2 carry [bit/s]: what claims more is not believed."""


def best_bit_per_s(store: bytes) -> int | None:
    """The best signalling rate that a device says it can do, of one lane [bit/s]; None where it does not say."""
    rates = [rate for kind, body in _capabilities(store) for rate in _rates(kind, body)]
    return max((rate for rate in rates if 0 < rate <= _BEST_BIT_PER_S), default=None)


def _capabilities(store: bytes) -> Iterator[tuple[int, bytes]]:
    """Each capability's kind and whole descriptor, up to the first that is cut or malformed."""
    if len(store) < _HEADER_BYTES or store[1] != _STORE:
        return
    at = store[0]
    while at >= _HEADER_BYTES and at + 3 <= len(store):
        size = store[at]
        if size < 3 or at + size > len(store):
            return
        if store[at + 1] == _CAPABILITY:
            yield store[at + 2], store[at : at + size]
        at += size


def _rates(kind: int, body: bytes) -> Iterator[int]:
    """The rates that one capability names [bit/s]."""
    if kind == _SUPER_SPEED and len(body) >= 6:
        speeds = int.from_bytes(body[4:6], "little")
        yield from (rate for bit, rate in _SPEEDS_BIT_PER_S.items() if speeds >> bit & 1)
    if kind == _SUPER_SPEED_PLUS:
        for at in range(_FIRST_SUBLINK, len(body) - 3, 4):
            sublink = int.from_bytes(body[at : at + 4], "little")
            yield (sublink >> 16) * _EXPONENTS[sublink >> 4 & 3]
