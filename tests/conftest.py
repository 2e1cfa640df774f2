"""What every test may use: texts that are compared whole, and a way to draw them anew."""

from __future__ import annotations

import signal
from collections.abc import Callable
from pathlib import Path

import pytest

EXPECTED = Path(__file__).parent / "expected"


def pytest_configure() -> None:
    """Let Ctrl-C reach what the tests start, even where they run in the background of a shell that keeps it from them."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="write the expected texts anew instead of comparing them")


@pytest.fixture
def expect(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Compares a text with the file of that name under tests/expected, or writes it with --update."""

    def compare(name: str, text: str) -> None:
        file = EXPECTED / name
        if request.config.getoption("--update"):
            file.write_text(text, encoding="utf-8")
        assert file.read_text(encoding="utf-8") == text

    return compare
