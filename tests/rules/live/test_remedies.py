"""Remedies at the desk: the exact step on each system, with every name quoted for the shell that reads it."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv4Network, IPv6Address, IPv6Interface, ip_interface

import pytest
from deskwork import planned_port, situation

from netaudit.model.machine_state import Route
from netaudit.model.observation import Observation
from netaudit.rules.live.desk import EN5, EXPECTED, SEEN, VAULT, WLAN0, with_interface
from netaudit.rules.live.remedies import (
    far_end_of,
    marked,
    only_the_cable,
    planned_mount,
    plug_in,
    prefer,
    rank_explained,
    remount,
    special_route,
    without_host_route,
)

LINUX = SEEN._replace(manager=None)
MAC = SEEN._replace(system="macos", manager=None)
WINDOWS = SEEN._replace(system="windows", manager=None)


def mounted(seen: Observation, **fields: object) -> Observation:
    assert seen.mount is not None
    return seen._replace(mount=seen.mount._replace(**fields))


@pytest.mark.parametrize(
    ("seen", "text"),
    [
        (
            LINUX,
            "run `sudo umount /mnt/media`, then `sudo mount -t cifs //10.44.20.10/media /mnt/media` with the options it had",
        ),
        (
            mounted(LINUX, kind="nfs4", source="vault:/pool/media"),
            "run `sudo umount /mnt/media`, then `sudo mount -t nfs 10.44.20.10:/pool/media /mnt/media` with the options it had",
        ),
        (
            mounted(LINUX, kind="fuse.sshfs"),
            "run `sudo umount /mnt/media`, then mount /mnt/media again from 10.44.20.10",
        ),
        (
            mounted(LINUX, folder="/mnt/a; b", share="c d"),
            "run `sudo umount '/mnt/a; b'`, then `sudo mount -t cifs '//10.44.20.10/c d' '/mnt/a; b'` with the options it had",
        ),
        (
            mounted(MAC, folder="/Volumes/media"),
            "eject it with `diskutil unmount /Volumes/media`, then in the Finder choose Go, Connect to Server, and type "
            "`smb://10.44.20.10/media`",
        ),
        (
            mounted(WINDOWS, folder="Z:\\", share="it's"),
            "close what uses it, then run `Remove-SmbMapping -LocalPath 'Z:' -Force` and `New-SmbMapping -LocalPath 'Z:' "
            r"-RemotePath '\\10.44.20.10\it''s' -Persistent $true`, not as administrator",
        ),
        (LINUX._replace(mount=None), "eject the share and mount it again by 10.44.20.10"),
    ],
)
def test_mounting_again_is_told_for_the_system_and_the_kind_of_mount(seen: Observation, text: str) -> None:
    assert text == remount(situation(seen), VAULT)


def test_without_an_address_the_host_is_mounted_by_its_name() -> None:
    assert "`sudo mount -t cifs //vault/media /mnt/media`" in remount(situation(LINUX), None)
    assert "eject the share and mount it again" == remount(situation(LINUX._replace(mount=None)), None)


def test_an_ipv6_address_stands_in_brackets_where_a_path_follows() -> None:
    far = IPv6Address("fd44:20::10")

    assert "`smb://[fd44:20::10]/media`" in remount(situation(MAC), far)
    assert "'//[fd44:20::10]/media'" in remount(situation(LINUX), far)
    assert "'[fd44:20::10]:/p'" in remount(situation(mounted(LINUX, kind="nfs", source="vault:/p")), far)


def test_a_share_without_a_name_is_left_to_fill_in() -> None:
    assert "//10.44.20.10/SHARE" in remount(situation(mounted(LINUX, share=None)), VAULT)


def test_the_planned_address_is_mounted_where_there_is_one() -> None:
    assert VAULT == planned_mount(situation())
    assert None is planned_mount(situation(SEEN, None))
    assert None is planned_mount(situation(SEEN, EXPECTED._replace(road=None)))


def test_a_proposed_subnet_is_in_nobodys_way() -> None:
    taken = with_interface(EN5._replace(addresses=(IPv4Interface("10.55.0.9/16"),)), LINUX)
    taken = taken._replace(addresses=(taken.addresses[0]._replace(address=IPv4Address("10.66.40.4")),))
    air = WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),))
    advice = only_the_cable(situation(with_interface(air, taken), None), EN5, "wlan0")

    assert (
        "such as 192.168.144.0/24, with 192.168.144.10 on the storage's fast port and 192.168.144.11 on en5 (" in advice
    )


def test_the_first_subnet_is_proposed_where_it_is_free() -> None:
    alone = LINUX._replace(interfaces={}, addresses=())

    assert "such as 10.44.20.0/24" in only_the_cable(situation(alone, None), EN5, "wlan0")


@pytest.mark.parametrize(
    ("own", "near"),
    [
        ("172.20.7.77/24", "10.44.20.77"),
        ("172.20.7.10/24", "10.44.20.11"),
        ("172.20.7.0/16", "10.44.20.11"),
        ("172.20.7.255/16", "10.44.20.11"),
        ("2001:db8::77/64", "10.44.20.11"),
        (None, "10.44.20.11"),
    ],
)
def test_two_seats_are_told_addresses_of_their_own(own: str | None, near: str) -> None:
    """Neither the storage's own .10, nor the first or last address of the subnet: RFC 1122, section 3.2.1.3."""
    alone = LINUX._replace(interfaces={}, addresses=())
    wire = EN5._replace(addresses=() if own is None else (ip_interface(own),))

    assert f"10.44.20.10 on the storage's fast port and {near} on en5 (" in only_the_cable(
        situation(alone, None), wire, "wlan0"
    )


