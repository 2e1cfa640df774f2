"""Templates filled in: every value is escaped, and a missing one is an error."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jinja2 import Environment


def rendered(template: str, values: Mapping[str, object]) -> str:
    """One of the templates beside this file, with its values."""
    return _environment().get_template(template).render(values)


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined  # noqa: PLC0415 - only a page pays for it

    return Environment(
        loader=PackageLoader("netaudit.report.bill"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
