"""Tables of twisted pair as they are shown."""

from __future__ import annotations

from netaudit.standards.views.view import View

REACH_NOTE = "Verdicts count on what is assured; up to the possible length it works under conditions; - is no length"

VIEWS: tuple[View, ...] = (
    View(
        "Reach over twisted pair",
        "copper_reach.csv",
        ("phy", "category", "screened", "assured_m", "possible_m"),
        ("copper", "twisted pair", "utp", "reach"),
        {"phy": "phy", "category": "category"},
        notes=(REACH_NOTE,),
    ),
    View(
        "Connections in a channel of twisted pair",
        "connections.csv",
        ("phy", "most_connections"),
        ("connections", "connectors", "panels"),
        {"phy": "phy"},
        notes=("Each outlet or panel port on the way is a connection; the plugs at the two ends do not count",),
    ),
    View(
        "Cable and cords of a channel, as solid cable",
        "cord_budgets.csv",
        ("regime", "phy", "solid_equivalent_m"),
        ("cords", "patch cords", "patch cables"),
        {"phy": "phy"},
    ),
    View(
        "Loss of stranded cords against solid cable",
        "cords.csv",
        ("regime", "gauge_awg", "loss_factor"),
        ("cords", "patch cords", "patch cables"),
        whole_for=("copper",),
        notes=("A metre of cord counts as this many metres of solid cable",),
    ),
    View(
        "Solid cable in warm air",
        "temperature.csv",
        ("regime", "screened", "from_c", "to_c", "fixed_at_from_m", "shorter_m_per_c"),
        ("temperature", "warmth", "heat", "ambient"),
        whole_for=("copper",),
    ),
    View(
        "Conductors of every category",
        "conductors.csv",
        ("conductor",),
        ("conductors", "cca", "copper-clad aluminium"),
    ),
    View(
        "Categories that have a screen by construction",
        "screened_categories.csv",
        ("category", "connectors", "rj45_class"),
        ("screens", "screened", "shields"),
        {"category": "category"},
        notes=("With plain RJ45 at the ends of such a cable a channel is of the class given, at most",),
    ),
    View(
        "Modules for twisted pair",
        "copper_modules.csv",
        ("phy", "form", "cage_level", "reach_m"),
        ("modules", "transceivers"),
        {"phy": "phy"},
    ),
)
