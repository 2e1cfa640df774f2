"""What `netaudit cables` writes, in each of its forms."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Literal, NamedTuple

import click

from netaudit.cli.output import write_bytes, write_text
from netaudit.model.bill import Bill
from netaudit.model.comparison import Comparison
from netaudit.model.moving import AcceptanceReport
from netaudit.report.bill.sheet import SheetName

if TYPE_CHECKING:
    from netaudit.report.bill.labels.geometry import LabelGeometry


FormName = Literal["text", "json", "csv", "xlsx", "html"]


class Form(NamedTuple):
    """How the answer is written."""

    form: FormName
    sheet: SheetName | None
    label_sheet: LabelGeometry | None
    """Geometry of the sheet of labels."""
    output: str | None

    @property
    def shown(self) -> bool:
        """Whether the answer is text for a terminal."""
        return self.form == "text" and self.output in (None, "-") and sys.stdout.isatty()


def refuse_odd(form: Form, *, whole: bool) -> None:
    """Raise click's usage error for options that would be ignored; `whole` where the answer is a bill."""
    if not whole and (form.sheet is not None or form.form not in ("text", "json")):
        raise click.UsageError("--accept and --against answer as text or json.")
    if form.sheet is not None and form.form in ("json", "xlsx"):
        raise click.UsageError(f"--format {form.form} holds every sheet: leave --sheet out, or take text or csv.")
    if form.sheet not in (None, "labels") and form.form == "html":
        raise click.UsageError(
            "--format html holds every sheet: leave --sheet out; only labels have a page of their own."
        )
    if form.label_sheet is not None and (form.form, form.sheet) != ("html", "labels"):
        raise click.UsageError("--label-sheet is for --format html --sheet labels.")
    if form.form == "xlsx" and form.output in (None, "-") and sys.stdout.isatty():
        raise click.UsageError("--format xlsx is no text: name a file with --output.")


def write_bill(bill: Bill, form: Form) -> None:
    """Write a bill, or the one sheet of it that was asked for."""
    if form.shown:
        _show(bill, form.sheet)
    elif form.form == "xlsx":
        from netaudit.report.bill.workbook.workbook import as_xlsx  # noqa: PLC0415 - other forms never pay for it

        write_bytes(as_xlsx(bill), form.output)
    elif form.form == "csv":
        from netaudit.report.bill.sheets.every import sheet  # noqa: PLC0415 - as above
        from netaudit.report.bill.table_csv import as_csv  # noqa: PLC0415 - as above

        write_bytes(as_csv(sheet(bill, form.sheet or "bill")).encode(), form.output)
    else:
        write_text(_written(bill, form), form.output)


def _show(bill: Bill, name: SheetName | None) -> None:
    from netaudit.report.bill.console import show, show_sheet  # noqa: PLC0415 - pipes never pay for it

    if name is None:
        show(bill, sys.stdout)
        return
    from netaudit.report.bill.sheets.every import sheet  # noqa: PLC0415 - as above

    show_sheet(sheet(bill, name), sys.stdout)


def _written(bill: Bill, form: Form) -> str:
    if form.form == "json":
        from netaudit.report.bill.data.bill import as_json  # noqa: PLC0415 - other forms never pay for it

        return as_json(bill)
    if form.form == "html":
        return _page(bill, form)
    if form.sheet is None:
        from netaudit.report.bill.plain import plain  # noqa: PLC0415 - as above

        return plain(bill)
    from netaudit.report.bill.plain import plain_sheet  # noqa: PLC0415 - as above
    from netaudit.report.bill.sheets.every import sheet  # noqa: PLC0415 - as above

    return plain_sheet(sheet(bill, form.sheet))


def _page(bill: Bill, form: Form) -> str:
    if form.sheet is None:
        from netaudit.report.bill.page.page import page  # noqa: PLC0415 - other forms never pay for it

        return page(bill)
    from netaudit.report.bill.labels.geometry import LabelGeometry  # noqa: PLC0415 - as above
    from netaudit.report.bill.labels.page import label_page  # noqa: PLC0415 - as above

    return label_page(bill.labels, form.label_sheet or LabelGeometry())


def write_acceptance(report: AcceptanceReport, form: Form) -> None:
    """Write what a filled sheet says of its plan."""
    if form.form == "json":
        from netaudit.report.acceptance.data import as_json  # noqa: PLC0415 - text never pays for it

        write_text(as_json(report), form.output)
        return
    from netaudit.report.acceptance.plain import plain  # noqa: PLC0415 - as above

    write_text(plain(report), form.output)


def write_comparison(comparison: Comparison, form: Form) -> None:
    """Write what one plan needs more or less than another."""
    if form.form == "json":
        from netaudit.report.comparison.data import as_json  # noqa: PLC0415 - text never pays for it

        write_text(as_json(comparison), form.output)
        return
    from netaudit.report.comparison.plain import plain  # noqa: PLC0415 - as above

    write_text(plain(comparison), form.output)
