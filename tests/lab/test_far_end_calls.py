"""Single questions to the far end, asked of real kernels and a real file server in a small room of their own.

A station `edit` with one port, a bridge `sw` as its switch, a storage `store` with two ports that also forwards to a
host `far` behind a narrower link, and a stranger `dup`.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import os
import pickle
import shutil
import socket
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from ipaddress import IPv4Address, ip_address
from pathlib import Path

import pytest

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine import arp, lldp, smb
from netaudit.machine.clock import Deadline, pause
from netaudit.machine.knocking import knocks
from netaudit.machine.linux import frames, routers
from netaudit.model.machine_state import Endpoint, Interface, Route
from netaudit.model.observation import FrameTest, Offer, SmbFacts, SwitchPort
from netaudit.model.vocabulary import Address

LAB = sys.platform.startswith("linux") and os.geteuid() == 0 and shutil.which("ip") is not None
pytestmark = pytest.mark.skipif(not LAB, reason="builds network namespaces: needs Linux, root and the command ip")

NAME = f"NC{os.getpid()}"
FAST, SLOW, FAR, NOBODY = (IPv4Address(each) for each in ("10.77.20.10", "10.77.20.20", "10.77.30.9", "10.77.20.99"))
FAST_6, FAR_6 = ip_address("fd77:20::10"), ip_address("fd77:30::9")
MACS = {
    "fast": "02:00:5e:77:00:10",
    "slow": "02:00:5e:77:00:20",
    "twin": "02:00:5e:77:00:30",
    "en5": "02:00:5e:77:00:11",
}
SWITCH_MAC = "02:00:5e:77:00:01"
ROOM = f"""
link add en5 netns {NAME}edit address {MACS["en5"]} mtu 9000 type veth peer name p-en5 mtu 9000 netns {NAME}sw
link add fast netns {NAME}store address {MACS["fast"]} mtu 9000 type veth peer name p-fast mtu 9000 netns {NAME}sw
link add slow netns {NAME}store address {MACS["slow"]} mtu 9000 type veth peer name p-slow mtu 9000 netns {NAME}sw
link add twin netns {NAME}dup address {MACS["twin"]} mtu 9000 type veth peer name p-twin mtu 9000 netns {NAME}sw
link add out netns {NAME}store mtu 1500 type veth peer name in mtu 1500 netns {NAME}far
"""
INSIDE = {
    "sw": """
link add br0 mtu 9000 type bridge
link set br0 up
link set p-en5 master br0 up
link set p-fast master br0 up
link set p-slow master br0 up
link set p-twin master br0 up
""",
    "store": """
link set lo up
link set fast up
link set slow up
link set out up
address add 10.77.20.10/24 dev fast
address add 10.77.20.20/24 dev slow
address add 10.77.30.1/24 dev out
address add fd77:20::10/64 dev fast nodad
address add fd77:30::1/64 dev out nodad
""",
    "far": """
link set in up
address add 10.77.30.9/24 dev in
address add fd77:30::9/64 dev in nodad
route add default via 10.77.30.1
-6 route add default via fd77:30::1
""",
    "edit": """
