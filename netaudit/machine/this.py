"""Which machine this is."""

from __future__ import annotations

import sys

from netaudit.errors import MachineError
from netaudit.machine.questions import Machine


def this_machine() -> Machine:
    """The machine that the program runs on; raises MachineError where its system is none of the three."""
    if sys.platform.startswith("linux"):
        from netaudit.machine.linux.system import Linux  # noqa: PLC0415 - one system, and only where it is asked

        return Linux()
    if sys.platform == "darwin":
        from netaudit.machine.macos.system import MacOS  # noqa: PLC0415 - as above

        return MacOS()
    if sys.platform == "win32":
        from netaudit.machine.windows.system import Windows  # noqa: PLC0415 - as above

        return Windows()
    raise MachineError(f"this machine runs {sys.platform}; a probe needs Linux, macOS or Windows")
