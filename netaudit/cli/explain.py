"""`netaudit explain`: what a rule looks for, and how it strikes."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import Any

import click

from netaudit.audit import audit
from netaudit.cli.output import OUTPUT, write_text
from netaudit.diagnosis import diagnose
from netaudit.errors import InputError, Problem, nearest
from netaudit.model.diagnosis import Diagnosis
from netaudit.model.explanation import ChangedLine, Explanation, LiveExplanation, RuleOutline
from netaudit.model.finding import Finding
from netaudit.plan.load import loads
from netaudit.report import explanation as forms
from netaudit.report.probe.words import sentence
from netaudit.rules.catalogue import RULES as PLAN_RULES
from netaudit.rules.examples import example_of
from netaudit.rules.live import RULES as LIVE_RULES
from netaudit.rules.live.examples import example_of as live_example_of
from netaudit.rules.live.examples import healthy
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Any], ...] = (*PLAN_RULES, *LIVE_RULES)
"""Every rule, those on plans first."""


@click.command(short_help="Explain a rule.")
@click.argument("rule", required=False)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@OUTPUT
def explain(rule: str | None, form: str, output: str | None) -> None:
    """Tell what RULE looks for, why it matters, where its limits come from and what to do.

    A small plan in which it strikes is judged there and then, and once more with the fault cured; of a rule of probe it
    is a desk. Without RULE, every rule is told in a line.
    """
    if rule is None:
        outlines = [_outline(each) for each in RULES]
        rows = forms.outline_rows(outlines)
        json_text = forms.outlines_json(outlines)
    elif (named := _named(rule)).family == "live":
        seen = _seen(named)
        rows = forms.live_rows(seen)
        json_text = forms.live_json(seen)
    else:
        explained = _explained(named)
        rows = forms.explanation_rows(explained)
        json_text = forms.explanation_json(explained)
    if form == "json":
        write_text(json_text, output)
    elif output in (None, "-") and sys.stdout.isatty():
        forms.show_rows(rows, sys.stdout)
    else:
        write_text(forms.plain_rows(rows), output)


def _named(name: str) -> Rule[Any, Any]:
    """The rule of a name; raises InputError with those that come near where there is none."""
    rules = {rule.name: rule for rule in RULES}
    if name in rules:
        return rules[name]
    holding = [known for known in rules if name and name.casefold() in known]
    like = holding or [known for known in [nearest(name, rules)] if known]
    hint = f"did you mean {' or '.join(like)}?" if like else "`netaudit explain` lists them all"
    raise InputError([Problem("explain", f"{name!r} is no rule; {hint}")])


def _outline(rule: Rule[Any, Any]) -> RuleOutline:
    return RuleOutline(rule.name, rule.family, rule.severity, rule.what)


def _explained(rule: Rule[Any, Any]) -> Explanation:
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


def _seen(rule: Rule[Any, Any]) -> LiveExplanation:
    """A live rule with what is made of its desk, at fault and in order."""
    example = live_example_of(rule.name)
    struck, cured = diagnose(example.seen, example.expected), diagnose(*healthy())
    return LiveExplanation(
        outline=_outline(rule),
        why=rule.why,
        todo=rule.todo,
        sources=tuple(dict.fromkeys(rule.sources())),
        story=example.story,
        answer=sentence(struck.situation),
        findings=_own(rule, struck),
        cured_answer=sentence(cured.situation),
        left=_own(rule, cured),
    )


def _own(rule: Rule[Any, Any], diagnosis: Diagnosis) -> tuple[Finding, ...]:
    return tuple(finding for finding in diagnosis.findings if finding.rule == rule.name)


def _changed_lines(faulty: str, cured: str) -> Iterator[ChangedLine]:
    pairs = zip(faulty.splitlines(), cured.splitlines(), strict=True)
    for number, (was, now) in enumerate(pairs, 1):
        if was != now:
            yield ChangedLine(number, now.rstrip())