link set lo up
link set en5 up
address add 10.77.20.11/24 dev en5
address add fd77:20::11/64 dev en5 nodad
route add 10.77.30.0/24 via 10.77.20.10
-6 route add fd77:30::/64 via fd77:20::10
neighbour add 10.77.20.99 lladdr 02:00:5e:77:00:99 dev en5
route add prohibit 198.51.100.0/24
""",
    "dup": "link set twin up\n",
}
ROUTE = Route("en5")


def ip(*words: str, batch: str | None = None, namespace: str | None = None) -> None:
    where = [] if namespace is None else ["-netns", NAME + namespace]
    how = list(words) if batch is None else ["-batch", "-"]
    plain = None if batch is None else batch.replace("-6 route", "route").encode()
    command = shutil.which("ip") or "ip"
    subprocess.run([command, *where, *how], input=plain, check=True, capture_output=True)


@contextmanager
def inside(namespace: str) -> Iterator[None]:
    """This thread in a namespace of the room."""
    libc = ctypes.CDLL(None, use_errno=True)
    here, there = (
        os.open("/proc/thread-self/ns/net", os.O_RDONLY),
        os.open(f"/run/netns/{NAME}{namespace}", os.O_RDONLY),
    )
    try:
        assert 0 == libc.setns(there, 0), os.strerror(ctypes.get_errno())
        yield
    finally:
        libc.setns(here, 0)
        os.close(here)
        os.close(there)


def allow(namespace: str, setting: str, value: str) -> None:
    with inside(namespace):
        Path("/proc/thread-self/net").parent.joinpath("/proc/sys/net", setting).write_text(value)


@pytest.fixture(scope="module")
def room() -> Iterator[None]:
    """The room, built once and taken down whatever happens."""
    made: list[str] = []
    try:
        for namespace in INSIDE:
            ip("netns", "add", NAME + namespace)
            made.append(namespace)
            allow(namespace, "ipv6/conf/default/accept_dad", "0")
        ip(batch=ROOM)
        for namespace, lines in INSIDE.items():
            ip(batch=lines, namespace=namespace)
        allow("store", "ipv4/conf/all/arp_ignore", "1")
        allow("store", "ipv4/conf/all/arp_announce", "2")
        allow("store", "ipv4/ip_forward", "1")
        allow("store", "ipv6/conf/all/forwarding", "1")
        yield
    finally:
        for namespace in made:
            ip("netns", "delete", NAME + namespace)


@pytest.fixture
def edit(room: None) -> Iterator[None]:
    """The test stands at the station."""
    with inside("edit"):
        yield


@pytest.fixture
def narrow(room: None) -> Iterator[None]:
    """One port of the switch takes packets of 1500 only, and drops larger ones without a word."""
    ip("link", "set", "p-fast", "mtu", "1500", namespace="sw")
    try:
        yield
    finally:
        ip("link", "set", "p-fast", "mtu", "9000", namespace="sw")


def as_a_user(call: Callable[[], object]) -> object:
    """What a call comes to for a user without any privilege."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.setgroups([])
            os.setresgid(65_534, 65_534, 65_534)
            os.setresuid(65_534, 65_534, 65_534)
            answer = pickle.dumps(call())
        except BaseException as error:
            answer = pickle.dumps(error)
        os.write(writing, answer)
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading, "rb") as answers:
        answer = answers.read()
    os.waitpid(child, 0)
    return pickle.loads(answer)  # noqa: S301 - from our own child


def framed(address: Address, size: int, seconds: float = 0.3) -> FrameTest:
    return frames.frame(address, size, ROUTE, seconds)


METHODS = {"raw": "icmp", "datagram": "icmp", "user": "udp"}


@pytest.fixture(params=METHODS)
def asked(request: pytest.FixtureRequest, edit: None) -> Iterator[tuple[str, Callable[..., FrameTest]]]:
    """Each way to ask: raw ICMP of root, ICMP of a user who may, UDP of one who may not."""
    if request.param == "raw":
        yield METHODS[request.param], framed
        return
    allow("edit", "ipv4/ping_group_range", "0 2147483647" if request.param == "datagram" else "1 0")
    try:
        yield METHODS[request.param], lambda *words: as_a_user(lambda: framed(*words))  # type: ignore[return-value]
    finally:
        allow("edit", "ipv4/ping_group_range", "1 0")


Asked = tuple[str, Callable[..., FrameTest]]


@pytest.mark.parametrize("address", [FAST, FAST_6])
def test_packets_of_the_size_of_every_port_pass(address: Address, asked: Asked) -> None:
    method, ask = asked

    assert [FrameTest(size, True, method) for size in (1500, 9000)] == [ask(address, size) for size in (1500, 9000)]


@pytest.mark.parametrize("address", [FAST, FAST_6])
def test_a_packet_larger_than_the_own_port_is_not_sent(address: Address, asked: Asked) -> None:
    method, ask = asked

    assert FrameTest(9001, None, method, 9000) == ask(address, 9001)


@pytest.mark.parametrize("address", [FAR, FAR_6])
def test_a_router_with_a_narrower_link_tells_its_size(address: Address, asked: Asked) -> None:
    """RFC 1191 and RFC 8201."""
    method, ask = asked

    assert FrameTest(9000, False, method, 1500) == ask(address, 9000)
    assert FrameTest(1500, True, method) == ask(address, 1500)


@pytest.mark.parametrize("address", [FAST, FAST_6])
@pytest.mark.parametrize("asked", ["raw", "datagram"], indirect=True)
def test_a_narrow_switch_port_swallows_large_packets_and_passes_small_ones(
    address: Address, narrow: None, asked: Asked
) -> None:
    method, ask = asked

    assert [FrameTest(9000, False, method), FrameTest(1500, True, method)] == [ask(address, 9000), ask(address, 1500)]


