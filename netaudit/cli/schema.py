"""`netaudit schema`: the JSON Schemas."""

from __future__ import annotations

import click

from netaudit.cli.output import OUTPUT, write_text


@click.command(short_help="Print a JSON Schema.")
@click.argument("what", type=click.Choice(["plan", "report"]), default="plan")
@OUTPUT
def schema(what: str, output: str | None) -> None:
    """Print the JSON Schema of a plan, for editors that check YAML as it is typed, or of the reports of `check`."""
    if what == "report":
        from netaudit.report.schema import report_schema  # noqa: PLC0415 - --help never pays for it

        write_text(report_schema(), output)
        return
    import json  # noqa: PLC0415 - as above

    from netaudit.plan.schema import plan_schema  # noqa: PLC0415 - as above

    write_text(json.dumps(plan_schema(), ensure_ascii=False, indent=2) + "\n", output)
