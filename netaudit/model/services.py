"""The services by which storages serve files: their ports, and what people call them."""

from __future__ import annotations

SMB, NFS, SSH = 445, 2049, 22
"""TCP ports of SMB, NFS and SSH: IANA, Service Name and Transport Protocol Port Number Registry."""
_NAMES = {SMB: "SMB", NFS: "NFS", SSH: "SSH"}


def service_name(port: int) -> str:
    """A service by its usual name alone: SMB, port 8445."""
    return _NAMES.get(port, f"port {port}")


def service_text(port: int) -> str:
    """A service by its usual name with its port: SMB (445), port 8445."""
    return f"{_NAMES[port]} ({port})" if port in _NAMES else f"port {port}"
