"""Of the verdicts on an example, a rule's own findings are told apart from those of other rules."""

from __future__ import annotations

from rooms import report_of, room

from netaudit.model.explanation import ChangedLine, Explanation, RuleOutline


def test_only_the_findings_of_the_rule_itself_are_its_own() -> None:
    struck = report_of(room(wall="5e"))
    outline = RuleOutline("category-too-low", "cabling", "fail", "Twisted pair.")
    explained = Explanation(outline, "Why.", "To do.", (), "text", struck, (ChangedLine(1, "line"),), report_of(room()))

    assert {"category-too-low", "path-below-target"} == {finding.rule for finding in struck.findings}
    assert ["category-too-low"] == [finding.rule for finding in explained.findings]
    assert () == explained.left
    assert explained.findings == explained._replace(cured=struck).left
