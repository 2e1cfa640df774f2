"""Every table as it is shown, in the order in which an answer shows them."""

from __future__ import annotations

from netaudit.standards.views import copper, devices, fibre, lines, rooms, sold
from netaudit.standards.views.view import View

PHYSICAL_LAYERS = View(
    "Physical layers, with rate, medium and clause",
    "phys.csv",
    ("name", "rate_bit_per_s", "medium", "clause"),
    ("physical layers", "phys", "ethernet"),
    {"phy": "name", "rate": "rate_bit_per_s"},
    notes=("The clause is of IEEE 802.3",),
)

VIEWS: tuple[View, ...] = (
    *copper.VIEWS,
    *fibre.VIEWS,
    *devices.VIEWS,
    PHYSICAL_LAYERS,
    *rooms.VIEWS,
    *sold.VIEWS,
    *lines.VIEWS,
)
