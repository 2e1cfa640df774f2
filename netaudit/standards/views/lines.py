"""Tables of loss, crosstalk, delay and resistance of twisted pair as they are shown."""

from __future__ import annotations

from netaudit.standards.views.view import View

VIEWS: tuple[View, ...] = (
    View(
        "Insertion loss of cable: root x sqrt f + linear x f + inverse / sqrt f, f in MHz",
        "cable_loss.csv",
        (
            "regime",
            "category",
            "channel_class",
            "from_mhz",
            "to_mhz",
            "root_db_per_100_m",
            "linear_db_per_100_m",
            "inverse_db_per_100_m",
        ),
        ("insertion loss", "copper loss"),
        notes=("At 20 °C",),
    ),
    View(
        "Insertion loss of a channel: share x cable + connections x root x sqrt f + deviation x f^1.5",
        "channel_loss.csv",
        ("part", "regime", "category", "cable_share", "connections", "connector_root_db", "deviation_db"),
        ("insertion loss", "copper loss"),
    ),
    View(
        "Length equations: solid cable = constant - deducted - cords x factor - cable behind a consolidation point",
        "length_equations.csv",
        ("category", "channel_class", "layout", "constant_m", "deducted_m"),
        ("length equations", "lengths"),
        {"category": "category"},
    ),
    View(
        "Crosstalk that cable and a connection keep: it falls by the slope with ten times the frequency",
        "crosstalk.csv",
        (
            "quantity",
            "category",
            "from_mhz",
            "to_mhz",
            "cable_at_100_mhz_db",
            "cable_slope_db_per_decade",
            "connector_at_100_mhz_db",
            "connector_slope_db_per_decade",
            "channel_connections",
            "link_connections",
        ),
        ("crosstalk", "next", "acr-f"),
        notes=("Cable and connections add up as voltages",),
    ),
    View(
        "Lines of crosstalk and return loss: level - slope x lg (f / at), and at most the cap",
        "limit_lines.csv",
        (
            "quantity",
            "part",
            "regime",
            "category",
            "from_mhz",
            "to_mhz",
            "level_db",
            "at_mhz",
            "slope_db_per_decade",
            "most_db",
        ),
        ("return loss", "alien crosstalk", "crosstalk", "psanext"),
    ),
    View(
        "Delay and skew: cable + root / sqrt f for each 100 m, and so much a connection",
        "delays.csv",
        (
            "quantity",
            "categories",
            "part",
            "cable_m",
            "cable_ns_per_100_m",
            "cable_root_ns_per_100_m",
            "connections",
            "connector_ns",
        ),
        ("delay", "skew", "nvp"),
    ),
    View(
        "Resistance of a solid copper conductor at 20 °C",
        "conductor_resistance.csv",
        ("gauge_awg", "resistance_ohm_per_km"),
        ("resistance", "awg", "loop"),
    ),
    View(
        "The most resistance at 20 °C",
        "resistance_limits.csv",
        ("part", "what", "most_ohm", "most_ohm_per_km", "most_percent"),
        ("resistance", "loop"),
        notes=("Of two figures the greater counts",),
    ),
)
