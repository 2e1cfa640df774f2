"""Categories that are screened by construction, and their connectors."""

from __future__ import annotations

from netaudit.standards.screens import screened_categories


def test_seven_and_eight_are_screened_and_no_category_below() -> None:
    """The titles of IEC 60603-7-7, -7-71, -7-81 and -7-82 call these connectors shielded; from memory."""
    assert ["7", "7A", "8.1", "8.2"] == list(screened_categories())


def test_only_the_first_kind_of_category_8_has_plain_rj45_of_its_own() -> None:
    """ISO/IEC 11801-1: class I of components of category 8.1, which mate with those of 6A; from memory."""
    assert {"7": "EA", "7A": "EA", "8.1": None, "8.2": "I"} == {
        name: row.rj45_class for name, row in screened_categories().items()
    }
    assert all("IEC 60603-7-" in row.connectors for row in screened_categories().values())


def test_what_is_only_remembered_may_fail_nothing() -> None:
    assert not any(row.source.may_fail for row in screened_categories().values())
