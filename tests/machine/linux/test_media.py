"""What an interface is made of."""

import pytest

from netaudit.machine.linux.media import Nature, made_up_rate, media, parent

ETHERNET, LOOPBACK, NO_LINK_LAYER, POINT_TO_POINT, RADIO_MONITOR = 1, 772, 65534, 512, 803
"""linux/if_arp.h: ARPHRD_ETHER, _LOOPBACK, _NONE, _PPP, _IEEE80211_RADIOTAP."""


def medium(*natures: Nature, radios: frozenset[int] = frozenset()) -> str:
    """The medium of the first of some interfaces, numbered from 1."""
    return media(dict(enumerate(natures, 1)), radios)[1]


@pytest.mark.parametrize(
    ("nature", "expected"),
    [
        (Nature("lo", LOOPBACK), "virtual"),
        (Nature("enp3s0", ETHERNET, has_device=True), "wired"),
        (Nature("enp3s0", ETHERNET), "unknown"),
        (Nature("wlp2s0", ETHERNET, has_device=True), "radio"),
        (Nature("wwan0", NO_LINK_LAYER, "wwan"), "radio"),
        (Nature("mon0", RADIO_MONITOR, has_device=True), "radio"),
        (Nature("tun0", NO_LINK_LAYER, "tun"), "tunnel"),
        (Nature("tap0", ETHERNET, "tun"), "wired"),
        (Nature("wg0", NO_LINK_LAYER, "wireguard"), "tunnel"),
        (Nature("ppp0", POINT_TO_POINT, "ppp"), "tunnel"),
        (Nature("gretap1", ETHERNET, "gretap"), "tunnel"),
        (Nature("veth0", ETHERNET, "veth"), "wired"),
        (Nature("bond0", ETHERNET, "bond"), "wired"),
        (Nature("br0", ETHERNET, "bridge"), "virtual"),
        (Nature("dummy0", ETHERNET, "dummy"), "virtual"),
        (Nature("new0", ETHERNET, "a kind of next year"), "unknown"),
        (Nature("ib0", 32, has_device=True), "unknown"),
    ],
    ids=lambda value: value.name if isinstance(value, Nature) else value,
)
def test_a_lone_interface(nature: Nature, expected: str) -> None:
    """Wireless names: systemd.net-naming-scheme(7)."""
    assert expected == medium(nature)


@pytest.mark.parametrize("number", [512, 513, 768, 769, 776, 778, 519, 823, 65534])
def test_a_link_layer_of_a_tunnel_makes_one(number: int) -> None:
    """linux/if_arp.h: ARPHRD_PPP, _HDLC, _TUNNEL, _TUNNEL6, _SIT, _IPGRE, _RAWIP, _IP6GRE, _NONE."""
    assert "tunnel" == medium(Nature("new0", number))


@pytest.mark.parametrize("number", [801, 802, 803, 804])
def test_a_link_layer_of_the_air_makes_a_radio(number: int) -> None:
    """linux/if_arp.h: ARPHRD_IEEE80211, its _PRISM and _RADIOTAP, and IEEE 802.15.4."""
    assert "radio" == medium(Nature("new0", number))


def test_the_kernel_knows_a_radio_of_any_name() -> None:
    assert "radio" == medium(Nature("cutting", ETHERNET, has_device=True), radios=frozenset({1}))


def test_a_vlan_is_of_the_medium_beneath() -> None:
    wire, radio = Nature("eth0", ETHERNET, has_device=True), Nature("wlan0", ETHERNET, has_device=True)

    assert "wired" == medium(Nature("eth0.20", ETHERNET, "vlan", beneath=2), wire)
    assert "radio" == medium(Nature("v20", ETHERNET, "vlan", beneath=2), radio)
    assert "unknown" == medium(Nature("v20", ETHERNET, "vlan", beneath=9))


def test_a_bond_is_of_the_medium_of_the_member_it_uses() -> None:
    bond = Nature("bond0", ETHERNET, "bond", beneath=3)
    wire = Nature("eth0", ETHERNET, has_device=True, master=1)
    radio = Nature("wlan0", ETHERNET, has_device=True, master=1)

    assert "radio" == medium(bond, wire, radio)
    assert "wired" == medium(bond._replace(beneath=2), wire, radio)


def test_interfaces_that_stand_on_each_other_in_a_ring_end() -> None:
    """No kernel makes such a ring; a list that lies may."""
    ring = (Nature("a", ETHERNET, "vlan", beneath=2), Nature("b", ETHERNET, "vlan", beneath=1))

    assert "unknown" == medium(*ring)


def test_the_parent_is_named() -> None:
    wire = Nature("eth0", ETHERNET, has_device=True, master=3)
    guest = Nature("tap7", ETHERNET, "tun", master=3)
    bridge = Nature("br0", ETHERNET, "bridge")
    vlan = Nature("eth0.20", ETHERNET, "vlan", beneath=1)
    natures = {1: wire, 2: guest, 3: bridge, 4: vlan, 5: vlan._replace(beneath=99)}

    assert "eth0" == parent(4, natures)
    assert "eth0" == parent(3, natures), "the one member with a device, whatever guests are in the bridge"
    assert parent(1, natures) is None
    assert parent(5, natures) is None, "the interface beneath is in another namespace"


def test_two_wires_in_one_bridge_are_no_parent() -> None:
    wires = {n: Nature(f"eth{n}", ETHERNET, has_device=True, master=3) for n in (1, 2)}

    assert parent(3, {**wires, 3: Nature("br0", ETHERNET, "bridge")}) is None


def test_only_a_wire_or_a_radio_has_a_rate_of_its_own() -> None:
    assert made_up_rate(Nature("veth0", ETHERNET, "veth"), "wired")
    assert made_up_rate(Nature("tun0", NO_LINK_LAYER, "tun"), "tunnel")
    assert made_up_rate(Nature("br0", ETHERNET, "bridge"), "virtual")
    assert not made_up_rate(Nature("tap0", ETHERNET, "tun"), "wired")
    assert not made_up_rate(Nature("eth0", ETHERNET, has_device=True), "wired")
