"""netaudit judges the network of a small post-production room from a plan.

    plan = netaudit.load("boathouse.yaml")
    report = netaudit.check(plan)
    bill = netaudit.bill(plan)

Importing it imports nothing else: each name is fetched when it is first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from netaudit.audit import audit as check
    from netaudit.errors import InputError, NetauditError
    from netaudit.model.bill import Bill
    from netaudit.model.plan import Plan
    from netaudit.model.report import Report
    from netaudit.ordering.bill import bill
    from netaudit.ordering.request import Request
    from netaudit.plan.load import load, loads

__all__ = ["Bill", "InputError", "NetauditError", "Plan", "Report", "Request", "bill", "check", "load", "loads"]

_HOMES = {
    "Bill": ("netaudit.model.bill", "Bill"),
    "InputError": ("netaudit.errors", "InputError"),
    "NetauditError": ("netaudit.errors", "NetauditError"),
    "Plan": ("netaudit.model.plan", "Plan"),
    "Report": ("netaudit.model.report", "Report"),
    "Request": ("netaudit.ordering.request", "Request"),
    "bill": ("netaudit.ordering.bill", "bill"),
    "check": ("netaudit.audit", "audit"),
    "load": ("netaudit.plan.load", "load"),
    "loads": ("netaudit.plan.load", "loads"),
}


def __getattr__(name: str) -> Any:
    """Fetch a public name from the room it lives in."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415 - importing netaudit imports nothing else

    module, attribute = _HOMES[name]
    value = getattr(import_module(module), attribute)
    globals()[name] = value
    return value
