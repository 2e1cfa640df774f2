"""The examples on links: the traffic stays on the planned cable, and something is wrong there."""

from __future__ import annotations

import pytest
from deskwork import situation

from netaudit.rules.live.desk import VAULT
from netaudit.rules.live.examples_links import LINKS


@pytest.mark.parametrize("rule", LINKS)
def test_the_traffic_goes_by_the_planned_cable_to_the_planned_address(rule: str) -> None:
    _, change = LINKS[rule]
    known = situation(change())

    assert (("en5",), (VAULT,)) == (known.used_names, known.remotes)
