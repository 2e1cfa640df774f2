"""What the caller may choose about a bill."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf
from typing import Literal, get_args

from netaudit.model.plan import StockItem

Series = Literal["metric", "imperial"]


def _silent(_: str) -> None:
    """Tell nobody of the progress."""


def _nobody() -> None:
    """Tell nobody that the search is over."""


def _never() -> bool:
    """Nobody stops it."""
    return False


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """The choices, with what holds where nobody chooses."""

    spare: float = 0.1
    """Share of each row that is ordered on top, rounded up, one at least [0 to 10]."""
    waste_m: float = 0.5
    """Cable lost at each end of a run cut from a box [m]."""
    series: Series | None = None
    """Lengths in which cables are sold; None: metric where the plan's regime is iso, imperial where it is tia."""
    boxes_m: tuple[float, ...] = ()
    """Sizes of boxes that are sold [m]; empty: those of the stock, or else the usual box."""
    label: str | None = None
    """Pattern of every label whose cable has none of its own."""
    prices: tuple[StockItem, ...] = ()
    """Prices beside those of the plan's stock, which they override."""
    limit_s: float = 60.0
    """Time that may be spent on finding fewer boxes [s]."""
    tell: Callable[[str], None] = _silent
    """Told of progress, a line each."""
    stop: Callable[[], bool] = _never
    """Whether somebody wants the best found so far."""
    searched: Callable[[], None] = _nobody
    """Told that the search is over."""

    def __post_init__(self) -> None:
        """Refuse what no shop and no box can follow; ValueError names the choice and what would be right."""
        for name, value, most in (("spare", self.spare, 10.0), ("waste_m", self.waste_m, 1000.0)):
            if not 0 <= value <= most:
                raise ValueError(f"{name} {value}: from 0 to {most:g}")
        if any(not 0 < size_m < inf for size_m in self.boxes_m):
            raise ValueError(f"boxes_m {self.boxes_m}: each longer than 0 m")
        if not 0 <= self.limit_s < inf:
            raise ValueError(f"limit_s {self.limit_s}: 0 s or more")
        if self.series not in (None, *get_args(Series)):
            raise ValueError(f"series {self.series!r}: one of {', '.join(get_args(Series))}, or None")
