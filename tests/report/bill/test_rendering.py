"""Templates filled in."""

from __future__ import annotations

import pytest
from jinja2 import UndefinedError

from netaudit.report.bill.rendering import rendered

ROW = ("<b>", "3 m", "{{ 7 * 7 }}")


def test_values_are_escaped_and_never_taken_for_a_template() -> None:
    page = rendered("lengths.html.j2", {"rows": [ROW]})

    assert "<bdi>&lt;b&gt;</bdi>" in page
    assert "<td>{{ 7 * 7 }}</td>" in page


def test_a_missing_value_is_an_error() -> None:
    with pytest.raises(UndefinedError, match="'rows' is undefined"):
        rendered("lengths.html.j2", {})
