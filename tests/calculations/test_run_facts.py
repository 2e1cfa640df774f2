"""Which facts of a room would make a length known: never one too few, never one that would not help."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from racked import length_m, racked

from netaudit.calculations.run_facts import missing_facts

WALL = "from: loft-plate/1, to: bay-panel/1, category: 6A, via: [duct]"


def missing(cable: str, **changes: str) -> str | None:
    """What is missing for the length of that cable; None where nothing is, or where no fact would help."""
    found = missing_facts(racked(cable, **changes))
    return found[0][1] if found else None


@pytest.mark.parametrize(
    ("cable", "changes", "fact"),
    [
        ("from: bay-panel/1, to: vault/1", {"bay": "units: 12", "vault": ""}, "depth of vault or of rack bay"),
        ("from: vault/1, to: core/1", {"bay": "units: 12", "vault": ""}, "depth of vault or of rack bay"),
        ("from: backup/1, to: vault/1", {"bay": "units: 12", "vault": ""}, "depth of rack bay"),
        ("from: bay-panel/1, to: [vault/1, backup/1]", {"bay": "", "vault": ""}, "depth of rack bay"),
        ("from: bay-panel/1, to: core/1", {"bay": "", "core_rack": ", mounted: rear"}, "depth of rack bay"),
        (WALL, {"bay": "depth: 600 mm"}, "units of rack bay"),
        (WALL, {"bay": "units: 12"}, "depth of rack bay"),
        (WALL, {"bay": ""}, "units and depth of rack bay"),
        ("from: core/1, to: adrift/wire, via: [duct]", {}, "room or rack of adrift"),
        ("from: adrift/wire, to: bay-panel/1, via: [duct]", {"bay": "units: 12"},
         "room or rack of adrift, and the depth of rack bay"),
    ],
)  # fmt: skip
def test_what_is_missing_is_named(cable: str, changes: dict[str, str], fact: str) -> None:
    assert fact == missing(cable, **changes)
    assert length_m(cable, **changes) is None


@pytest.mark.parametrize(
    ("cable", "changes"),
    [
        (WALL, {}),
        (f"{WALL}, length: 4 m", {"bay": ""}),
        ("from: bay-panel/1, to: core/1", {"bay": ""}),
        ("from: vault/1, to: vault/2", {"bay": "", "vault": ""}),
        ("from: cut-1/wire, to: attic/1, via: [duct]", {"bay": ""}),
    ],
)
def test_nothing_is_missing_where_the_length_is_known(cable: str, changes: dict[str, str]) -> None:
    assert () == missing_facts(racked(cable, **changes))


@pytest.mark.parametrize(
    ("cable", "changes"),
    [
        ("from: loft-plate/1, to: bay-panel/1", {"bay": ""}),
        ("from: core/1, to: attic/1", {"bay": ""}),
        ("from: cut-1/wire, to: adrift/wire", {}),
        (WALL, {"panel": "13", "bay": "units: 12"}),
        ("from: adrift/wire, to: bay-panel/1, via: [duct]", {"panel": "13", "bay": "units: 12"}),
    ],
)
def test_no_fact_is_named_that_would_not_help(cable: str, changes: dict[str, str]) -> None:
    """Neither routes nor a rack lead from end to end, or the panel stands above its rack."""
    assert length_m(cable, **changes) is None
    assert () == missing_facts(racked(cable, **changes))


ENDS = ("cut-1/wire", "loft-plate/1", "bay-panel/1", "core/1", "core/2", "vault/1", "vault/2", "backup/1", "attic/1")


@settings(max_examples=150, deadline=None)
@given(
    ends=st.permutations(ENDS),
    tails=st.integers(1, 2),
    via=st.sampled_from(["", ", via: [duct]"]),
    room=st.fixed_dictionaries(
        {
            "bay": st.sampled_from(["", "units: 12", "depth: 600 mm", "units: 12, depth: 600 mm", "units: 9"]),
            "vault": st.sampled_from(["", "depth: 550 mm, "]),
            "vault_rack": st.sampled_from(["", ", mounted: rear"]),
        }
    ),
)
def test_a_fact_is_missing_exactly_where_giving_it_makes_the_length_known(
    ends: list[str], tails: int, via: str, room: dict[str, str]
) -> None:
    cable = f"from: {ends[0]}, to: [{', '.join(ends[1 : 1 + tails])}]{via}"
    fact = missing(cable, **room)
    units = (re.findall(r"units: \d+", room["bay"]) or ["units: 12"])[0]
    deep_rack, deep_vault = {"bay": f"{units}, depth: 600 mm"}, {"vault": "depth: 550 mm, "}
    helps = length_m(cable, **room) is None and length_m(cable, **room | deep_rack | deep_vault) is not None

    assert helps == (fact is not None)
    if fact is not None and fact.startswith("depth of vault or"):
        assert length_m(cable, **room | deep_vault) is not None
    if fact is not None and "depth of rack bay" in fact and "units" not in fact:
        assert length_m(cable, **room | deep_rack) is not None
