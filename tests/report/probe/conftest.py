"""Two diagnoses for every form: one of a room in which the wrong port is in use, one full of hostile names."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from observations import (
    CHANNEL,
    COLD_READ,
    ELSEWHERE,
    FAR,
    GBIT,
    SESSION,
    SLOW_VAULT,
    VAULT,
    WLAN0,
    diagnosed,
    interfaces,
    observed,
    port,
)

from netaudit.citation import OBSERVED, Citation
from netaudit.model.diagnosis import Cause, Diagnosis
from netaudit.model.finding import Finding, Measure, NotChecked
from netaudit.model.machine_state import ClientFacts, Mount, Route
from netaudit.model.observation import FarAddress, FrameTest, Knock, Neighbours, Offer, Skipped, SwitchPort
from netaudit.model.place import Place

ON_WIRELESS = Finding(
    rule="traffic-on-wireless",
    severity="fail",
    where=(Place("interface", "wlan0"), Place("session", "10.44.20.11:51820 - 10.44.20.10:445")),
    message="storage traffic leaves by wlan0, Wi-Fi at 300 Mb/s (37.5 MB/s), while en5 at 10 Gb/s (1250 MB/s) idles",
    remedy="Keep Wi-Fi on, and mount the storage anew by its address 10.44.20.10: umount /mnt/media, then mount it.",
    source=OBSERVED,
    measured=Measure(300_000_000, "bit/s"),
    limit=Measure(10 * GBIT, "bit/s"),
)
SLOW_OFFER = Finding(
    rule="storage-offers-slower-port",
    severity="warn",
    where=(Place("address", "192.168.44.10"),),
    message="vault also offers 192.168.44.10 at 1 Gb/s (125 MB/s)",
    remedy="Let vault offer SMB on its fast port alone.",
    source=Citation("A protocol", "2.2.32.5", "read"),
)
UNSENT = NotChecked(
    rule="retransmits-high",
    where=(Place("session", "10.44.20.11:51820 - 10.44.20.10:445"),),
    reason="this machine only reads, and segments are sent again at the storage",
    decides="probe once more with --write",
)
NEEDS_ROOT = "asking for it needs CAP_NET_RAW"


@pytest.fixture
def troubled() -> Diagnosis:
    """A session that goes by Wi-Fi while the planned wire idles; a second address; questions without an answer."""
    spare = FarAddress(
        SLOW_VAULT,
        "mdns",
        route=Route("wlan0", gateway=ip_address("192.168.44.1"), table="100"),
        knocks={445: Knock("open", (0.0021,), lost=2), 8445: Knock("silent")},
        neighbours=Neighbours(("02:00:00:44:44:10", "02:00:00:44:44:99"), asked=False),
        frames=(FrameTest(9000, False, "icmp"), FrameTest(1500, True, "icmp")),
        routers=(ip_address("192.168.44.1"),),
    )
    lost = FarAddress(ip_address("fd55::50"), "hosts", no_route="Network is unreachable")
    seen = observed(
        target="/mnt/media",
        mount=Mount("/mnt/media", "cifs", "//vault/media", "vault", "media", VAULT, options=("rw", "vers=3.1.1")),
        addresses=(FAR, spare, lost),
        interfaces=interfaces(WLAN0._replace(made_up_rate=True, medium="virtual", duplex="half", parent="phy0")),
        sessions=(SESSION._replace(interface="wlan0"), ELSEWHERE._replace(interface=None)),
        client=ClientFacts((CHANNEL._replace(active=False),), "3.1.1", signing=True, encryption=False),
        offers=(Offer(VAULT, 10 * GBIT, 2), Offer(SLOW_VAULT)),
        timings=(COLD_READ, COLD_READ._replace(direction="write", cold=None, steps_s=(), cpu_share=None)),
        switch_port=SwitchPort("en5", "core", "1", "desk of cut-1", 9216, 44),
        service_order=("wlan0", "en5"),
        skipped=(
            Skipped("hardware addresses of 10.44.20.10", NEEDS_ROOT, "run it with sudo", ("two-answers-for-address",)),
            Skipped("hardware addresses of 192.168.44.10", NEEDS_ROOT, "run it with sudo"),
            Skipped("segments sent again", UNSENT.reason, "--write", (UNSENT.rule,)),
        ),
    )
    return diagnosed(
        seen,
        findings=(ON_WIRELESS, SLOW_OFFER),
        not_checked=(UNSENT,),
        causes=(
            Cause("traffic-on-wireless", (ON_WIRELESS.message, "the session goes by wlan0", "en5 moved nothing of it")),
            Cause("storage-offers-slower-port", ("192.168.44.10 is offered",)),
        ),
    )


@pytest.fixture
def hostile() -> Diagnosis:
    """Names with markup, terminal escapes, line feeds, bells and a text that runs backwards."""
    evil = "[red]\x1b[2Jev\u202eil\n\x07\x9b31m[/]"
    finding = ON_WIRELESS._replace(message=evil, remedy=evil, where=(Place("session", evil),))
    seen = observed(
        target=evil,
        host=evil,
        mount=Mount(f"/mnt/{evil}", evil, evil, options=(evil,)),
        addresses=(FAR._replace(no_route=evil),),
        interfaces=interfaces(port(evil, title=evil, mac=evil)),
        sessions=(SESSION._replace(interface=evil, owner=evil),),
        client=ClientFacts((CHANNEL._replace(share=evil),), dialect=evil),
        timings=(COLD_READ._replace(path=evil, interface=evil),),
        switch_port=SwitchPort("en5", evil, evil, evil),
        skipped=(Skipped(evil, evil, evil),),
    )
    cause = Cause("traffic-on-wireless", (evil,))
    return diagnosed(
        seen, None, findings=(finding,), not_checked=(UNSENT._replace(reason=evil),), causes=(cause, cause)
    )
