"""Bytes and words that plans are spoilt with."""

from __future__ import annotations

ODD_BYTES = (
    b"\x00", b"\xff", b"\xfe\xff", b"\xef\xbb\xbf", b"\r", b"\r\n", b"\t", b"\x1b[31m", b"\xc3", b"\xed\xa0\x80", b"\x85",
    b"\xe2\x80\xa8", b"\xe2\x80\xae", b"\n---\n", b"\n...\n", b"%YAML 9.9\n", b"\xf4\x90\x80\x80", b"\x7f", b"\n",
)  # fmt: skip
ODD_WORDS = (
    "", "0", "-0", "-1", "007", "0x1F", "1e400", "-1e-400", "nan", ".inf", "9" * 400, "9" * 5000, "1_000", "12:30:45", "~",
    "null", "yes", "true", "{}", "[]", "[[]]", "{a: {b: {c: d}}}", "- a", "*nowhere", "&here x", "<<", "!!python/name:os.system",
    "!local x", "!!binary aGk=", "=1+1", "@SUM(A1)", "<script>alert(1)</script>", "[bold]x[/]", "[/]", "${HOME}", "%s", "{0}",
    "\\", "'", '"', '"\\u0000"', '"\\ud800"', "日本語", "é", "\u202eabc", "e\u0301", "🎞", "x" * 64, "x" * 65, "a > b", "a/b",
    "a/b/c", "a - b", "a #2", "1-4", "4-1", "0-4096", "1-4096", "1-1", "10 Gb/s", "10G", "up to 10G", "up to 0G", "0 Mb/s",
    "1e9 Tb/s", "3 m", "0 m", "-3 m", "1e308 m", "3", "3 ft 7 in", "24 AWG", "-273.15 °C", "1000 °C", "100%", "0%", "-5%",
    "10.44.20.1", "10.44.20.0/24", "0.0.0.0/0", "::/0", "fe80::1%eth0", "256.1.1.1", "lease", "02:00:00:00:00:01", "vault",
    "vault/fast", "core/1", "cut-1/wire", "cut-1", "media", "6A", "5e", "OM4", "twinax", "unknown", "rj45", "sfp+", "radio",
    "station", "storage", "switch", "panel", "pcie 3 x4", "usb 5G via hub", "10GBASE-SR", "lc", "mpo",
    "[" * 3000, "{a: " * 3000, "- " * 500, "? " * 500, "[" * 70 + "]" * 70,
)  # fmt: skip
