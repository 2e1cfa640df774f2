"""A bill as plain text for pipes and files: stable, unwrapped, without colour."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.bill import Bill
from netaudit.report.bill.sections import sections
from netaudit.report.bill.sheet import Sheet
from netaudit.report.bill.sheets.cells import in_words
from netaudit.report.bill.words import MORE, nothing, sentence, standing
from netaudit.report.columns import aligned
from netaudit.report.words import title


def plain(bill: Bill) -> str:
    """The whole bill; ends with a line feed."""
    return "".join(f"{line}\n" for line in _lines(bill))


def _lines(bill: Bill) -> Iterator[str]:
    yield sentence(bill)
    yield from standing(bill)
    yield ""
    yield title(bill.plan, bill.file)
    for section in sections(bill):
        yield ""
        yield section.title
        if section.rows:
            head = [[column.name for column in section.columns]] if section.headed else []
            yield from (f"  {line}" for line in aligned([*head, *section.rows]))
        yield from (f"  {line}" for line in section.lines)
    yield ""
    yield MORE


def plain_sheet(sheet: Sheet) -> str:
    """One sheet; ends with a line feed."""
    if not sheet.rows:
        return f"{nothing(sheet)}\n"
    rows = [[column.name for column in sheet.columns], *([_flat(in_words(cell)) for cell in row] for row in sheet.rows)]
    return "".join(f"{line}\n" for line in (sheet.title, *aligned(rows)))


def _flat(text: str) -> str:
    """A text on the line of its row, its letters and blanks as they are."""
    return " ".join(text.expandtabs(1).splitlines())
