"""Every scenario by its name: each breaks one thing, and names the cause that a probe has to put first."""

from __future__ import annotations

import scenarios_links
import scenarios_roads
import scenarios_storage
from scenario import SCENARIOS

__all__ = ["SCENARIOS", "scenarios_links", "scenarios_roads", "scenarios_storage"]
