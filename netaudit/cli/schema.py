"""`netaudit schema`: the JSON Schemas."""

from __future__ import annotations

import click

from netaudit.cli.output import OUTPUT, write_text


@click.command(short_help="Print a JSON Schema.")
@click.argument("what", type=click.Choice(["plan", "report", "probe"]), default="plan")
@OUTPUT
def schema(what: str, output: str | None) -> None:
    """Print a JSON Schema: of a plan, for editors that check YAML as it is typed, or of the answers of a command."""
    if what != "plan":
        from netaudit.report.schema import probe_schema, report_schema  # noqa: PLC0415 - --help never pays for it

        write_text(report_schema() if what == "report" else probe_schema(), output)
        return
    import json  # noqa: PLC0415 - as above

    from netaudit.plan.schema import plan_schema  # noqa: PLC0415 - as above

    write_text(json.dumps(plan_schema(), ensure_ascii=False, indent=2) + "\n", output)
