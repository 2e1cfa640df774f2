"""Whatever a probe did not find out, the rules say what they can and never fall over."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from netaudit.diagnosis import diagnose
from netaudit.model.observation import Observation
from netaudit.rules.live import RULES
from netaudit.rules.live.desk import EXPECTED, OLD_SESSION, SEEN, SLOW_FAR
from netaudit.rules.live.examples import example_of

RICH = SEEN._replace(addresses=(*SEEN.addresses, SLOW_FAR), sessions=(*SEEN.sessions, OLD_SESSION))
DESKS = [RICH, *(example_of(rule.name).seen for rule in RULES)]


def holed(value: Any, chance: random.Random) -> Any:
    """A value some of whose parts, at any depth, are not known, are missing or are nothing."""
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return value._replace(**dict(parts(value, chance)))
    if isinstance(value, tuple):
        return tuple(holed(each, chance) for each in value if chance.random() > 0.1)
    if isinstance(value, Mapping):
        return {key: holed(each, chance) for key, each in value.items() if chance.random() > 0.1}
    if isinstance(value, (int, float)) and not isinstance(value, bool) and chance.random() < 0.05:
        return type(value)(0)
    return value


def parts(value: Any, chance: random.Random) -> Iterator[tuple[str, Any]]:
    """The fields of a value, each either holed or, where it may be unknown, None."""
    hints = type(value).__annotations__
    for name in value._fields:
        if "None" in str(hints[name]) and chance.random() < 0.15:
            yield name, None
        else:
            yield name, holed(getattr(value, name), chance)


@pytest.mark.parametrize("seed", range(40))
def test_no_hole_in_an_observation_trips_a_rule(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - the same desks each time
    for desk in DESKS:
        seen: Observation = holed(desk, chance)
        for expected in (EXPECTED, None, EXPECTED._replace(road=None)):
            diagnosis = diagnose(seen, expected)
            assert bool(diagnosis.findings) == bool(diagnosis.causes)
            assert {cause.cause for cause in diagnosis.causes} <= {finding.rule for finding in diagnosis.findings}
            assert {finding.message for finding in diagnosis.findings} == {
                piece for cause in diagnosis.causes for piece in cause.because
            }


def test_nothing_at_all_is_known_of_a_storage() -> None:
    diagnosis = diagnose(Observation("vault", "linux", "vault", (445,), complete=True), EXPECTED)

    assert ((), ()) == (diagnosis.findings, diagnosis.causes)
