"""What the services of a storage are called."""

from __future__ import annotations

import pytest

from netaudit.model.services import NFS, SMB, SSH, service_name, service_text


@pytest.mark.parametrize(("number", "name"), [(22, "SSH"), (445, "SMB"), (2049, "NFS")])
def test_services_have_their_registered_ports(number: int, name: str) -> None:
    """IANA, Service Name and Transport Protocol Port Number Registry: ssh, microsoft-ds, nfs."""
    assert (name, f"{name} ({number})") == (service_name(number), service_text(number))
    assert number == {"SMB": SMB, "NFS": NFS, "SSH": SSH}[name]


def test_a_service_without_a_name_is_told_by_its_port() -> None:
    assert ("port 8445", "port 8445") == (service_name(8445), service_text(8445))
