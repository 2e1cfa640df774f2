"""What tests of drafts share."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.errors import InputError
from netaudit.plan.drafting.interview import answers_in


@pytest.fixture
def refused() -> Callable[[str], list[str]]:
    """Every problem of a file of answers, as it is printed, without the file."""

    def told(text: str) -> list[str]:
        with pytest.raises(InputError) as caught:
            answers_in(text, "room.yaml")
        return [str(problem).removeprefix("room.yaml:") for problem in caught.value.problems]

    return told
