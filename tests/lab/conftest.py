"""The lab is there for root on Linux, with the servers that it needs."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

SERVERS = {"smbd": "samba", "smbpasswd": "samba-common-bin", "smbnetfs": "smbnetfs"}
"""Programs to the Debian packages that bring them."""


def why_not() -> str | None:
    """Why the lab cannot be built on this machine."""
    if not sys.platform.startswith("linux"):
        return "the lab needs Linux"
    if os.geteuid() != 0:
        return "the lab needs root: it builds network namespaces"
    missing = [f"{name} (package {package})" for name, package in SERVERS.items() if shutil.which(name) is None]
    return f"the lab needs the server programs {', '.join(missing)}" if missing else None


@pytest.fixture(scope="session")
def media(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The folder that the lab's storage shares."""
    reason = why_not()
    if reason is not None:
        pytest.skip(reason)
    import servers

    folder = tmp_path_factory.mktemp("media")
    servers.fill(folder)
    yield folder
    shutil.rmtree(folder)


@pytest.fixture
def stage(media: Path, tmp_path: Path) -> Iterator[object]:
    """A stage with an empty room."""
    from stage import Stage

    made = Stage(tmp_path, media)
    try:
        yield made
    finally:
        made.close()