@pytest.mark.parametrize("asked", ["user"], indirect=True)
def test_a_user_without_icmp_learns_of_a_loss_only_from_three_datagrams_a_second_apart(
    narrow: None, asked: Asked
) -> None:
    _, ask = asked

    assert FrameTest(9000, None, "udp") == ask(FAST, 9000, 0.4)
    assert FrameTest(9000, False, "udp") == ask(FAST, 9000, 3.0)
    assert FrameTest(1500, True, "udp") == ask(FAST, 1500, 3.0)


def test_many_datagrams_in_a_row_are_never_called_lost(edit: None) -> None:
    """The storage tells of closed ports once a second: icmp(7), icmp_ratelimit. Most of these get no answer."""
    seen = as_a_user(lambda: [framed(FAST, 1400 + number, 0.05).passed for number in range(20)])

    assert isinstance(seen, list)
    assert False not in seen
    assert True in seen


@pytest.fixture
def talkative(room: None) -> Iterator[None]:
    """The storage tells of packets that go no further as often as it is asked."""
    allow("store", "ipv4/icmp_ratelimit", "0")
    allow("store", "ipv6/icmp/ratelimit", "0")
    try:
        yield
    finally:
        allow("store", "ipv4/icmp_ratelimit", "1000")
        allow("store", "ipv6/icmp/ratelimit", "1000")


@pytest.mark.usefixtures("talkative", "edit")
@pytest.mark.parametrize("who", [as_a_user, lambda call: call()])
@pytest.mark.parametrize(
    ("address", "expected"),
    [(FAST, ()), (FAST_6, ()), (FAR, (FAST,)), (FAR_6, (FAST_6,))],
)
def test_routers_are_found_without_privilege(
    address: Address, expected: tuple[Address, ...], who: Callable[[Callable[[], object]], object]
) -> None:
    assert expected == who(lambda: routers.routers(address, 4, 2))


def test_an_address_where_nobody_lives_has_no_known_road(edit: None) -> None:
    with pytest.raises(AnswerError, match="neither a router nor"):
        routers.routers(NOBODY, 2, 0.2)


def test_a_way_that_is_forbidden_here_is_no_road(edit: None) -> None:
    with pytest.raises(AnswerError, match="Permission denied"):
        routers.routers(ip_address("198.51.100.9"), 2, 0.2)


def test_handshakes_end_in_every_way(edit: None) -> None:
    with inside("store"), socket.create_server(("", 445), family=socket.AF_INET6, dualstack_ipv6=True) as service:
        with inside("edit"):
            link_local = link_local_of("store", "fast")
            outcomes = {
                Endpoint(FAST, 445): "open",
                Endpoint(FAST, 446): "refused",
                Endpoint(FAST_6, 445): "open",
                Endpoint(ip_address(f"{link_local}%en5"), 445): "open",
                Endpoint(NOBODY, 445): "silent",
                Endpoint(ip_address("192.0.2.1"), 445): "unreachable",
                Endpoint(ip_address("198.51.100.9"), 445): "blocked",
            }

            assert outcomes == {one.end: one.outcome for one in knocks(list(outcomes), 0.5)}
        assert service.fileno() > 0


def link_local_of(namespace: str, interface: str) -> str:
    words = ["ip", "-netns", NAME + namespace, "-6", "-brief", "address", "show", "dev", interface, "scope", "link"]
    shown = subprocess.run(words, capture_output=True, text=True, check=True).stdout
    return shown.split()[2].partition("/")[0]


def test_a_strict_host_answers_once(edit: None) -> None:
    assert (MACS["fast"],) == arp.ask(FAST, "en5", 0.2)
    assert () == arp.ask(NOBODY, "en5", 0.2)


@pytest.fixture
def loose(room: None) -> Iterator[None]:
    """The storage answers for any of its addresses on any of its ports, as hosts do by default."""
    allow("store", "ipv4/conf/all/arp_ignore", "0")
    try:
        yield
    finally:
        allow("store", "ipv4/conf/all/arp_ignore", "1")


def test_two_ports_of_one_host_that_answer_for_one_address_are_both_seen(loose: None, edit: None) -> None:
    """ip-sysctl: with arp_ignore 0 a host answers for any of its addresses on any of its ports."""
    assert {MACS["fast"], MACS["slow"]} == set(arp.ask(FAST, "en5", 0.2))
    assert {MACS["fast"], MACS["slow"]} == set(arp.ask(SLOW, "en5", 0.2))


