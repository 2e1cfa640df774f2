"""The answer of a probe, as a value."""

from __future__ import annotations

import pytest

from netaudit.citation import OBSERVED
from netaudit.model.diagnosis import Diagnosis
from netaudit.model.finding import Finding, Severity
from netaudit.model.observation import Observation
from netaudit.model.place import Place
from netaudit.model.situation import Situation


@pytest.mark.parametrize(("severities", "code"), [((), 0), (("warn", "note"), 0), (("warn", "fail"), 1)])
def test_only_a_failure_gives_exit_code_1(severities: tuple[Severity, ...], code: int) -> None:
    findings = tuple(
        Finding("no-answer", severity, (Place("address", "10.44.20.10"),), "It is silent", "Look.", OBSERVED)
        for severity in severities
    )
    seen = Observation("vault", "linux", "vault", (445,))

    assert code == Diagnosis(Situation(seen, None, {}, ()), findings).exit_code
