"""Probes for tests: the seat cut-1 of the Boathouse, its wire and its Wi-Fi, and the storage vault, all in order."""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import IPv4Interface, IPv4Network, ip_address
from typing import Any

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.expectation import Expectation, ExpectedPort, ExpectedRoad
from netaudit.model.machine_state import (
    AdapterBus,
    Channel,
    Counters,
    Endpoint,
    Interface,
    Medium,
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
    SwitchPort,
    Timing,
)
from netaudit.model.place import PortRef, link_place
from netaudit.rules.situation import situate

GBIT = 1_000_000_000
MEDIA = IPv4Network("10.44.20.0/24")
VAULT = ip_address("10.44.20.10")
SLOW_VAULT = ip_address("192.168.44.10")
WIRE_HOST = ip_address("10.44.20.11")
AIR_HOST = ip_address("192.168.44.101")
WIRE = PortRef("cut-1", "wire")
AIR = PortRef("cut-1", "air")
FAST = PortRef("vault", "fast")

EN5 = Interface(
    "en5",
    number=5,
    title="Desk 10G",
    medium="wired",
    up=True,
    carrier=True,
    rate_bit_per_s=10 * GBIT,
    duplex="full",
    mtu=9000,
    mac="02:00:00:44:20:11",
    addresses=(IPv4Interface(f"{WIRE_HOST}/24"),),
    supported=(10 * GBIT, 5 * GBIT, 2_500_000_000, GBIT),
    offered=(10 * GBIT, 5 * GBIT, 2_500_000_000, GBIT),
    partner=(10 * GBIT, GBIT),
    bus=AdapterBus("pcie 3 x4", 25_600_000_000),
    carrier_changes=1,
    counters=Counters(errors={"rx_crc_errors": 0, "rx_dropped": 12}),
)
WLAN0 = Interface(
    "wlan0",
    number=3,
    medium="radio",
    up=True,
    carrier=True,
    rate_bit_per_s=300_000_000,
    mtu=1500,
    mac="02:00:00:44:44:65",
    addresses=(IPv4Interface(f"{AIR_HOST}/24"),),
)
LOOPBACK = Interface(
    "lo", medium="virtual", up=True, carrier=True, mtu=65536, addresses=(IPv4Interface("127.0.0.1/8"),)
)
BY_WIRE = Route("en5", source=WIRE_HOST, prefix=MEDIA, metric=100)
BY_AIR = Route("wlan0", source=AIR_HOST, gateway=ip_address("192.168.44.1"), metric=600)
OPEN = Knock("open", (0.0002, 0.00018, 0.00031))
REFUSED = Knock("refused", (0.0002,))

FAR = FarAddress(
    VAULT,
    "dns",
    route=BY_WIRE,
    knocks={445: OPEN, 2049: REFUSED},
    neighbours=Neighbours(("02:00:00:44:20:10",), asked=True),
    frames=(FrameTest(9000, True, "icmp"), FrameTest(1500, True, "icmp")),
    routers=(),
    smb=SmbFacts("3.1.1", signing_required=False, identity="0b0a7e00-4420-4a10-8000-000000000010"),
)
SESSION = Session(
    Endpoint(WIRE_HOST, 51820),
    Endpoint(VAULT, 445),
    interface="en5",
    tcp=SessionCount(sent_bytes=4_000_000, received_bytes=81_000_000_000, sent_segments=3000, retransmitted=0),
    round_trip_s=0.0002,
    mss=8948,
    owner="kernel",
)
ELSEWHERE = Session(
    Endpoint(AIR_HOST, 49999), Endpoint(SLOW_VAULT, 445), interface="wlan0", tcp=SessionCount(sent_bytes=1200)
)
CHANNEL = Channel("media", "en5", WIRE_HOST, VAULT, 10 * GBIT, True, 4_000_000, 81_000_000_000)
MOVED = Moved(
    2.0,
    {
        "en5": Growth(Counters(9_000_000, 2_100_000_000, errors={"rx_crc_errors": 0, "rx_dropped": 0}), 0),
        "wlan0": Growth(Counters(2_400, 5_100, errors={}), 0),
    },
)
COLD_READ = Timing(
    path="/media/reel-7.mxf",
    direction="read",
    bytes=400_000_000,
    seconds=0.97,
    steps_s=(0.002, 0.0021, 0.0033),
    step_bytes=1_000_000,
    cold=True,
    received_bytes=404_000_000,
    interface="en5",
    handshakes_s=(0.0003, 0.0004),
    cpu_share=0.31,
)
SEEN = Observation(
    target="vault",
    system="linux",
    host="vault",
    ports=(445, 2049),
    addresses=(FAR,),
    interfaces={"lo": LOOPBACK, "en5": EN5, "wlan0": WLAN0},
    sessions=(SESSION,),
    offers=(Offer(VAULT, 10 * GBIT, 2),),
    moved=MOVED,
    timings=(COLD_READ,),
    switch_port=SwitchPort("en5", "core", "1", mtu=9216),
    manager="networkmanager",
    took_s=2.9,
    complete=True,
)
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
            rate_bit_per_s=10 * GBIT,
            agreed_bit_per_s=10 * GBIT,
            far_port=PortRef("core", "1"),
            mtu=9000,
        ),
        "air": ExpectedPort(AIR, radio=True, interface="wlan0", networks=("office",), rate_bit_per_s=1_200_000_000),
    },
    storage_ports={"fast": ExpectedPort(FAST, radio=False, addresses=(VAULT,), networks=("media",), mtu=9000)},
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
    system="linux",
)


def observed(**changes: Any) -> Observation:
    """The healthy probe with some fields changed."""
    return SEEN._replace(**changes)


def first_look(**changes: Any) -> Observation:
    """What is known before anything was tried: addresses, routes, interfaces and sessions."""
    known = {"addresses": (FarAddress(VAULT, "dns", route=BY_WIRE),), "interfaces": SEEN.interfaces, **changes}
    return Observation("vault", "linux", "vault", (445, 2049))._replace(**known)


def interfaces(*changed: Interface) -> Mapping[str, Interface]:
    """The healthy interfaces with some in another state, or some more."""
    return SEEN.interfaces | {state.name: state for state in changed}


def diagnosed(seen: Observation = SEEN, expected: Expectation | None = EXPECTED, **fields: Any) -> Diagnosis:
    """What is made of an observation; by default the healthy one beside its plan."""
    situation = situate(seen, expected)
    whole = {"expected_bit_per_s": 9_900_420_447, "expected_by": "link core/9 - vault/fast", "checked": 24, **fields}
    return Diagnosis(seen, expected, situation.uses, situation.plan_ports, **whole)


def port(name: str, medium: Medium = "wired", **fields: Any) -> Interface:
    """One more interface, alive."""
    return Interface(name, medium=medium, **{"up": True, "carrier": True, **fields})
