"""The room of the lab: a station, a switch and a storage, and the cables between them.

    edit  en5 ──────────── p-en5  sw   p-s10g ──────── s10g  store
          wlan0 ─────── p-wlan0   br0  p-s1g ────────── s1g

Every port of the switch hangs on one bridge unless a room says otherwise. The wire is 10.44.20.0/24 without a gateway,
the Wi-Fi 192.168.44.0/24; in a flat room all four ports stand in 10.44.20.0/24.
"""

from __future__ import annotations

import socket
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from types import TracebackType

import ethtool
import patch_cable
from fitting import Fitting, forwards, index_of, set_up_host_end, set_up_switch_end
from namespaces import Namespace
from pyroute2 import IPRoute

STORE_FAST, STORE_SLOW, STORE_SLOW_FLAT = "10.44.20.10", "192.168.44.10", "10.44.20.20"
EDIT_WIRE, EDIT_AIR, EDIT_AIR_FLAT = "10.44.20.21", "192.168.44.21", "10.44.20.22"
EDIT_SPARE, EDIT_SPARE_FLAT = "192.168.44.23", "10.44.20.23"
MACS = {
    name: f"02:44:20:00:00:{number:02x}" for number, name in enumerate(("en5", "wlan0", "en6", "s10g", "s1g", "far"), 1)
}
TABLE_OF_A_RULE = 100
SETTLED_S = 5


