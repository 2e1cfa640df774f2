"""The page of a bill with every kind of row, read back."""

from __future__ import annotations

import pytest
from bills import full_bill
from pages import Element, tree

from netaudit.report.bill.page.page import page


@pytest.fixture(scope="session")
def full() -> Element:
    """The page as a tree."""
    return tree(page(full_bill()))
