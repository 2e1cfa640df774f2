"""`dns-sd -L`. Format: Apple's dns-sd.c; the capture is written from it and not taken from a machine."""

from __future__ import annotations

from mac_captures import capture

from netaudit.machine.parse.macos.host_answers import parse_resolved


def test_the_host_behind_a_service_loses_its_last_dot() -> None:
    assert "vault.local" == parse_resolved(capture("dns-sd-resolve.txt"))


def test_nobody_answering_is_no_host() -> None:
    assert parse_resolved("DATE: ---Wed 25 Nov 2026---\n10:11:12.001  ...STARTING...\n") is None
