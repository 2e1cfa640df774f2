"""What is left of a link's rate for data, after headers, gaps and tags."""

from __future__ import annotations

FRAME_OCTETS = 38
"""Preamble 8, header 14, check sequence 4 and gap 12 around every packet [octets]; IEEE 802.3."""
TAG_OCTETS = 4
"""One VLAN tag [octets]; IEEE 802.1Q."""
IPV4_OCTETS = 20
"""Header of IPv4 without options [octets]; RFC 791."""
IPV6_OCTETS = 40
"""Header of IPv6 [octets]; RFC 8200."""
TCP_OCTETS = 20
"""Header of TCP without options [octets]; RFC 9293."""
TIMESTAMP_OCTETS = 12
"""The timestamps option of TCP, padded [octets]; RFC 7323."""


def tcp_goodput_bit_per_s(rate_bit_per_s: int, mtu: int) -> int:
    """The most that TCP over IPv4 with timestamps carries [bit/s].

    Parameters: the rate of the link [bit/s]; the largest packet [octets].
    """
    return goodput_bit_per_s(rate_bit_per_s, mtu, header_octets=IPV4_OCTETS + TCP_OCTETS + TIMESTAMP_OCTETS)


def goodput_bit_per_s(rate_bit_per_s: int, mtu: int, *, header_octets: int, tag_octets: int = 0) -> int:
    """The most that full packets carry behind their headers, to the nearest whole number [bit/s].

    Parameters: the rate of the link [bit/s]; the largest packet [octets]; the headers inside the packet [octets];
    the tags outside it [octets]. A packet that its headers fill carries 0.
    """
    payload_octets = max(mtu - header_octets, 0)
    wire_octets = mtu + FRAME_OCTETS + tag_octets
    return (2 * rate_bit_per_s * payload_octets + wire_octets) // (2 * wire_octets)
