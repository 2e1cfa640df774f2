"""Options that go together: whatever an option would leave without effect is refused."""

from __future__ import annotations

from collections.abc import Collection

import click
from click.core import ParameterSource


def require_only(option: str, fitting: Collection[str]) -> None:
    """Raise click's UsageError where an option stands beside others that it would leave without effect.

    `fitting` are the names of the parameters that go with it, its own among them.
    """
    context = click.get_current_context()
    given = [
        parameter.opts[-1]
        for parameter in context.command.params
        if parameter.name not in fitting
        and context.get_parameter_source(parameter.name or "") is not ParameterSource.DEFAULT
    ]
    if given:
        raise click.UsageError(f"{option} goes without {' and '.join(given)}: leave one of them out.")
