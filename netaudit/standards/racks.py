"""The standard rack: how high its units are."""

from __future__ import annotations

from netaudit.citation import Citation

RACK_UNIT_MM = 44.45
"""Height of a rack unit [mm]."""
RACK_UNIT = Citation(
    "EIA-310 and IEC 60297, as given by audiorax.com/rack-rail-hole-spacing-explained",
    "a rack unit is 44.45 mm (1.75 in) high",
    "secondary",
)
