"""`netaudit cables`: what to order, cut, label, plug and tick off."""

from __future__ import annotations

from typing import Literal, get_args

import click

from netaudit.cli.bill_forms import Form, refuse_odd, write_acceptance, write_bill, write_comparison
from netaudit.cli.output import OUTPUT, announce, refuse_overwriting
from netaudit.cli.quantity import Quantity, length_m, length_or_none_m, share
from netaudit.cli.stopping import Stopping
from netaudit.model.bill import Bill
from netaudit.model.moving import AcceptanceReport
from netaudit.model.plan import Plan, StockItem
from netaudit.ordering.request import Request, Series
from netaudit.report.bill.sheet import SheetName

STOPPED = 130
"""Exit code after Ctrl-C, also where the best found so far was written."""


@click.command(short_help="List what to order, cut and label.")
@click.argument("plan_file", metavar="PLAN", type=click.Path(readable=False))
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv", "xlsx", "html"]),
    default="text",
    show_default=True,
    help="html is a page to print.",
)
@click.option(
    "--sheet", type=click.Choice(get_args(SheetName)), help="Only this part, as text or csv; labels also as html."
)
@click.option(
    "--spare",
    metavar="SHARE",
    type=Quantity("share", share),
    default="10%",
    show_default=True,
    help="Spares of each row, one at least.",
)
@click.option(
    "--waste",
    "waste_m",
    metavar="LENGTH",
    type=Quantity("length", length_or_none_m),
    default="0.5 m",
    show_default=True,
    help="Lost at each end of a run cut from a box.",
)
@click.option(
    "--lengths",
    "series",
    type=click.Choice(get_args(Series)),
    help="Series in which cables are sold. [default: metric where the plan's regime is iso]",
)
@click.option(
    "--box",
    "boxes_m",
    metavar="LENGTH",
    type=Quantity("length", length_m),
    multiple=True,
    help="Size of box that is sold; repeatable. [default: 1000 ft, 304.8 m]",
)
@click.option("--label", metavar="PATTERN", help="Text of labels, such as '{id} {near} > {far}'.")
@click.option("--label-sheet", metavar="GEOMETRY", help="Sheet of labels, such as '3x8 70x36 mm from 0x4.5 mm on a4'.")
@click.option("--prices", metavar="FILE", type=click.Path(readable=False), help="Prices as CSV: what, length, price.")
@click.option(
    "--against",
    metavar="PLAN",
    type=click.Path(readable=False),
    help="What PLAN needs more or less than this other plan.",
)
@click.option("--accept", metavar="FILE", type=click.Path(readable=False), help="Hold a filled accept sheet to PLAN.")
@click.option(
    "--seconds",
    "limit_s",
    type=click.FloatRange(0.1, 3600),
    default=60.0,
    show_default=True,
    help="Longest search for fewer boxes.",
)
@OUTPUT
def cables(  # noqa: PLR0913 - one for each option
    *,
    plan_file: str,
    form: Literal["text", "json", "csv", "xlsx", "html"],
    sheet: SheetName | None,
    spare: float,
    waste_m: float,
    series: Series | None,
    boxes_m: tuple[float, ...],
    label: str | None,
    label_sheet: str | None,
    prices: str | None,
    against: str | None,
    accept: str | None,
    limit_s: float,
    output: str | None,
) -> int:
    """List everything that PLAN needs: what to order, cut, label, plug and tick off.

    The text is the bill; its other sheets are had with --sheet, all of them with --format html, json or xlsx. Nothing
    is judged: that is what `check` does. Ctrl-C ends the search for fewer boxes and gives the best found.
    """
    chosen = Form(form, sheet, label_sheet, output)
    if accept is not None and against is not None:
        raise click.UsageError("--accept holds a sheet to one plan, --against a plan to another: take one of them.")
    refuse_odd(chosen, whole=accept is None and against is None)
    refuse_overwriting(output, [file for file in (plan_file, prices, against, accept) if file is not None])
    plan = _plan(plan_file)
    if accept is not None:
        write_acceptance(_accepted(plan, accept), chosen)
        return 0
    with Stopping() as stopping:
        request = Request(
            spare=spare,
            waste_m=waste_m,
            series=series,
            boxes_m=boxes_m,
            label=label,
            prices=_prices(prices),
            limit_s=limit_s,
            tell=stopping.tell,
            stop=stopping.asked,
        )
        own = _bill(plan, request)
        other = None if against is None else _bill(_plan(against), request)
    if other is None:
        write_bill(own, chosen)
    else:
        from netaudit.ordering.comparison import compare  # noqa: PLC0415 - a lone bill never pays for it

        write_comparison(compare(other, own), chosen)
    return STOPPED if stopping.pressed else 0


def _plan(file: str) -> Plan:
    from netaudit.plan.load import load  # noqa: PLC0415 - --help never pays for it

    announce(file, "reading")
    return load(file)


def _bill(plan: Plan, request: Request) -> Bill:
    from netaudit.ordering.bill import bill  # noqa: PLC0415 - --help never pays for it

    announce(plan.file, "counting")
    return bill(plan, request)


def _prices(file: str | None) -> tuple[StockItem, ...]:
    if file is None:
        return ()
    from netaudit.plan.sheets.prices import read_prices  # noqa: PLC0415 - a bill without prices never pays for it

    return read_prices(file)


def _accepted(plan: Plan, file: str) -> AcceptanceReport:
    """A filled sheet held to the plan."""
    from netaudit.calculations.run_lengths import with_run_lengths  # noqa: PLC0415 - a bill never pays for it
    from netaudit.network.topology import build_topology  # noqa: PLC0415 - as above
    from netaudit.ordering.acceptance import acceptance_sheet, judged  # noqa: PLC0415 - as above
    from netaudit.plan.sheets.acceptance import read_acceptance  # noqa: PLC0415 - as above

    whole = with_run_lengths(plan)
    return judged(whole, acceptance_sheet(whole, build_topology(whole)), read_acceptance(file), file)
