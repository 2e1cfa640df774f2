"""The SMB client's table: three generations of the format as printed by the kernel's cifs_debug.c (4.x, 6.6, and the
current tree with the connection's ends of a patch on the mailing list); not taken from a machine."""

from ipaddress import ip_address
from pathlib import Path

import pytest
from spoiled import spoiled

from netaudit.machine.parse.linux.cifs import CifsChannel, CifsServer, cifs_servers

CAPTURES = Path(__file__).parents[3] / "captures" / "linux"
FILES = ("cifs-4.txt", "cifs-6.txt", "cifs-later.txt")
FAST, SLOW = ip_address("192.0.2.50"), ip_address("fd55::51")


def servers(file: str) -> tuple[CifsServer, ...]:
    return cifs_servers((CAPTURES / file).read_text())


def test_the_first_form_tells_address_and_state_and_its_credits_stand_above_it() -> None:
    other = ip_address("192.0.2.60")
    expected = (
        CifsServer(None, (FAST,), None, None, None, (CifsChannel(good=True, remote=FAST),), ()),
        CifsServer(None, (other,), "3.0.2", True, None, (CifsChannel(good=False, remote=other),), ()),
    )

    assert expected == servers("cifs-4.txt")


def test_the_second_form_tells_channels_signing_and_the_ports_that_the_server_offers() -> None:
    expected = CifsServer(
        host="vault",
        addresses=(FAST,),
        dialect="3.1.1",
        signing=True,
        encryption=False,
        channels=(CifsChannel(good=True, remote=FAST), CifsChannel(good=True), CifsChannel(good=False)),
        speeds=((FAST, 10_000_000_000), (SLOW, 1_000_000_000)),
    )

    assert (expected,) == servers("cifs-6.txt")


def test_the_latest_form_tells_both_ends_and_speeds_by_name() -> None:
    expected = CifsServer(
        host="vault.boathouse.example",
        addresses=(FAST,),
        dialect="3.1.1",
        signing=False,
        encryption=True,
        channels=(
            CifsChannel(good=True, remote=FAST, local=ip_address("198.51.100.21")),
            CifsChannel(good=True, remote=ip_address("fd55::50"), local=ip_address("fd55::11")),
            CifsChannel(good=False),
        ),
        speeds=((FAST, 10**10), (ip_address("fd55::50"), 2_500_000_000), (ip_address("192.0.2.52"), None)),
    )

    assert (expected,) == servers("cifs-later.txt")


def test_the_first_form_is_read_though_its_heading_is_missing() -> None:
    """With the credits of the first server right at the top, and with nothing above its name at all."""
    table = (CAPTURES / "cifs-4.txt").read_text().partition("Servers:\n")[2]
    bare = table.partition("\n")[2]
    first, other = servers("cifs-4.txt")

    assert [(first, other)] * 2 == [cifs_servers(text) for text in (table, bare + "Number of credits: 1 Dialect 0x311")]
    assert ["3.0.2", "2.0.2"] == [
        server.dialect for server in reversed(cifs_servers(f"Number of credits: 500 Dialect 0x202\n{bare}"))
    ]


def test_a_client_without_servers_has_none() -> None:
    assert () == cifs_servers("Display Internal CIFS Data Structures for Debugging\nServers: <none>\n")


@pytest.mark.parametrize("file", FILES)
def test_a_spoiled_table_never_raises_and_zero_is_no_speed(file: str) -> None:
    speeds = {
        speed
        for text in spoiled((CAPTURES / file).read_text())
        for server in cifs_servers(text)
        for _, speed in server.speeds
    }

    assert 0 not in speeds
