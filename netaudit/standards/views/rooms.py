"""Tables of racks and rooms as they are shown."""

from __future__ import annotations

from netaudit.standards.views.view import View

VIEWS: tuple[View, ...] = (
    View(
        "What a cable needs beyond its route",
        "run_allowances.csv",
        ("place", "part", "cable", "length_mm"),
        ("cable runs", "slack", "service loop", "drop", "routes"),
        notes=(
            "A length that a plan does not give is worked out with these, each part of it rounded up to the centimetre",
            "The drop to a rack is what the units of the rack leave of the height of the ceiling",
            "Each end in a rack goes from the middle of its device to the side of the rack: half a panel's width",
            "A service loop is left where a cable is terminated in place; a plug has slack instead",
        ),
    ),
)
