"""The NFS client's texts: format as printed by the kernel's net/sunrpc/sysfs.c, net/sunrpc/xprtsock.c and
fs/nfs/client.c, and as read by nfs-utils; not taken from a machine."""

from ipaddress import ip_address
from pathlib import Path

import pytest
from spoiled import spoiled

from netaudit.machine.parse.linux.nfs import (
    MountTransport,
    NfsServer,
    Transport,
    mount_transports,
    nfs_servers,
    transport,
)

CAPTURES = Path(__file__).parents[3] / "captures" / "linux"
STATS, SERVERS = ((CAPTURES / name).read_text() for name in ("mountstats.txt", "nfsfs-servers.txt"))
TEXTS = {
    "dstaddr": "192.0.2.50\n\0",
    "srcaddr": "198.51.100.21\n\0",
    "xprt_info": "last_used=4294\ncur_cong=0\nmain_xprt=1\nsrc_port=855\ntasks_queuelen=0\ndst_port=2049\n\0",
    "xprt_state": "state= CONNECTED  BOUND \n\0",
}


def test_a_transport_is_read_past_the_nul_at_its_end() -> None:
    expected = Transport(ip_address("192.0.2.50"), ip_address("198.51.100.21"), 2049, 855, connected=True)

    assert expected == transport(TEXTS)


def test_what_a_resting_transport_does_not_tell_is_unknown() -> None:
    expected = Transport(ip_address("192.0.2.50"), None, None, None, connected=False)

    assert expected == transport({"dstaddr": "192.0.2.50\n\0", "xprt_state": "state= BOUND \n\0"})
    assert Transport(None, None, None, None, None) == transport({})


def test_a_mount_has_a_line_for_each_of_its_connections() -> None:
    assert (MountTransport("tcp", 855), MountTransport("tcp", None)) == mount_transports(STATS, "/mnt/nfs")
    assert (MountTransport("udp", 700), MountTransport("rdma", None)) == mount_transports(STATS, "/mnt/nfs-old")
    assert () == mount_transports(STATS, "/mnt")


def test_a_connection_may_tell_no_more_than_its_port_and_stands_under_its_mount() -> None:
    xprt = "\txprt:\ttcp 855\n\txprt:\ttcp\n"

    assert (MountTransport("tcp", 855),) == mount_transports(
        f"{xprt}device vault:/data mounted on /mnt/nfs with fstype nfs4\n{xprt}", "/mnt/nfs"
    )


@pytest.mark.parametrize(("text", "port"), [("0", None), ("1", 1), ("65535", 65_535), ("65536", None)])
def test_a_port_is_a_number_of_16_bits_and_0_is_none(text: str, port: int | None) -> None:
    line = f"v4 c0000232 {int(text):x} 1 vault"

    assert port == transport({"xprt_info": f"dst_port={text}"}).remote_port
    assert ([] if port is None else [port]) == [server.port for server in nfs_servers(line)]


def test_a_server_is_read_in_the_order_of_the_network() -> None:
    expected = (
        NfsServer(ip_address("192.0.2.50"), 2049, "vault"),
        NfsServer(ip_address("fd55::50"), 20490, "vault6"),
    )

    assert expected == nfs_servers(SERVERS)


def test_spoiled_texts_never_raise_and_zero_is_no_port() -> None:
    ports = {each.port for text in spoiled(SERVERS) for each in nfs_servers(text)}
    ports |= {each.local_port or 1 for text in spoiled(STATS) for each in mount_transports(text, "/mnt/nfs")}
    ports |= {transport(dict.fromkeys(TEXTS, text)).local_port or 1 for text in spoiled(TEXTS["xprt_info"])}

    assert all(0 < port < 65_536 for port in ports)
