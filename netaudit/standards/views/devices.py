"""Tables of what stands at the ends of cables, and of how it finds its way, as they are shown."""

from __future__ import annotations

from netaudit.standards.views.view import View

VIEWS: tuple[View, ...] = (
    View(
        "Length of made-up cables",
        "twinax_reach.csv",
        ("rate_bit_per_s", "kind", "phy", "reach_m"),
        ("twinax", "direct attach", "dac", "aoc", "reach"),
        {"phy": "phy", "rate": "rate_bit_per_s", "cable": "kind"},
        notes=("Only its maker limits an active optical cable",),
    ),
    View(
        "Form of modules",
        "module_forms.csv",
        ("rate_bit_per_s", "phy", "form"),
        ("modules", "cages", "transceivers"),
        {"phy": "phy", "rate": "rate_bit_per_s"},
    ),
    View("Modules in cages", "cages.csv", ("cage", "form", "fits"), ("cages", "modules", "sfp", "sfp+", "qsfp")),
    View(
        "Power of modules, cages and ports",
        "power.csv",
        ("kind", "form", "name", "process_nm", "typical_w", "most_w"),
        ("power", "watts"),
        {"phy": "name"},
        notes=("A level or class is what a cage gives; plan with the most",),
    ),
    View(
        "Host buses",
        "host_buses.csv",
        ("kind", "generation", "signal_bit_per_s", "practical_bit_per_s"),
        ("buses", "adapters"),
        {"bus": "kind"},
        notes=("PCI Express signals at this rate on each lane",),
    ),
    View(
        "Cables between a computer and its adapter",
        "host_cables.csv",
        ("kind", "generation", "bus_bit_per_s", "active", "reach_m", "signal_bit_per_s"),
        ("host cables", "buses"),
        {"bus": "kind", "cable": "kind"},
    ),
    View(
        "Cables between a computer and its adapter, whose length it is",
        "host_cables.csv",
        ("kind", "generation", "bus_bit_per_s", "active", "reach_m"),
        ("host cables",),
        {"cable": "kind"},
        source="length_source",
    ),
    View(
        "Cables that join the earths of their two ends",
        "earths.csv",
        ("kind", "joins_earths"),
        ("earths", "ground"),
        {"cable": "kind", "bus": "kind"},
    ),
    View(
        "Cost of a link in a spanning tree, long scale",
        "tree_costs.csv",
        ("rate_bit_per_s", "long_cost"),
        ("spanning tree", "stp", "rstp", "tree costs"),
        {"rate": "rate_bit_per_s"},
        source="long_source",
    ),
    View(
        "Cost of a link in a spanning tree, short scale",
        "tree_costs.csv",
        ("rate_bit_per_s", "short_cost"),
        ("spanning tree", "stp", "rstp", "tree costs"),
        {"rate": "rate_bit_per_s"},
        source="short_source",
    ),
    View(
        "Priority of a bridge that nobody set",
        "tree_priority.csv",
        ("default_priority",),
        ("spanning tree", "stp", "rstp", "bridge priority"),
    ),
    View(
        "What a system counts a way out by",
        "metrics.csv",
        ("system", "manager", "kind", "from_bit_per_s", "metric"),
        ("metrics", "service order", "windows", "linux", "macos"),
        notes=("The lowest number wins",),
    ),
)