class Room:
    """A room that is being built; leaving it takes everything down."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._namespaces: list[Namespace] = []
        self._cables: dict[str, subprocess.Popen[str]] = {}
        made = [Namespace(name, folder) for name in ("edit", "sw", "store")]
        self._namespaces += made
        try:
            self.edit, self.sw, self.store = (each.ready() for each in made)
            self._quiet()
        except BaseException:
            self.close()
            raise

    def _quiet(self) -> None:
        """Let hosts answer for an address only on the port that has it, and the switch have no address at all."""
        for host in (self.edit, self.store):
            self.strict(host)
        self.sw.sysctl("ipv6/conf/default/disable_ipv6", 1)
        self.sw.netlink(lambda ip: ip.link("add", ifname="br0", kind="bridge", state="up"))

    def __enter__(self) -> Room:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, where: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Take everything down."""
        for cable in self._cables.values():
            with cable:
                cable.kill()
        self._cables.clear()
        while self._namespaces:
            self._namespaces.pop().close()

    @property
    def namespaces(self) -> tuple[Namespace, ...]:
        """Every namespace of the room."""
        return tuple(self._namespaces)

    def guest(self, name: str) -> Namespace:
        """Another host: a router, a stranger."""
        namespace = Namespace(name, self.folder)
        self._namespaces.append(namespace)
        return namespace.ready()

    def strict(self, host: Namespace, answers_for_itself: bool = True) -> None:
        """Whether each port of a host answers only for its own addresses (ip-sysctl: arp_ignore, arp_announce)."""
        for scope in ("all", "default"):
            host.sysctl(f"ipv4/conf/{scope}/arp_ignore", int(answers_for_itself))
            host.sysctl(f"ipv4/conf/{scope}/arp_announce", 2 * answers_for_itself)
            host.sysctl(f"ipv6/conf/{scope}/accept_dad", 0)

    def bridge(self, name: str) -> None:
        """Another bridge in the switch."""
        self.sw.netlink(lambda ip: ip.link("add", ifname=name, kind="bridge", state="up"))

    def plug(self, host: Namespace, fitting: Fitting) -> None:
        """Join a port of a host to the switch and set it up."""
        name = fitting.name
        if fitting.agreed_mbit_per_s is None:
            self._veth(host, name)
        else:
            self._patch(host, fitting)
        self.sw.netlink(lambda ip: set_up_switch_end(ip, fitting))
        host.netlink(lambda ip: set_up_host_end(ip, fitting))
        self.sw.netlink(lambda ip: _wait_until(lambda: forwards(ip, f"p-{name}")))

    def _veth(self, host: Namespace, name: str) -> None:
        peer = {"ifname": name, "net_ns_pid": host.pid, "address": MACS.get(name, MACS["far"])}
        self.sw.netlink(lambda ip: ip.link("add", ifname=f"p-{name}", kind="veth", peer=peer))

    def _patch(self, host: Namespace, fitting: Fitting) -> None:
        self.patch(host, fitting.name, self.sw, f"p-{fitting.name}", ["--offload"] if fitting.offload else [])
        host.inside(lambda: ethtool.agree(fitting.name, fitting.agreed_mbit_per_s or 0))
        host.netlink(lambda ip: ip.link("set", index=index_of(ip, fitting.name), address=MACS[fitting.name]))

    def patch(self, near: Namespace, near_name: str, far: Namespace, far_name: str, marks: Sequence[str]) -> None:
        """Lay a patch cable of user space; it makes the two devices."""
        words = [str(near.pid), near_name, str(far.pid), far_name, *marks]
        cable = subprocess.Popen(
            [sys.executable, "-S", patch_cable.__file__, *words],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        self._cables[near_name] = cable
        _expect(cable, "ready")

    def tell_cable(self, name: str, command: str) -> None:
        """Change what a patch cable does: `delay 5`, `loss 0.01`, `carrier 0`."""
        cable = self._cables[name]
        assert cable.stdin is not None
        cable.stdin.write(command + "\n")
        cable.stdin.flush()
        _expect(cable, "done")

    def pull(self, name: str) -> None:
        """Pull a cable at the switch: the host's port keeps its address and loses its carrier."""
        self.switch(self.sw, f"p-{name}", "down")

    def put_back(self, name: str) -> None:
        """Put a cable back in."""
        self.switch(self.sw, f"p-{name}", "up")

    def switch(self, host: Namespace, name: str, state: str) -> None:
        """Switch a port of a host `up` or `down`."""
        host.netlink(lambda ip: ip.link("set", index=index_of(ip, name), state=state))

    def mtu(self, host: Namespace, name: str, octets: int) -> None:
        """Set the largest packet of a port."""
        host.netlink(lambda ip: ip.link("set", index=index_of(ip, name), mtu=octets))

    def real_frames(self, host: Namespace, name: str) -> None:
        """Let a port send nothing longer than its frames, so that a narrow passage really stops them."""
        host.inside(lambda: ethtool.cut_at_the_source(name))

    def route(self, host: Namespace, destination: str, name: str | None = None, **fields: object) -> None:
        """Add a route to a host."""

        def add(ip: IPRoute) -> None:
            port = {} if name is None else {"oif": index_of(ip, name)}
            ip.route("add", dst=destination, **port, **fields)

        host.netlink(add)

    def rule(self, host: Namespace, name: str, subnet: str, **choice: object) -> None:
        """Let a host send what a rule chooses by one port, through a table of the port's own."""

        def add(ip: IPRoute) -> None:
            number = index_of(ip, name)
            table = TABLE_OF_A_RULE + number
            ip.route("add", dst=subnet, oif=number, table=table)
            ip.rule("add", table=table, priority=TABLE_OF_A_RULE, **choice)

        host.netlink(add)

    def answer_from_itself(self, host: Namespace, name: str, address: str, subnet: str) -> None:
        """Let what bears a port's address leave by that port, though another stands in the same subnet."""
        self.rule(host, name, subnet, src=address)

    def neighbour(self, host: Namespace, name: str, address: str, mac: str) -> None:
        """Let a host hold on to a hardware address."""
        host.netlink(
            lambda ip: ip.neigh("replace", dst=address, lladdr=mac, ifindex=index_of(ip, name), state="permanent")
        )

    def set_up(self, host: Namespace, name: str, address: str, mtu: int = 1500) -> None:
        """Switch a device on and give it one more address."""
        host.netlink(lambda ip: set_up_host_end(ip, Fitting(name, (address,), mtu)))

    def trunk(self, near: str, far: str, mtu: int) -> None:
        """Join two bridges by a cable that passes packets of that size at most."""

        def join(ip: IPRoute) -> None:
            ip.link("add", ifname="trunk", kind="veth", peer={"ifname": "knurt"})
            for name, bridge in (("trunk", near), ("knurt", far)):
                ip.link("set", index=index_of(ip, name), mtu=mtu, master=index_of(ip, bridge), state="up")

        self.sw.netlink(join)

    def speak(self, host: Namespace, name: str) -> None:
        """Let a port send one broadcast frame, so that the switch knows where its hardware address lives."""

        def say() -> None:
            with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as voice:
                voice.setsockopt(socket.SOL_SOCKET, socket.SO_BINDTODEVICE, name.encode())
                voice.setsockopt(socket.SOL_SOCKET, socket.SO_BROADCAST, 1)
                voice.sendto(b"", ("255.255.255.255", 9))

        host.inside(say)

    def shout(self, host: Namespace, address: str, count: int, octets: int) -> None:
        """Send so many datagrams of a size to an address; nobody has to listen."""

        def say() -> None:
            with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as voice:
                for _ in range(count):
                    with suppress(OSError):
                        voice.sendto(bytes(octets), (address, 9))

        host.inside(say)

    def dropped(self, host: Namespace, name: str) -> int:
        """Frames that a port dropped in either direction."""
        (row,) = [
            line.split() for line in host.file("dev").replace(":", ": ").splitlines() if f" {name}:" in f" {line}"
        ]
        return int(row[4]) + int(row[12])

    def counts(self, host: Namespace) -> dict[str, tuple[int, int]]:
        """Bytes that each port of a host sent and received: the truth that a probe is held against."""
        rows = [line.split() for line in host.file("dev").replace(":", ": ").splitlines()[2:]]
        return {row[0].rstrip(":"): (int(row[9]), int(row[1])) for row in rows}


def _wait_until(condition: Callable[[], bool]) -> None:
    """Wait until something is so; raises TimeoutError."""
    ends_s = time.monotonic() + SETTLED_S
    while not condition():
        if time.monotonic() > ends_s:
            raise TimeoutError("the switch passes no frames")
        time.sleep(0.001)


def _expect(process: subprocess.Popen[str], word: str) -> None:
    """Wait for a word of a process; raises OSError where it says another or ends."""
    assert process.stdout is not None
    said = process.stdout.readline().strip()
    if said != word:
        raise OSError(f"{process.args!r} said {said!r}, not {word!r}")
