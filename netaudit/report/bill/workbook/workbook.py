"""The bill as a workbook of Office Open XML: a worksheet for each sheet, ready to filter, to fill in and to print."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING, NamedTuple

from netaudit.model.bill import Bill
from netaudit.report.bill.formulas import is_formula
from netaudit.report.bill.sheet import Cell, Column, Sheet
from netaudit.report.bill.sheets.every import sheets
from netaudit.report.bill.words import standing
from netaudit.report.bill.workbook.cells import (
    CENTIMETRES,
    GENERAL,
    MONEY,
    column_width,
    fitting,
    is_long,
    legal,
    lines_in,
    number_format,
)
from netaudit.report.words import title

if TYPE_CHECKING:
    from xlsxwriter.format import Format  # type: ignore[import-untyped]
    from xlsxwriter.workbook import Workbook  # type: ignore[import-untyped]
    from xlsxwriter.worksheet import Worksheet  # type: ignore[import-untyped]

OPTIONS = {"in_memory": True, "strings_to_formulas": False, "strings_to_numbers": False, "strings_to_urls": False}
CREATED = datetime(2000, 1, 1, tzinfo=UTC)
"""A date for every workbook, so that equal bills give equal bytes."""
A4 = 9
LINE_HEIGHT_PT = 15
LINES_AT_MOST = 12
"""Lines of a row that are shown; the rest of a longer cell is still in it."""
FOOTER_CHARACTERS = 100
AS_OF_WRITING = "Sums are as of writing. Prices typed here come back with: save this sheet as CSV, then --prices FILE."
HAIRLINE = {"bottom": 7, "bottom_color": "#A6A6A6", "valign": "top"}
HEAD = {"bold": True, "bottom": 1, "bottom_color": "#404040", "valign": "bottom"}
LEFT = {"align": "left", "indent": 1}
RIGHT = {"align": "right", "indent": 1}


class Look(NamedTuple):
    """The formats of one workbook."""

    text: Format
    wrapped: Format
    quoted: Format
    """For what looks like a formula, so that it stays text when somebody edits the cell."""
    numbers: dict[str, Format]
    """By the format of the number."""
    head: Format
    head_number: Format
    total: Format
    total_sum: Format
    sentence: Format


def as_xlsx(bill: Bill) -> bytes:
    """The whole workbook: every sheet that has rows, the bill always; equal bills give equal bytes."""
    import xlsxwriter  # type: ignore[import-untyped]  # noqa: PLC0415 - only a workbook pays for it

    buffer = BytesIO()
    book = xlsxwriter.Workbook(buffer, OPTIONS)
    book.set_properties({"title": title(bill.plan, bill.file), "created": CREATED})
    look = _look(book)
    for sheet in sheets(bill):
        if sheet.rows or sheet.name == "bill":
            worksheet = book.add_worksheet(sheet.name)
            fits = fitting(sheet)
            widths = _widths(fits, bill)
            _table(worksheet, fits, widths, look)
            _print_setup(worksheet, sheet, bill)
            if sheet.name == "bill":
                _foot(worksheet, fits, widths, bill, look)
    book.close()
    return buffer.getvalue()


def _look(book: Workbook) -> Look:
    cell = {**HAIRLINE, **LEFT}
    number = {**HAIRLINE, **RIGHT}
    return Look(
        text=book.add_format(cell),
        wrapped=book.add_format({**cell, "text_wrap": True}),
        quoted=book.add_format({**cell, "text_wrap": True, "quote_prefix": True}),
        numbers={name: book.add_format({**number, "num_format": name}) for name in (GENERAL, CENTIMETRES, MONEY)},
        head=book.add_format({**HEAD, **LEFT}),
        head_number=book.add_format({**HEAD, **RIGHT}),
        total=book.add_format({"bold": True, **LEFT}),
        total_sum=book.add_format({"bold": True, **RIGHT, "num_format": MONEY}),
        sentence=book.add_format({**LEFT, "text_wrap": True, "valign": "top"}),
    )


def _widths(sheet: Sheet, bill: Bill) -> tuple[int, ...]:
    """Width of each column [characters]."""
    totals = [total.amount for total in bill.totals] if sheet.name == "bill" else []
    return tuple(
        column_width(column, (*(row[place] for row in sheet.rows), *(totals if column.name == "sum" else ())))
        for place, column in enumerate(sheet.columns)
    )


def _table(worksheet: Worksheet, sheet: Sheet, widths: Sequence[int], look: Look) -> None:
    """Header and rows, the header frozen and with filters."""
    for place, (column, width) in enumerate(zip(sheet.columns, widths, strict=True)):
        worksheet.set_column(place, place, width)
        worksheet.write_string(0, place, column.name, look.head_number if column.number else look.head)
        _column(worksheet, place, column, [row[place] for row in sheet.rows], look)
    _heights(worksheet, sheet, widths)
    worksheet.freeze_panes(1, 0)
    worksheet.autofilter(0, 0, len(sheet.rows), len(sheet.columns) - 1)
    worksheet.hide_gridlines(2)


def _column(worksheet: Worksheet, place: int, column: Column, cells: Sequence[Cell], look: Look) -> None:
    """The cells of one column; text is always written as text."""
    number = look.numbers[number_format(column)]
    plain = look.wrapped if any(map(is_long, cells)) else look.text
    for row, cell in enumerate(cells, start=1):
        if cell is None:
            worksheet.write_blank(row, place, None, plain)
        elif isinstance(cell, str):
            worksheet.write_string(row, place, legal(cell), look.quoted if is_formula(cell) else plain)
        else:
            worksheet.write_number(row, place, cell, number)


def _heights(worksheet: Worksheet, sheet: Sheet, widths: Sequence[int]) -> None:
    """Rows of several lines are as high as those, within bounds: not every program fits them by itself."""
    long = [place for place, width in enumerate(widths) if any(is_long(row[place]) for row in sheet.rows)]
    for row, cells in enumerate(sheet.rows, start=1):
        texts = ((cell, widths[place]) for place in long if isinstance(cell := cells[place], str))
        lines = max((lines_in(text, width) for text, width in texts), default=1)
        if lines > 1:
            worksheet.set_row(row, LINE_HEIGHT_PT * min(LINES_AT_MOST, lines))


def _print_setup(worksheet: Worksheet, sheet: Sheet, bill: Bill) -> None:
    """Landscape A4, one page wide, the header on every page, the plan and the page's number at the foot.

    An ampersand begins a command in a footer: it is written twice, and apart from what the writer of workbooks would
    still take for a picture.
    """
    name = title(bill.plan, bill.file)[:FOOTER_CHARACTERS]
    shown = name.replace("&", "&&").replace("&G", "& G").replace("&[", "& [")
    worksheet.set_landscape()
    worksheet.set_paper(A4)
    worksheet.set_margins(left=0.4, right=0.4, top=0.75, bottom=0.75)
    worksheet.fit_to_pages(1, 0)
    worksheet.repeat_rows(0)
    worksheet.set_header(f'&L&"Calibri,Bold"{sheet.title}')
    worksheet.set_footer(f"&L{shown}&RPage &P of &N")


def _foot(worksheet: Worksheet, sheet: Sheet, widths: Sequence[int], bill: Bill, look: Look) -> None:
    """Totals below the table, in the columns they sum up, then what to know before ordering; a blank row apart."""
    names = [column.name for column in sheet.columns]
    row = len(sheet.rows) + 2
    for total in bill.totals:
        worksheet.write_string(row, names.index("price"), "total", look.total)
        worksheet.write_string(row, names.index("currency"), legal(total.currency), look.total)
        worksheet.write_number(row, names.index("sum"), total.amount, look.total_sum)
        row += 1
    for sentence in _sentences(bill):
        row += 1
        worksheet.merge_range(row, 0, row, len(names) - 1, "", look.sentence)
        worksheet.write_string(row, 0, sentence, look.sentence)
        worksheet.set_row(row, LINE_HEIGHT_PT * min(LINES_AT_MOST, lines_in(sentence, sum(widths))))


def _sentences(bill: Bill) -> Iterator[str]:
    yield AS_OF_WRITING
    yield from map(legal, standing(bill))
    yield from map(legal, bill.remarks)
