"""Probes for tests of reports: the desk in order on which live rules are explained, with more told of it."""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import IPv4Interface, ip_address
from typing import Any

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.expectation import Expectation
from netaudit.model.machine_state import (
    AdapterBus,
    Channel,
    ClientFacts,
    Counters,
    Endpoint,
    Interface,
    Medium,
    Session,
    SessionCount,
)
from netaudit.model.observation import FarAddress, Growth, Knock, Moved, Observation, Offer, SmbFacts, SwitchPort
from netaudit.model.situation import Situation
from netaudit.rules.live import desk
from netaudit.rules.live.desk import AIR_HOST, BY_WIRE, EXPECTED, GBIT, SLOW_VAULT, VAULT, WIRE_HOST
from netaudit.rules.situation import situate

EN5 = desk.EN5._replace(
    number=5,
    title="Desk 10G",
    partner=(10 * GBIT, GBIT),
    bus=AdapterBus("pcie 3 x4", 25_600_000_000),
    counters=Counters(errors={"rx_crc_errors": 0, "rx_dropped": 12}),
)
WLAN0 = desk.WLAN0._replace(number=3, rate_bit_per_s=300_000_000)
LOOPBACK = Interface(
    "lo", medium="virtual", up=True, carrier=True, mtu=65536, addresses=(IPv4Interface("127.0.0.1/8"),)
)
BY_AIR = desk.BY_AIR._replace(gateway=ip_address("192.168.44.1"), prefix=None)
OPEN = Knock("open", (0.0002, 0.00018, 0.00031))
REFUSED = Knock("refused", (0.0002,))

FAR = desk.FAR._replace(
    knocks={445: OPEN, 2049: REFUSED},
    frames=desk.FAR.frames[::-1],
    smb=SmbFacts("3.1.1", signing_required=False, identity="0b0a7e00-4420-4a10-8000-000000000010"),
)
SESSION = desk.SESSION._replace(
    tcp=SessionCount(sent_bytes=4_000_000, received_bytes=81_000_000_000, sent_segments=3000, retransmitted=0),
    round_trip_s=0.0002,
    path_mtu=None,
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
COLD_READ = desk.COLD._replace(
    path="/media/reel-7.mxf",
    bytes=400_000_000,
    seconds=0.97,
    steps_s=(0.002, 0.0021, 0.0033),
    step_bytes=1_000_000,
    received_bytes=404_000_000,
    sent_bytes=None,
    cpu_share=0.31,
)
SEEN = desk.SEEN._replace(
    target="vault",
    mount=None,
    addresses=(FAR,),
    interfaces={"lo": LOOPBACK, "en5": EN5, "wlan0": WLAN0},
    sessions=(SESSION,),
    client=ClientFacts(),
    offers=(Offer(VAULT, 10 * GBIT, 2),),
    moved=MOVED,
    timings=(COLD_READ,),
    switch_port=SwitchPort("en5", "core", "1", mtu=9216),
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


def situated(seen: Observation = SEEN, expected: Expectation | None = EXPECTED) -> Situation:
    """An observation beside its plan, not judged yet."""
    return situate(seen, expected)


def diagnosed(seen: Observation = SEEN, expected: Expectation | None = EXPECTED, **fields: Any) -> Diagnosis:
    """What is made of an observation; by default the healthy one beside its plan."""
    whole = {"expected_bit_per_s": 9_900_420_447, "expected_by": "link core/9 - vault/fast", "checked": 24, **fields}
    return Diagnosis(situate(seen, expected), **whole)


def port(name: str, medium: Medium = "wired", **fields: Any) -> Interface:
    """One more interface, alive."""
    return Interface(name, medium=medium, **{"up": True, "carrier": True, **fields})