def test_a_subnet_is_proposed_beside_others_of_either_version() -> None:
    air = WLAN0._replace(addresses=(IPv4Interface("192.168.44.101/24"), IPv6Interface("2001:db8::101/64")))
    seen = LINUX._replace(interfaces={"wlan0": air}, addresses=())

    assert "such as 10.44.20.0/24" in only_the_cable(situation(seen, None), EN5, "wlan0")


def test_wifi_goes_back_to_its_own_network_where_the_plan_gives_it_one_without_the_storage() -> None:
    seen = with_interface(WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),)))
    office, media = IPv4Network("192.168.44.0/24"), IPv4Network("10.44.20.0/24")
    texts = [
        only_the_cable(situation(seen, planned_port("air", subnets=subnets)), EN5, "wlan0")
        for subnets in ((office,), (office, media), ())
    ]

    assert texts[0].startswith("Leave Wi-Fi on, but in its own network (office, 192.168.44.0/24): it has an address in")
    assert all("a subnet of its own" in text for text in texts[1:])


def test_a_narrow_route_of_windows_is_taken_out_by_its_host() -> None:
    route = Route("Ethernet", prefix=IPv4Network("10.44.20.10/32"))

    assert "`route delete 10.44.20.10`, as administrator, takes it out" == without_host_route(route, situation(WINDOWS))


def test_wifi_that_is_planned_into_the_storages_subnet_gets_the_storage_a_new_one() -> None:
    air = EXPECTED.ports["air"]._replace(subnets=(IPv4Network("10.44.20.0/24"),))
    expected = EXPECTED._replace(ports={**EXPECTED.ports, "air": air})
    seen = with_interface(WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),)))

    assert "a subnet of its own" in only_the_cable(situation(seen, expected), EN5, "wlan0")


@pytest.mark.parametrize(
    ("seen", "text"),
    [
        (
            MAC,
            "For SMB alone a line `mc_prefer_wired=yes` under `[default]` in /etc/nsmb.conf also does, after the next "
            "mount; the service order settles it only between services that both have a router: put en5 above wlan0 "
            "there.",
        ),
        (
            WINDOWS,
            "Or let en5 win, as administrator: `Set-NetIPInterface -InterfaceAlias 'en5' -InterfaceMetric 5`, and for SMB "
            "`New-SmbMultichannelConstraint -ServerName 'vault' -InterfaceAlias 'en5'`, which binds that server to that "
            "port until it is removed.",
        ),
        (
            SEEN,
            'Or let en5 win: `nmcli connection modify "$(nmcli -g GENERAL.CONNECTION device show en5)" '
            "ipv4.route-metric 50`, then `nmcli device reapply en5`.",
        ),
        (
            SEEN._replace(manager="networkd"),
            "Or let en5 win: `RouteMetric=50` under [DHCPv4], or `Metric=50` under [Route], in its .network file, then "
            "`networkctl reload` and `networkctl reconfigure en5`.",
        ),
        (
            LINUX,
            "Or let en5 win: `sudo ip route del 192.168.44.0/24 dev wlan0 && sudo ip route add 192.168.44.0/24 dev wlan0 src "
            "192.168.44.101 metric 5000`, which holds until the next start.",
        ),
        (
            with_interface(WLAN0._replace(addresses=()), LINUX),
            "Or let en5 win: give the routes of wlan0 a higher metric.",
        ),
    ],
)
def test_a_port_is_preferred_in_the_way_of_each_system(seen: Observation, text: str) -> None:
    assert text == prefer(situation(seen), "en5", "wlan0")