def test_a_stranger_with_the_same_address_is_seen_beside_the_storage(edit: None) -> None:
    ip("address", "add", f"{FAST}/24", "dev", "twin", namespace="dup")
    try:
        assert {MACS["fast"], MACS["twin"]} == set(arp.ask(FAST, "en5", 0.2))
        assert (MACS["slow"],) == arp.ask(SLOW, "en5", 0.2)
    finally:
        ip("address", "delete", f"{FAST}/24", "dev", "twin", namespace="dup")
        ip("neighbour", "flush", "dev", "en5", namespace="edit")


def test_without_privilege_neither_arp_nor_listening_is_tried(edit: None) -> None:
    refusals = [
        as_a_user(lambda: arp.ask(FAST, "en5", 0.2)),
        as_a_user(lambda: lldp.listen(Interface("en5"), 0.2)),
    ]

    assert [PrivilegeError, PrivilegeError] == [type(refusal) for refusal in refusals]
    assert all("CAP_NET_RAW: run it with sudo" in str(refusal) for refusal in refusals)


def announcement(mac: str, port: bytes) -> bytes:
    """Chassis, port, time to live and name, as IEEE 802.1AB clause 8 lays them out."""
    source = bytes.fromhex(mac.replace(":", ""))
    header = bytes.fromhex("0180c200000e") + source + b"\x88\xcc"
    return (
        header + b"\x02\x07\x04" + source + b"\x04" + bytes((len(port) + 1,)) + b"\x05" + port
        + b"\x06\x02\x00\x78" + b"\x0a\x04core" + b"\x00\x00"
    )  # fmt: skip


@contextmanager
def announced(namespace: str, interface: str, *frames_: bytes) -> Iterator[None]:
    """Frames sent again and again out of an interface, until the end."""
    ended = threading.Event()

    def send() -> None:
        with inside(namespace), socket.socket(socket.AF_PACKET, socket.SOCK_RAW, 0) as sock:
            sock.bind((interface, 0))
            while not ended.wait(0.02):
                for frame in frames_:
                    sock.send(frame)

    thread = threading.Thread(target=send)
    thread.start()
    try:
        yield
    finally:
        ended.set()
        thread.join()


@pytest.mark.parametrize("way", ["_packet_socket", "_scapy"])
def test_the_switch_port_is_heard_and_broken_frames_are_not(way: str, edit: None) -> None:
    if way == "_scapy" and ctypes.util.find_library("pcap") is None:
        pytest.skip("scapy filters with libpcap, which is not here")
    broken = announcement(SWITCH_MAC, b"liar")[:20]
    with announced("sw", "p-en5", broken, announcement(SWITCH_MAC, b"10g/7")):
        heard = lldp.heard(Interface("en5", mac=MACS["en5"]), getattr(lldp, way), Deadline(3))

    assert SwitchPort("en5", "core", "10g/7") == heard


def test_the_stations_own_announcements_are_not_the_switchs(edit: None) -> None:
    with announced("edit", "en5", announcement(MACS["en5"], b"self")):
        assert lldp.listen(Interface("en5"), 0.3) is None


def test_a_port_that_is_down_cannot_be_listened_to(edit: None) -> None:
    ip("link", "add", "spare", "type", "veth", "peer", "name", "spare2", namespace="edit")
    try:
        with pytest.raises(AnswerError, match="spare cannot be listened to"):
            lldp.listen(Interface("spare"), 0.5)
    finally:
        ip("link", "delete", "spare", namespace="edit")


SMBD = shutil.which("smbd") or "/usr/sbin/smbd"
needs_samba = pytest.mark.skipif(
    not os.path.exists(SMBD) or shutil.which("smbpasswd") is None, reason="the file server samba is not installed"
)
CONFIGURATION = """
[global]
workgroup = BOATHOUSE
netbios name = VAULT
server role = standalone server
private dir = {0}/private
lock directory = {0}/lock
state directory = {0}/state
cache directory = {0}/cache
pid directory = {0}/pid
ncalrpc dir = {0}/ncalrpc
log file = {0}/log
passdb backend = tdbsam:{0}/private/passdb.tdb
disable spoolss = yes
load printers = no
interfaces = "10.77.20.10;speed=10000000000" "10.77.20.20;speed=1000000000"
{1}
[media]
path = {0}/media
"""


