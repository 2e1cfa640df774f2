"""What a machine tells of itself for a first plan, as a value."""

from __future__ import annotations

from netaudit.model.survey import Survey


def test_a_survey_that_found_nothing_is_empty_and_no_error() -> None:
    survey = Survey("cut-1", "linux", {})

    assert ((), {}, None, ()) == (survey.gateways, survey.storages, survey.manager, survey.service_order)