def test_a_name_of_an_interface_cannot_break_out_of_a_command() -> None:
    name = "en5; rm x"

    assert "device show 'en5; rm x')" in prefer(situation(SEEN), name, "wlan0")
    assert "-InterfaceAlias 'it''s'" in prefer(situation(WINDOWS), "it's", "wlan0")


@pytest.mark.parametrize(
    ("route", "begins"),
    [
        (None, ""),
        (Route("wlan0", prefix=IPv4Network("10.44.20.0/24")), ""),
        (Route("wlan0"), ""),
        (
            Route("wlan0", prefix=IPv4Network("10.44.20.10/32")),
            "A route of its own to this one host leads to wlan0: which",
        ),
        (Route("wlan0", table="100"), "A policy rule sends it there by table 100:"),
    ],
)
def test_a_rule_or_a_narrow_route_is_named(route: Route | None, begins: str) -> None:
    text = special_route(situation(), route)

    assert text.startswith(begins)
    assert bool(begins) == bool(text)
    assert "" == special_route(situation(MAC), route)


def test_a_narrow_route_is_taken_out_as_it_stands() -> None:
    narrow = IPv4Network("10.44.20.10/32")

    assert "`sudo ip route del 10.44.20.10/32 dev wlan0`" in special_route(situation(), Route("wlan0", prefix=narrow))
    assert "`sudo ip route del 10.44.20.10/32 via 192.168.44.1 dev wlan0`" in special_route(
        situation(), Route("wlan0", gateway=IPv4Address("192.168.44.1"), prefix=narrow)
    )


def test_ranks_explain_a_loss_only_on_a_mac_with_the_wire_ahead_in_a_shared_subnet() -> None:
    air = WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),))
    seen = with_interface(air, MAC._replace(service_order=("en5", "wlan0")))

    assert rank_explained(situation(seen), EN5, "wlan0")
    two = EN5._replace(addresses=(*EN5.addresses, IPv4Interface("172.21.0.2/24")))
    assert rank_explained(situation(seen), two, "wlan0")
    second = air._replace(addresses=(*air.addresses, IPv4Interface("172.20.0.2/24")))
    assert rank_explained(situation(with_interface(second, seen)), EN5, "wlan0")
    assert not rank_explained(situation(seen._replace(system="linux")), EN5, "wlan0")
    assert not rank_explained(situation(seen._replace(service_order=("wlan0", "en5"))), EN5, "wlan0")
    assert not rank_explained(situation(with_interface(WLAN0, seen)), EN5, "wlan0")
    assert rank_explained(situation(seen), EN5._replace(ranked_last=True), "wlan0")
    assert not rank_explained(situation(seen), EN5._replace(ranked_last=False), "wlan0")
    assert not rank_explained(situation(seen), None, "wlan0")
    assert not rank_explained(situation(seen._replace(service_order=("en5",))), EN5, "wlan0")
    assert not rank_explained(situation(seen._replace(service_order=("wlan0",))), EN5, "wlan0")


def test_a_port_that_was_not_recognised_is_asked_for_by_name() -> None:
    assert plug_in(situation()).endswith("(en5 and en6 are on a cable here)")
    one = SEEN._replace(interfaces={"en5": EN5, "wlan0": WLAN0})
    assert "give cut-1/wire its `interface:` or its `mac:` in the plan (en5 is on a cable here)" == plug_in(
        situation(one)
    )
    none = SEEN._replace(interfaces={"wlan0": WLAN0})
    assert "give cut-1/wire its `interface:` or its `mac:` in the plan" == plug_in(situation(none))
    assert plug_in(situation(SEEN, None)).startswith("give the planned port its `interface:`")


def test_the_far_end_is_named_as_far_as_the_plan_tells() -> None:
    assert "core/1" == far_end_of(situation(), "en5")
    assert "the other end" == far_end_of(situation(), "en6")
    assert "the other end" == far_end_of(situation(SEEN, None), "en5")


def test_an_interface_that_is_not_known_is_still_named() -> None:
    assert "Or let en5 win: give the routes of en9 a higher metric." == prefer(situation(LINUX), "en5", "en9")


@pytest.mark.parametrize(
    ("seen", "where"),
    [(LINUX, "`ip rule show` for a rule on it (fwmark)"), (MAC, "for `route-to`"), (WINDOWS, "filter programs")],
)
def test_what_no_look_up_sees_is_looked_for_in_the_packet_filter_of_the_system(seen: Observation, where: str) -> None:
    assert where in marked(situation(seen), "en6")
