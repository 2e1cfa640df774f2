"""Tables of what is sold as they are shown."""

from __future__ import annotations

from netaudit.standards.views.view import View

VIEWS: tuple[View, ...] = (
    View(
        "Lengths in which cables are sold",
        "sold_lengths.csv",
        ("kind", "series", "length_m", "length_ft"),
        ("sold lengths", "lengths"),
        notes=(
            "A length of a plan is rounded up to the next one; the plan's own stock comes first",
            "Longer ones are made to order, in whole metres, or in whole feet where the series is in feet",
            "The series any is sold in metres everywhere",
        ),
    ),
    View(
        "Boxes and reels of cable",
        "box_sizes.csv",
        ("kind", "printed_m", "length_m", "length_ft"),
        ("boxes", "reels", "bulk cable"),
        notes=("A length that is printed on a box stands for the length that is in it",),
    ),
)
