"""`netaudit explain`: what a rule looks for, and how it strikes."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import Any

import click

from netaudit.audit import audit
from netaudit.cli.output import OUTPUT, write_text
from netaudit.errors import InputError, Problem, nearest
from netaudit.model.explanation import ChangedLine, Explanation, RuleOutline
from netaudit.plan.load import loads
from netaudit.report import explanation as forms
from netaudit.rules.catalogue import RULES
from netaudit.rules.examples import example_of
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule


@click.command(short_help="Explain a rule.")
@click.argument("rule", required=False)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@OUTPUT
def explain(rule: str | None, form: str, output: str | None) -> None:
    """Tell what RULE looks for, why it matters, where its limits come from and what to do.

    A small plan in which it strikes is judged there and then, and once more with the fault cured. Without RULE, every
    rule is told in a line.
    """
    if rule is None:
        outlines = [_outline(each) for each in RULES]
        rows = forms.outline_rows(outlines)
        json_text = forms.outlines_json(outlines)
    else:
        explained = _explained(_named(rule))
        rows = forms.explanation_rows(explained)
        json_text = forms.explanation_json(explained)
    if form == "json":
        write_text(json_text, output)
    elif output in (None, "-") and sys.stdout.isatty():
        forms.show_rows(rows, sys.stdout)
    else:
        write_text(forms.plain_rows(rows), output)


def _named(name: str) -> Rule[Any, Facts]:
    """The rule of a name; raises InputError with those that come near where there is none."""
    rules = {rule.name: rule for rule in RULES}
    if name in rules:
        return rules[name]
    holding = [known for known in rules if name and name.casefold() in known]
    like = holding or [known for known in [nearest(name, rules)] if known]
    hint = f"did you mean {' or '.join(like)}?" if like else "`netaudit explain` lists them all"
    raise InputError([Problem("explain", f"{name!r} is no rule; {hint}")])


def _outline(rule: Rule[Any, Facts]) -> RuleOutline:
    return RuleOutline(rule.name, rule.family, rule.severity, rule.what)


def _explained(rule: Rule[Any, Facts]) -> Explanation:
    """A rule with the verdicts on its example, faulty and cured."""
    example = example_of(rule.name)
    file = f"{rule.name}.yaml"
    return Explanation(
        outline=_outline(rule),
        why=rule.why,
        todo=rule.todo,
        sources=tuple(dict.fromkeys(rule.sources())),
        example=example.text,
        struck=audit(loads(example.text, file)),
        cure=tuple(_changed_lines(example.text, example.cured)),
        cured=audit(loads(example.cured, file)),
    )


def _changed_lines(faulty: str, cured: str) -> Iterator[ChangedLine]:
    pairs = zip(faulty.splitlines(), cured.splitlines(), strict=True)
    for number, (was, now) in enumerate(pairs, 1):
        if was != now:
            yield ChangedLine(number, now.rstrip())
