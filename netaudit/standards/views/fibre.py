"""Tables of fibre as they are shown."""

from __future__ import annotations

from netaudit.standards.views.view import View

VIEWS: tuple[View, ...] = (
    View(
        "Reach over fibre",
        "fibre_reach.csv",
        ("phy", "grade", "reach_m", "possible_m"),
        ("fibre", "fiber", "multimode", "singlemode", "reach"),
        {"phy": "phy", "grade": "grade"},
        notes=("Promised up to the reach; up to the possible length on a link engineered for it",),
    ),
    View(
        "Loss that a channel of fibre may have",
        "fibre_reach.csv",
        ("phy", "grade", "window_nm", "loss_db", "possible_loss_db"),
        ("fibre loss", "loss budget", "fibre", "fiber"),
        {"phy": "phy", "grade": "grade"},
        source="loss_source",
        notes=("Length and loss are limits of their own: a channel must keep both",),
    ),
    View(
        "The most that fibre loses",
        "fibre_attenuation.csv",
        ("grade", "window_nm", "worst_db_per_km"),
        ("attenuation", "fibre loss", "loss budget"),
        {"grade": "grade"},
    ),
    View(
        "What decent fibre loses",
        "fibre_attenuation.csv",
        ("grade", "window_nm", "typical_db_per_km"),
        ("attenuation", "fibre loss"),
        {"grade": "grade"},
        source="typical_source",
    ),
    View(
        "The most that fibre loses by another document",
        "fibre_attenuation.csv",
        ("grade", "window_nm", "other_db_per_km"),
        ("attenuation", "fibre loss"),
        {"grade": "grade"},
        source="other_source",
    ),
    View(
        "The most that a joint of fibre loses",
        "joints.csv",
        ("joint", "worst_db"),
        ("joints", "splices", "fibre loss", "loss budget"),
        whole_for=("fibre",),
        notes=("A pair is two mated connectors; the plugs at the two ends do not count",),
    ),
    View(
        "What a decent joint of fibre loses",
        "joints.csv",
        ("joint", "typical_db"),
        ("joints", "splices", "fibre loss"),
        whole_for=("fibre",),
        source="typical_source",
    ),
    View("Cores of fibre", "fibre_cores.csv", ("grade", "core_um"), ("cores",), {"grade": "grade"}),
    View(
        "Loss from a wider core into a narrower one",
        "core_joints.csv",
        ("wider_um", "narrower_um", "loss_db"),
        ("cores", "joints"),
    ),
    View(
        "Optical modules",
        "optics.csv",
        ("phy", "connector", "fibres", "partner"),
        ("optics", "modules", "transceivers"),
        {"phy": "phy"},
        notes=("The partner is the layer that the other end needs, where it is another one",),
    ),
)
