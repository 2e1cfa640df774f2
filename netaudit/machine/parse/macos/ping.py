"""`ping -D`: whether one packet that may not be cut came back, and whose limit it was where it did not.

Format: Apple, network_cmds, ping.tproj/ping.c. The exit code is 2 both for a packet that was lost and for one that this
machine never sent, so the words decide.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from netaudit.errors import AnswerError

IPV4_HEADERS_OCTETS = 28
"""IPv4 header of 20 octets (RFC 791) and ICMP header of 8 (RFC 792)."""
IPV6_HEADERS_OCTETS = 48
"""IPv6 header of 40 octets (RFC 8200) and ICMPv6 header of 8 (RFC 4443)."""
MOST_PAYLOAD_OCTETS = 8184
"""Largest payload that macOS lets ping send, whatever the port is set to: net.inet.raw.maxdgram, 8192, without the
ICMP header (Apple, xnu, bsd/netinet/raw_ip.c)."""

_RECEIVED = re.compile(r"\d{1,9} packets transmitted, (\d{1,9}) (?:packets )?received")
_FRAG_NEEDED = re.compile(r"frag needed and DF set \(MTU (\d{1,5})\)")
_CUT_REPLY = re.compile(r"wrong total length \d{1,9} instead of \d")


class Echo(NamedTuple):
    """What became of a packet."""

    passed: bool | None
    """None where this machine would not send it, or only part of it came back."""
    told_mtu: int | None = None
    """The size that a router named [octets]."""


def parse_ping(text: str, errors: str) -> Echo:
    """What became of the one packet; raises AnswerError where ping does not say."""
    everything = f"{text}\n{errors}"
    told = _FRAG_NEEDED.search(everything)
    if told:
        return Echo(passed=False, told_mtu=int(told[1]) or None)
    if "Message too long" in everything or _CUT_REPLY.search(everything):
        return Echo(passed=None)
    summary = _RECEIVED.search(text)
    if summary is None:
        raise AnswerError("ping ended without saying what became of its packet")
    return Echo(passed=summary[1].strip("0") != "")
