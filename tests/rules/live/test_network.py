"""Whether the network passes: no rule of it finds anything, whatever the rules behind it say."""

from __future__ import annotations

import pytest
from deskwork import situation

from netaudit.rules.live import RULES
from netaudit.rules.live.desk import SEEN
from netaudit.rules.live.examples import example_of
from netaudit.rules.live.network import NETWORK_RULES, network_passes

BEHIND = {"storage-stalls", "signing-or-encryption", "not-the-network"}


def test_every_rule_but_those_behind_the_network_is_of_the_network() -> None:
    assert {rule.name for rule in RULES} - BEHIND == {rule.name for rule in NETWORK_RULES}


@pytest.mark.parametrize("name", [rule.name for rule in RULES])
def test_the_network_passes_where_none_of_its_rules_strikes(name: str) -> None:
    example = example_of(name)

    assert (name in BEHIND) == network_passes(situation(example.seen, example.expected))


def test_what_could_not_be_checked_does_not_fail_it() -> None:
    assert network_passes(situation(SEEN))
    unasked = SEEN._replace(addresses=tuple(far._replace(neighbours=None) for far in SEEN.addresses))
    assert network_passes(situation(unasked))
