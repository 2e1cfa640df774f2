"""What changed between two probes."""

from __future__ import annotations

from ipaddress import IPv4Interface, ip_address

import pytest
from observations import (
    BY_AIR,
    ELSEWHERE,
    EN5,
    FAR,
    GBIT,
    SESSION,
    SLOW_VAULT,
    WLAN0,
    diagnosed,
    first_look,
    interfaces,
    observed,
    port,
    situated,
)

from netaudit.citation import OBSERVED
from netaudit.model.finding import Finding
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress, Knock, Neighbours
from netaudit.model.place import Place
from netaudit.report.probe.changes import changes
from netaudit.report.probe.words import sentence

FLAPPING = Finding("link-flapping", "warn", (Place("interface", "en5"),), "it flaps", "Replace it.", OBSERVED)


def test_nothing_is_told_where_nothing_changed() -> None:
    busier = SESSION._replace(tcp=SESSION.tcp._replace(received_bytes=99_000_000_000), round_trip_s=0.0004)

    assert () == changes(diagnosed(), diagnosed(observed(sessions=(busier,), took_s=3.4)))


def test_another_interface_is_told_with_the_whole_sentence_and_the_one_before() -> None:
    after = diagnosed(observed(sessions=(SESSION._replace(interface="wlan0"),)))
    lines = changes(diagnosed(), after)

    assert lines == (
        f"{sentence(after.situation)} Before, it went by en5 to 10.44.20.10.",
        "session 10.44.20.11:51820 - 10.44.20.10:445 goes by wlan0, before by en5",
    )


def test_the_end_of_the_last_session_leaves_a_prediction() -> None:
    after = diagnosed(observed(sessions=()))

    assert changes(diagnosed(), after) == (
        f"{sentence(after.situation)} Before, it went by en5 to 10.44.20.10.",
        "session 10.44.20.11:51820 - 10.44.20.10:445 has ended",
    )
    assert changes(after, diagnosed()) == (
        f"{sentence(situated())} Before, it would have gone by en5 to 10.44.20.10.",
        "session 10.44.20.11:51820 - 10.44.20.10:445 is open, over en5",
    )


def test_a_road_that_ends_is_told() -> None:
    nothing = diagnosed(first_look(addresses=(FAR._replace(route=None, no_route="Network is unreachable", knocks={}),)))
    lines = changes(nothing, diagnosed(observed(sessions=())))

    assert "vault (10.44.20.10) would go by en5" in lines[0]
    assert lines[0].endswith("Before, nothing led there.")
    assert changes(diagnosed(), nothing)[0].startswith("No route leads from this machine to vault (10.44.20.10)")


@pytest.mark.parametrize(
    ("state", "line"),
    [
        (EN5._replace(carrier=False), "en5 lost its link"),
        (EN5._replace(carrier_changes=3), "en5 lost its link and has it again"),
        (EN5._replace(rate_bit_per_s=GBIT), "en5 runs at 1 Gb/s (125 MB/s), before at 10 Gb/s (1250 MB/s)"),
        (EN5._replace(mtu=1500), "en5 sends packets to 1500 octets, before to 9000"),
        (
            EN5._replace(addresses=(IPv4Interface("169.254.3.4/16"),)),
            "en5 has 169.254.3.4/16, before 10.44.20.11/24",
        ),
        (EN5._replace(addresses=()), "en5 has no address, before 10.44.20.11/24"),
        (WLAN0._replace(rate_bit_per_s=150_000_000), "wlan0 runs at 150 Mb/s (18.8 MB/s), before at 300 Mb/s (37.5 MB/s)"),
        (port("en7", addresses=(IPv4Interface("10.9.0.2/24"),)), "en7 is new"),
    ],
)  # fmt: skip
def test_what_happens_to_a_port_is_told(state: Interface, line: str) -> None:
    assert line in changes(diagnosed(), diagnosed(observed(interfaces=interfaces(state))))


@pytest.mark.parametrize(
    "state",
    [
        EN5._replace(carrier=None),
        EN5._replace(rate_bit_per_s=None),
        EN5._replace(mtu=None),
        EN5._replace(carrier_changes=None),
        WLAN0._replace(rate_bit_per_s=200_000_000),
        port("docker0", "virtual"),
    ],
)
def test_what_is_not_known_or_does_not_matter_is_no_change(state: Interface) -> None:
    assert () == changes(diagnosed(), diagnosed(observed(interfaces=interfaces(state))))
    assert () == changes(diagnosed(observed(interfaces=interfaces(state))), diagnosed())


def test_a_port_that_is_gone_or_has_its_link_again_is_told() -> None:
    dead = diagnosed(observed(interfaces=interfaces(EN5._replace(carrier=False))))
    pulled = diagnosed(observed(interfaces={"en5": EN5}))

    assert ("en5 has a link again",) == changes(dead, diagnosed())
    assert ("wlan0 is gone",) == changes(diagnosed(), pulled)


def test_addresses_and_services_of_the_storage_that_come_and_go_are_told() -> None:
    spare = FarAddress(SLOW_VAULT, "dns", route=BY_AIR)
    refused = FAR._replace(knocks={445: Knock("refused"), 2049: Knock("refused")})
    both = diagnosed(observed(addresses=(FAR, spare)))

    assert ("vault has the address 192.168.44.10 now",) == changes(diagnosed(), both)
    assert ("vault has the address 192.168.44.10 no longer",) == changes(both, diagnosed())
    assert ("SMB (445) at 10.44.20.10 is refused, before open",) == changes(
        diagnosed(), diagnosed(observed(addresses=(refused,)))
    )


def test_another_hardware_address_behind_an_address_is_told() -> None:
    stranger = FAR._replace(neighbours=Neighbours(("02:00:00:00:00:99",), asked=True))

    assert ("10.44.20.10 is answered by 02:00:00:00:00:99, before by 02:00:00:44:20:10",) == changes(
        diagnosed(), diagnosed(observed(addresses=(stranger,)))
    )
    assert () == changes(diagnosed(), diagnosed(observed(addresses=(FAR._replace(neighbours=None),))))


def test_findings_come_and_go() -> None:
    assert ("warn: link-flapping at interface en5: it flaps",) == changes(diagnosed(), diagnosed(findings=(FLAPPING,)))
    assert ("no longer: link-flapping at interface en5",) == changes(diagnosed(findings=(FLAPPING,)), diagnosed())
    assert () == changes(
        diagnosed(findings=(FLAPPING,)), diagnosed(findings=(FLAPPING._replace(message="it flaps 9 times"),))
    )


def test_a_session_without_a_known_interface_is_told_without_one() -> None:
    unknown = ELSEWHERE._replace(interface=None, local=ELSEWHERE.local._replace(address=ip_address("198.51.100.7")))

    assert "session 198.51.100.7:49999 - 192.168.44.10:445 is open" in changes(
        diagnosed(), diagnosed(observed(sessions=(SESSION, unknown)))
    )


def test_whatever_a_terminal_would_obey_is_written_out() -> None:
    hostile = FLAPPING._replace(message="it \x1b[2J flaps")

    assert (r"warn: link-flapping at interface en5: it \x1b[2J flaps",) == changes(
        diagnosed(), diagnosed(findings=(hostile,))
    )
