"""`netaudit cables`: what to order, cut, label, plug and tick off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, get_args

import click

from netaudit.cli.bill_forms import Form, FormName, refuse_odd, write_acceptance, write_bill, write_comparison
from netaudit.cli.output import OUTPUT, announce, refuse_overwriting
from netaudit.cli.quantity import Quantity, geometry, length_m, length_or_zero_m, pattern, share
from netaudit.cli.stopping import Stopping
from netaudit.cli.together import require_only
from netaudit.model.bill import Bill
from netaudit.model.moving import AcceptanceReport
from netaudit.model.plan import Plan, StockItem
from netaudit.ordering.request import Request, Series
from netaudit.report.bill.sheet import SheetName

if TYPE_CHECKING:
    from netaudit.report.bill.labels.geometry import LabelGeometry

STOPPED = 130
"""Exit code after Ctrl-C, also where the best found so far was written."""
BILLED = frozenset({"plan_file", "spare", "waste_m", "series", "boxes_m", "prices", "limit_s"})
"""Parameters that change what is ordered."""


@click.command(short_help="List what to order, cut and label.")
@click.argument("plan_file", metavar="PLAN", type=click.Path(readable=False))
@click.option(
    "--format",
    "form",
    type=click.Choice(get_args(FormName)),
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
    help="Spares of cords, modules, jacks and plugs; one of each at least.",
)
@click.option(
    "--waste",
    "waste_m",
    metavar="LENGTH",
    type=Quantity("length", length_or_zero_m),
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
    help="Size of box that is sold; repeatable. [default: those of stock, or 1000 ft]",
)
@click.option(
    "--label",
    metavar="PATTERN",
    type=Quantity("pattern", pattern),
    help="Text of labels, such as '{id} {near} > {far}'.",
)
@click.option(
    "--label-sheet",
    metavar="GEOMETRY",
    type=Quantity("geometry", geometry),
    help="Sheet of labels, such as '3x8 70x36 mm from 0x4.5 mm on a4'.",
)
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
    form: FormName,
    sheet: SheetName | None,
    spare: float,
    waste_m: float,
    series: Series | None,
    boxes_m: tuple[float, ...],
    label: str | None,
    label_sheet: LabelGeometry | None,
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
    if accept is not None:
        require_only("--accept", {"plan_file", "accept", "form", "output"})
    elif against is not None:
        require_only("--against", BILLED | {"against", "form", "output"})
    refuse_odd(chosen, whole=accept is None and against is None)
    refuse_overwriting(output, [file for file in (plan_file, prices, against, accept) if file is not None])
    plan = _plan(plan_file)
    if accept is not None:
        write_acceptance(_accepted(plan, accept), chosen)
        return 0
    with Stopping() as stopping:
        request = _request(
            spare=spare,
            waste_m=waste_m,
            series=series,
            boxes_m=boxes_m,
            label=label,
            prices=_prices(prices),
            limit_s=limit_s,
            tell=stopping.tell,
            stop=stopping.asked,
            searched=stopping.searched,
        )
        own = _bill(plan, request)
        other = None if against is None else _bill(_plan(against), request)
    if other is None:
        write_bill(own, chosen)
    else:
        from netaudit.ordering.comparison import compare  # noqa: PLC0415 - a lone bill never pays for it

        write_comparison(compare(other, own), chosen)
    return STOPPED if stopping.ended or own.stopped or (other is not None and other.stopped) else 0


def _request(**choices: Any) -> Request:
    """The choices of the caller; click's usage error where one makes no sense."""
    try:
        return Request(**choices)
    except ValueError as error:
        raise click.UsageError(str(error)) from None


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
    from netaudit.ordering.day.acceptance import accepted  # noqa: PLC0415 - a bill never pays for it
    from netaudit.plan.sheets.acceptance import read_acceptance  # noqa: PLC0415 - as above

    return accepted(plan, read_acceptance(file), file)