@contextmanager
def sharing(folder: Path, *settings: str) -> Iterator[None]:
    """A file server at the storage with an account of root, password `boathouse`."""
    for name in ("private", "lock", "lock/msg.sock", "state", "cache", "pid", "media"):
        (folder / name).mkdir(mode=0o755)
    (folder / "private").chmod(0o700)
    (folder / "lock" / "msg.sock").chmod(0o700)
    configuration = folder / "smb.conf"
    configuration.write_text(CONFIGURATION.format(folder, "\n".join(settings)))
    words = ["smbpasswd", "-c", str(configuration), "-s", "-a", "root"]
    subprocess.run(words, input=b"boathouse\nboathouse\n", check=True, capture_output=True)
    with inside("store"):
        server = subprocess.Popen(
            [SMBD, "-F", "--no-process-group", "-s", str(configuration)],
            start_new_session=True,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
    try:
        wait_for_service()
        yield
    finally:
        server.terminate()
        server.wait(10)


def wait_for_service() -> None:
    deadline = Deadline(15)
    with inside("edit"):
        while "open" not in [one.outcome for one in knocks([Endpoint(FAST, 445)], 1)]:
            assert not deadline.over, "the file server does not start"
            pause(0.05)


OFFERED = {Offer(FAST, 10_000_000_000), Offer(SLOW, 1_000_000_000)}


def without_numbers(offers: tuple[Offer, ...] | None) -> set[Offer]:
    return {offer._replace(number=None) for offer in offers or ()}


@pytest.fixture
def free(room: None, tmp_path: Path) -> Iterator[None]:
    """A storage that lets strangers in as guests."""
    with sharing(tmp_path, "map to guest = Bad User"), inside("edit"):
        yield


@pytest.fixture
def guarded(room: None, tmp_path: Path) -> Iterator[None]:
    """A storage that demands an account, signing and encryption."""
    with (
        sharing(tmp_path, "map to guest = never", "server signing = mandatory", "smb encrypt = required"),
        inside("edit"),
    ):
        yield


def no_workers() -> bool:
    return [] == [thread.name for thread in threading.enumerate() if thread is not threading.main_thread()]


@needs_samba
def test_a_storage_that_lets_guests_in_tells_its_ports_to_anybody(free: None) -> None:
    stranger, port_list = smb.offers(FAST, 445, 5)
    named, same_list = smb.offers(FAST_6, 445, 5, "root", "boathouse", share="media")

    assert OFFERED == without_numbers(port_list) == without_numbers(same_list)
    assert SmbFacts("3.1.1", False, None, stranger.identity) == stranger == smb.negotiate(SLOW, 445, 5)
    assert SmbFacts("3.1.1", False, False, stranger.identity, signed_in=True) == named
    assert no_workers()


@needs_samba
def test_a_wrong_password_and_an_unknown_user_are_refused_by_name(free: None) -> None:
    for user in ("root", "stranger"):
        with pytest.raises(PrivilegeError, match=rf"\(--user\) that it lets in: it refuses '{user}'"):
            smb.offers(FAST, 445, 5, user, "wrong")
    assert no_workers()


@needs_samba
def test_a_guarded_storage_asks_for_a_user_and_tells_what_it_demands(guarded: None) -> None:
    facts, port_list = smb.offers(FAST, 445, 5, "root", "boathouse")

    assert (True, True, True) == (facts.signing_required, facts.encryption_required, facts.signed_in)
    assert OFFERED == without_numbers(port_list)
    assert True is smb.negotiate(FAST, 445, 5).signing_required
    with pytest.raises(PrivilegeError) as refusal:
        smb.offers(FAST, 445, 5)
    assert "a user name of the storage (--user)" == refusal.value.needs
    assert no_workers()


@needs_samba
@pytest.mark.parametrize(
    ("settings", "dialect"),
    [(("server max protocol = SMB2_10",), "2.1"), (("server multi channel support = no",), "3.1.1")],
)
def test_a_storage_with_one_connection_only_tells_no_ports(
    settings: tuple[str, ...], dialect: str, room: None, tmp_path: Path
) -> None:
    with sharing(tmp_path, "map to guest = Bad User", *settings), inside("edit"):
        facts, port_list = smb.offers(FAST, 445, 5)

    assert (dialect, None) == (facts.dialect, port_list)


@needs_samba
def test_a_storage_that_stops_in_the_middle_is_an_error_within_the_deadline(free: None, tmp_path: Path) -> None:
    ip("link", "set", "p-fast", "down", namespace="sw")
    try:
        deadline = Deadline(2)
        with pytest.raises(AnswerError):
            smb.negotiate(FAST, 445, 0.5)

        assert not deadline.over
    finally:
        ip("link", "set", "p-fast", "up", namespace="sw")
    assert no_workers()
