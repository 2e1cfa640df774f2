"""A desk in order, on which the examples of the live rules stand: the seat cut-1 and the storage vault."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv4Network
from typing import Any

from netaudit.model.expectation import Expectation, ExpectedPort, ExpectedRoad
from netaudit.model.machine_state import (
    AdapterBus,
    ClientFacts,
    Counters,
    Endpoint,
    Interface,
    Mount,
    Route,
    Session,
    SessionCount,
)
from netaudit.model.observation import (
    FarAddress,
    FrameTest,
    Growth,
    Knock,
    Moved,
    Neighbours,
    Observation,
    Offer,
    SmbFacts,
    Timing,
)
from netaudit.model.place import PortRef, link_place

GBIT = 1_000_000_000
MEDIA, OFFICE = IPv4Network("10.44.20.0/24"), IPv4Network("192.168.44.0/24")
VAULT, SLOW_VAULT = IPv4Address("10.44.20.10"), IPv4Address("192.168.44.10")
WIRE_HOST, AIR_HOST = IPv4Address("10.44.20.11"), IPv4Address("192.168.44.101")
WIRE, AIR, BACK = (PortRef("cut-1", name) for name in ("wire", "air", "back"))
FAST, SLOW = PortRef("vault", "fast"), PortRef("vault", "slow")
FAST_MAC, SLOW_MAC = "02:00:00:44:20:10", "02:00:00:44:44:10"
RATES = (10 * GBIT, 5 * GBIT, 2_500_000_000, GBIT)

EN5 = Interface(
    name="en5",
    medium="wired",
    up=True,
    carrier=True,
    rate_bit_per_s=10 * GBIT,
    duplex="full",
    mtu=9000,
    mac="02:00:00:44:20:11",
    addresses=(IPv4Interface(f"{WIRE_HOST}/24"),),
    supported=RATES,
    offered=RATES,
    partner=RATES,
    bus=AdapterBus("PCI Express 3 x4"),
    carrier_changes=1,
)
WLAN0 = Interface(
    name="wlan0",
    medium="radio",
    up=True,
    carrier=True,
    rate_bit_per_s=866_000_000,
    mtu=1500,
    mac="02:00:00:44:44:65",
    addresses=(IPv4Interface(f"{AIR_HOST}/24"),),
)
EN6 = Interface(
    name="en6",
    medium="wired",
    up=True,
    carrier=True,
    rate_bit_per_s=GBIT,
    duplex="full",
    mtu=1500,
    mac="02:00:00:44:44:66",
    addresses=(IPv4Interface("192.168.44.102/24"),),
)
BY_WIRE = Route("en5", source=WIRE_HOST, prefix=MEDIA, metric=100)
BY_AIR = Route("wlan0", source=AIR_HOST, prefix=OFFICE, metric=600)
SMALL_PASSES = FrameTest(1500, passed=True, method="icmp")
LARGE_PASSES = FrameTest(9000, passed=True, method="icmp")
LARGE_LOST = FrameTest(9000, passed=False, method="icmp")
OPEN = Knock("open", (0.0002,) * 20, mss=8948)
FAR = FarAddress(
    VAULT,
    "dns",
    route=BY_WIRE,
    knocks={445: OPEN, 2049: Knock("refused", (0.0002,))},
    neighbours=Neighbours((FAST_MAC,), asked=True),
    frames=(SMALL_PASSES, LARGE_PASSES),
    routers=(),
    smb=SmbFacts("3.1.1", signing_required=False, identity="vault"),
)
SLOW_FAR = FarAddress(
    SLOW_VAULT,
    "dns",
    route=BY_AIR,
    knocks={445: OPEN._replace(mss=1448)},
    neighbours=Neighbours((SLOW_MAC,), asked=True),
    frames=(SMALL_PASSES,),
    routers=(),
    smb=SmbFacts("3.1.1", signing_required=False, identity="vault"),
)
SESSION = Session(Endpoint(WIRE_HOST, 51820), Endpoint(VAULT, 445), interface="en5", mss=8948, path_mtu=9000)
OLD_SESSION = Session(Endpoint(AIR_HOST, 49152), Endpoint(VAULT, 445), interface="wlan0", mss=1448, path_mtu=1500)
ENDS = (str(SESSION.local), str(SESSION.remote))
QUIET = Counters(sent_bytes=6_000, received_bytes=8_000, sent_packets=60, received_packets=70)
PLAYING = SessionCount(sent_bytes=900_000, received_bytes=180_000_000, sent_segments=2_000, retransmitted=0)
MOVED = Moved(
    2.0,
    {
        "en5": Growth(Counters(2_000_000, 182_000_000, 9_000, 21_000, {"rx_crc_errors": 0, "rx_dropped": 0}), 0),
        "en6": Growth(QUIET, 0),
        "wlan0": Growth(QUIET, 0),
    },
    {ENDS: PLAYING},
    handshakes={VAULT: 20},
)
COLD = Timing(
    path="/mnt/media/reel-7.mxf",
    direction="read",
    bytes=256_000_000,
    seconds=0.23,
    steps_s=(0.0036,) * 64,
    step_bytes=4_000_000,
    cold=True,
    received_bytes=258_000_000,
    sent_bytes=1_200_000,
    interface="en5",
    handshakes_s=(0.0003, 0.0004),
    cpu_share=0.4,
)
WARM = COLD._replace(cold=False, seconds=0.22)
SEEN = Observation(
    target="/mnt/media",
    system="linux",
    host="vault",
    ports=(445, 2049),
    mount=Mount("/mnt/media", "cifs", "//vault/media", host="vault", share="media", remote=VAULT, port=445),
    addresses=(FAR,),
    interfaces={"en5": EN5, "en6": EN6, "wlan0": WLAN0},
    sessions=(SESSION,),
    client=ClientFacts(dialect="3.1.1", signing=False, encryption=False),
    offers=(Offer(VAULT, 10 * GBIT, 1), Offer(SLOW_VAULT, GBIT, 2)),
    moved=MOVED,
    timings=(COLD, WARM),
    manager="networkmanager",
    took_s=2.9,
    complete=True,
)
UNSEEN = SEEN._replace(sessions=(), timings=(), client=SEEN.client._replace(channels=()), mount=None)
"""The desk before anything is mounted."""
HEARD_NOTHING = {445: Knock("silent", (), 1), 2049: Knock("silent", (), 1)}
EXPECTED = Expectation(
    plan="boathouse.yaml",
    station="cut-1",
    storage="vault",
    ports={
        "wire": ExpectedPort(
            WIRE,
            radio=False,
            interface="en5",
            addresses=(WIRE_HOST,),
            networks=("media",),
            subnets=(MEDIA,),
            agreed_bit_per_s=10 * GBIT,
            far_port=PortRef("core", "1"),
            mtu=9000,
        ),
        "back": ExpectedPort(BACK, radio=False, interface="en6", networks=("office",), subnets=(OFFICE,)),
        "air": ExpectedPort(AIR, radio=True, interface="wlan0", networks=("office",), subnets=(OFFICE,)),
    },
    storage_ports={
        "fast": ExpectedPort(FAST, radio=False, addresses=(VAULT,), networks=("media",), mtu=9000),
        "slow": ExpectedPort(SLOW, radio=False, addresses=(SLOW_VAULT,), networks=("office",)),
    },
    road=ExpectedRoad(
        WIRE,
        FAST,
        routed=False,
        agreed_bit_per_s=10 * GBIT,
        promised_bit_per_s=10 * GBIT,
        goodput_bit_per_s=9_900_420_447,
        network_bit_per_s=9_900_420_447,
        limited_by=link_place(PortRef("core", "9"), FAST),
        mtu=9000,
    ),
)


def with_wire(seen: Observation = SEEN, **fields: Any) -> Observation:
    """An observation whose wired port is in another state."""
    return seen._replace(interfaces={**seen.interfaces, "en5": EN5._replace(**fields)})


def with_interface(state: Interface, seen: Observation = SEEN) -> Observation:
    """An observation with another interface, or with one in another state."""
    return seen._replace(interfaces={**seen.interfaces, state.name: state})


def with_far(seen: Observation = SEEN, **fields: Any) -> Observation:
    """An observation in which something else was learnt about the storage's fast address."""
    return seen._replace(
        addresses=tuple(far._replace(**fields) if far.address == VAULT else far for far in seen.addresses)
    )


def with_growth(name: str, seen: Observation = SEEN, carrier_changes: int = 0, **fields: Any) -> Observation:
    """An observation in which an interface counted something else meanwhile."""
    growth = Growth(MOVED.interfaces[name].counters._replace(**fields), carrier_changes)
    moved = seen.moved or MOVED
    return seen._replace(moved=moved._replace(interfaces={**moved.interfaces, name: growth}))


def with_session_count(seen: Observation = SEEN, **fields: Any) -> Observation:
    """An observation in which the living session did something else meanwhile."""
    moved = seen.moved or MOVED
    return seen._replace(moved=moved._replace(sessions={ENDS: PLAYING._replace(**fields)}))


def first_look(seen: Observation) -> Observation:
    """What of an observation is known before anything was sent to the storage."""
    addresses = tuple(FarAddress(far.address, far.origin, far.route, far.no_route) for far in seen.addresses)
    return seen._replace(addresses=addresses, moved=None, timings=(), offers=None, complete=False)
