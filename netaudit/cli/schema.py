"""`netaudit schema`: the JSON Schemas."""

from __future__ import annotations

from typing import get_args

import click

from netaudit.cli.output import OUTPUT, write_text
from netaudit.report.schema import Answer, answer_schema


@click.command(short_help="Print a JSON Schema.")
@click.argument("what", type=click.Choice(["plan", *get_args(Answer)]), default="plan")
@OUTPUT
def schema(what: Answer, output: str | None) -> None:
    """Print a JSON Schema: of a plan, for editors that check YAML as it is typed, or of the answers of a command.

    report is what `check` gives, bill `cables`, acceptance `cables --accept`, comparison `cables --against`.
    """
    if what in get_args(Answer):
        write_text(answer_schema(what), output)
        return
    import json  # noqa: PLC0415 - --help never pays for it

    from netaudit.plan.schema import plan_schema  # noqa: PLC0415 - as above

    write_text(json.dumps(plan_schema(), ensure_ascii=False, indent=2) + "\n", output)
