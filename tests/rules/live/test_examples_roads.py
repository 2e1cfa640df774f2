"""The examples on the road: every wire stays as it is, and the traffic goes another way."""

from __future__ import annotations

import pytest

from netaudit.rules.live.desk import SEEN
from netaudit.rules.live.examples_roads import ROADS


@pytest.mark.parametrize("rule", ROADS)
def test_the_link_of_every_wire_is_that_of_the_desk_in_order(rule: str) -> None:
    _, change = ROADS[rule]
    links = {
        name: (state.carrier, state.rate_bit_per_s, state.duplex, state.mtu)
        for name, state in change().interfaces.items()
    }

    assert links.items() >= {
        (name, (state.carrier, state.rate_bit_per_s, state.duplex, state.mtu))
        for name, state in SEEN.interfaces.items()
    }
