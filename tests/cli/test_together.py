"""Options that another one would leave without effect are refused, and those that fit are not."""

from __future__ import annotations

import click
import pytest

from netaudit.cli.together import require_only


@click.command()
@click.option("--box", "boxes", multiple=True)
@click.option("--label", default="id")
@click.option("--accept")
def order(boxes: tuple[str, ...], label: str, accept: str | None) -> None:
    """A command whose one option goes with none of the others."""
    if accept is not None:
        require_only("--accept", {"accept"})


def call(*arguments: str) -> None:
    """Call it as the command line does."""
    order.main(list(arguments), standalone_mode=False)


def test_what_would_have_no_effect_is_named() -> None:
    with pytest.raises(click.UsageError, match="--accept goes without --box and --label: leave one of them out"):
        call("--accept", "x.csv", "--label", "id", "--box", "10 m")


def test_defaults_are_nobodys_choice() -> None:
    call("--accept", "x.csv")
    call("--box", "10 m")
