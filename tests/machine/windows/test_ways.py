"""Nothing of Windows runs here: both ways are stood in for."""

from __future__ import annotations

import pytest
from windowscalls import WindowsCalls
from windowsroom import interface, table, told

from netaudit.errors import AnswerError
from netaudit.machine.windows.asked import Asked
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.ways import Ways


def ways(calls: WindowsCalls, *captures: str) -> Ways:
    ask = told(*captures)
    return Ways(Native(calls.load), Asked(ask), ask)


def test_direct_calls_go_first() -> None:
    found = ways(WindowsCalls(interfaces=table(interface(3, "Direct"))), "adapters-5.1-de").either(
        lambda way: way.adapters()
    )

    assert ["Direct"] == [each.alias for each in found]


def test_powershell_answers_where_direct_calls_are_barred() -> None:
    found = ways(WindowsCalls(interfaces=5), "adapter-single-5.1").either(lambda way: way.adapters())

    assert ["Ethernet 2"] == [each.alias for each in found]


def test_where_both_fail_the_second_failure_counts() -> None:
    barred = Ways(Native(WindowsCalls(interfaces=5).load), Asked(lambda *queries: {}), lambda *queries: {})

    with pytest.raises(AnswerError, match="left out the answer for adapters"):
        barred.either(lambda way: way.adapters())
