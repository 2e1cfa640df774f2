"""The sections of an answer."""

from __future__ import annotations

from observations import diagnosed, first_look, observed, situated

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.machine_state import Mount
from netaudit.report.probe.sections import because, counts, mount, sections
from netaudit.report.probe.tables import Row


def test_every_section_that_has_something_to_tell_stands_in_its_place(troubled: Diagnosis) -> None:
    assert [
        "Mount",
        "Addresses of vault",
        "Ports of this machine",
        "Sessions with vault",
        "What the file client reports",
        "What moved in 2 s",
        "Files against the clock",
        "Storage and system",
        "Switch",
    ] == [table.title for table in sections(troubled)]


def test_a_section_with_nothing_to_tell_is_left_out() -> None:
    assert ["Addresses of vault", "Ports of this machine"] == [
        table.title for table in sections(diagnosed(first_look()))
    ]


def test_a_mount_is_told_with_its_source_and_its_options(troubled: Diagnosis) -> None:
    assert (Row(("/mnt/media is //vault/media, mounted as cifs",), ("rw, vers=3.1.1",)),) == mount(
        troubled.situation
    ).rows
    assert (Row(("/m is v:/x, mounted as nfs4",)),) == mount(situated(observed(mount=Mount("/m", "nfs4", "v:/x")))).rows


def test_only_the_likeliest_cause_has_its_evidence_at_the_top(troubled: Diagnosis) -> None:
    assert ("the session goes by wlan0", "en5 moved nothing of it") == because(troubled)
    assert () == because(diagnosed())


def test_the_last_line_counts(troubled: Diagnosis) -> None:
    assert "1 fail, 1 warn, 0 note; 24 judgements made, 1 place not checked; took 2.9 s" == counts(troubled)
    assert "0 fail, 0 warn, 0 note; 1 judgement made, 0 places not checked; took 2.9 s" == counts(diagnosed(checked=1))
