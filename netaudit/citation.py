"""Where a figure comes from, and how far it may be trusted."""

from __future__ import annotations

from typing import Literal, NamedTuple

Standing = Literal["read", "secondary", "computed", "memory", "common practice", "plan"]
"""How a figure is known: read in the standard itself · secondary, in a text that quotes it · computed from
such figures · memory · common practice without a source · plan, it follows from the plan alone."""


class Citation(NamedTuple):
    """The document behind a limit, and its standing."""

    document: str
    """Name and edition of the document."""
    clause: str | None
    """Clause, table or page in it, where one is known."""
    standing: Standing
    """How the figure is known."""

    @property
    def may_fail(self) -> bool:
        """Whether a limit of this standing may fail a plan; a remembered or customary one may only warn."""
        return self.standing not in ("memory", "common practice")


PLAN = Citation("the plan itself", None, "plan")
"""The source of findings that need no published figure."""
OBSERVED = Citation("what this machine and the storage answered just now", None, "read")
"""The source of findings that rest on what a probe saw."""
