"""How far a figure may be trusted."""

from __future__ import annotations

from typing import get_args

from netaudit.citation import PLAN, Citation, Standing


def test_only_remembered_and_customary_figures_may_not_fail_a_plan() -> None:
    trusted = {standing: Citation("x", None, standing).may_fail for standing in get_args(Standing)}

    assert {
        "read": True, "secondary": True, "computed": True, "plan": True, "memory": False, "common practice": False
    } == trusted  # fmt: skip
    assert PLAN.may_fail
