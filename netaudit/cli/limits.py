"""`netaudit limits`: the published limits, each with its source."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from netaudit.cli.output import OUTPUT, write_text

if TYPE_CHECKING:
    from netaudit.model.limits import LimitAnswer, LimitTable, Topic


@click.command(short_help="Show the published limits.")
@click.argument("words", metavar="[WORD...]", nargs=-1)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@OUTPUT
def limits(words: Sequence[str], form: str, output: str | None) -> None:
    """Show the published limits about a WORD, or what several have in common: how far, with what, and who says so.

    A WORD is a rate (10G), a physical layer (10GBASE-T), a category (cat6), a grade of fibre (OM4), a cable or bus
    (twinax, thunderbolt), a subject (cords, power, spanning tree) or `rules`. Without a WORD: all that can be asked.
    """
    from netaudit.report.limits import as_json, plain, show  # noqa: PLC0415 - --help never pays for it

    answer = _answer(words)
    if form == "json":
        write_text(as_json(answer), output)
    elif output in (None, "-") and sys.stdout.isatty():
        show(answer, sys.stdout)
    else:
        write_text(plain(answer), output)


def _answer(words: Sequence[str]) -> LimitAnswer:
    from netaudit.model.limits import LimitAnswer  # noqa: PLC0415 - --help never pays for it
    from netaudit.standards.find import find, index  # noqa: PLC0415 - as above

    if not words:
        from netaudit.standards.overview import overview  # noqa: PLC0415 - as above

        return LimitAnswer((), index(), (overview(),))
    from netaudit.standards.published import in_all, merged  # noqa: PLC0415 - as above

    topics = find(words)
    of_kind: dict[str, list[Sequence[LimitTable]]] = {}
    for topic in topics:
        of_kind.setdefault(topic.kind, []).append(_tables(topic))
    tables = in_all([merged(answers) for answers in of_kind.values()])
    return LimitAnswer(tuple(topic.word for topic in topics), (), tables)


def _tables(topic: Topic) -> Sequence[LimitTable]:
    from netaudit.standards.find import RULES  # noqa: PLC0415 - --help never pays for it

    if topic == RULES:
        return (_rules(),)
    from netaudit.calculations.limit_tables import computed  # noqa: PLC0415 - rules never pay for it
    from netaudit.standards.published import published  # noqa: PLC0415 - as above

    return (*published(topic), *computed(topic))


def _rules() -> LimitTable:
    """Every rule with each source of its limits."""
    from netaudit.model.limits import Column, LimitRow, LimitTable  # noqa: PLC0415 - other topics never pay for it
    from netaudit.rules.catalogue import RULES  # noqa: PLC0415 - as above

    rows = (
        LimitRow((rule.name, rule.severity, rule.family), source)
        for rule in RULES
        for source in dict.fromkeys(rule.sources())
    )
    columns = (Column("rule", None), Column("severity", None), Column("family", None))
    return LimitTable("Rules, and where their limits come from", columns, tuple(rows))
