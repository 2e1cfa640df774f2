"""What manages the network, by the state files of the two managers."""

from pathlib import Path

import pytest

from netaudit.machine.linux.managers import manager, parse_value

NETWORKMANAGER = "[device]\nmanaged=true\nconnection-uuid=00000000-0000-4000-8000-000000000044\nnm-owned=0\n"
"""Format of NetworkManager's run-time key file of a device; not taken from a machine."""
NETWORKD = "# This is private data. Do not parse.\nADMIN_STATE=configured\nOPER_STATE=routable\n"
"""Format of systemd-networkd's state file of a link; not taken from a machine."""


def write(run: Path, name: str, text: str) -> None:
    path = run / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)


def test_networkmanager_manages_a_device(tmp_path: Path) -> None:
    write(tmp_path, "NetworkManager/devices/2", NETWORKMANAGER)

    assert "networkmanager" == manager(tmp_path)


def test_networkd_manages_a_link(tmp_path: Path) -> None:
    write(tmp_path, "systemd/netif/links/2", NETWORKD)

    assert "networkd" == manager(tmp_path)


def test_a_manager_that_leaves_every_interface_alone_is_none(tmp_path: Path) -> None:
    write(tmp_path, "NetworkManager/devices/2", NETWORKMANAGER.replace("=true", "=false"))
    write(tmp_path, "systemd/netif/links/2", NETWORKD.replace("configured", "unmanaged"))

    assert manager(tmp_path) is None


def test_the_one_that_manages_is_told_where_both_run(tmp_path: Path) -> None:
    write(tmp_path, "NetworkManager/devices/2", NETWORKMANAGER.replace("=true", "=false"))
    write(tmp_path, "systemd/netif/links/2", NETWORKD)

    assert "networkd" == manager(tmp_path)


def test_without_either_there_is_none(tmp_path: Path) -> None:
    assert manager(tmp_path) is None


@pytest.mark.parametrize("junk", ["", "\0\0\0", "managed\n=true\n", "[managed=true", "managed = ", "=" * 100_000])
def test_a_file_of_rubbish_says_nothing(tmp_path: Path, junk: str) -> None:
    write(tmp_path, "NetworkManager/devices/2", junk)
    write(tmp_path, "NetworkManager/devices/3/managed", "a folder where a file should be")

    assert manager(tmp_path) is None


def test_a_value_stands_on_a_line_of_its_own() -> None:
    assert "true" == parse_value("a=1\n managed = true \nmanaged=false\n", "managed")
    assert parse_value("not-managed=true\nmanaged", "managed") is None
