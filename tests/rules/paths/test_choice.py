"""The rule on the seat's own choice: something that somebody set says by which port it sends."""

from __future__ import annotations

from ipaddress import ip_address
from typing import Any

import pytest
from rooms import found, gaps, places
from wiring import aerial, cable, device, jack, many, network, seat, switch, vault, wired

import netaudit
from netaudit.model.plan import Bond, Network, Port
from netaudit.model.report import Report
from netaudit.rules.facts import build_facts
from netaudit.rules.paths.choice import ROUTE_AMBIGUOUS
from netaudit.standards.metrics import manager_metrics, service_ranks, speed_metrics

RULE = "route-ambiguous"
MEDIA = network("media", "10.44.20.0/24", purpose="storage")
OFFICE = network("office", "192.168.44.0/24")
ADDRESS = ip_address("10.44.20.10")


def desk(
    ports: dict[str, Port] | None = None,
    networks: tuple[Network, ...] = (MEDIA, OFFICE),
    box: Port | None = None,
    **fields: Any,
) -> Report:
    """A seat with a wire and Wi-Fi in the storage's network, or with these ports."""
    own = ports or {"wire": jack(10, untagged="media"), "air": aerial(0.866, untagged="media")}
    base = device("beacon", "access-point", {"air": aerial(10), "lan": jack(10)})
    store = vault("vault", {"fast": box or jack(untagged="media", addresses=(ADDRESS,))})
    cords = [
        cable(f"C{n}", f"cut-1/{name}", f"core/{n}") for n, name in enumerate(own, 3) if own[name].connector != "radio"
    ]
    return netaudit.check(
        wired(*networks, seat("cut-1", own, **fields), switch("core", many(8, jack())), base, store, *cords,
              cable("U1", "beacon/lan", "core/1"), cable("U2", "core/2", "vault/fast"))
    )  # fmt: skip


def test_a_seat_of_an_unknown_system_with_two_ports_in_the_network_is_told_to_name_it() -> None:
    (finding,) = found(desk(), RULE)

    assert "warn" == finding.severity
    assert ["path cut-1 > vault", "port cut-1/wire", "port cut-1/air"] == places(finding)
    assert (
        "cut-1/wire and cut-1/air are both in media, and which of them cut-1 uses depends on its system, "
        "which the plan does not tell" == finding.message
    )
    assert (
        "Take cut-1/air out of media, so that cut-1/wire is the only way to vault; "
        "or write down `system` of cut-1, and what it settles this by." == finding.remedy
    )
    assert "plan" == finding.source.standing


def test_macos_without_a_service_order_is_told_the_order_to_set() -> None:
    (finding,) = found(desk(system="macos"), RULE)

    assert "the service order that settles it on cut-1 is not given for them" in finding.message
    assert finding.remedy.endswith(
        "or drag wire above air in the service order, and write `service_order: [wire, air]`."
    )
    assert service_ranks()[True].source == finding.source


def test_windows_that_counts_both_alike_is_told_the_metrics() -> None:
    """Microsoft KB 299540: 1 Gb/s wired counts 25, Wi-Fi of 5765 Mb/s 25 as printed and 25 halved."""
    ports = {"wire": jack(1, untagged="media"), "air": aerial(5.765, untagged="media")}

    (finding,) = found(desk(ports, system="windows"), RULE)

    assert "nothing settles which of them cut-1 uses: it counts cut-1/wire 25 and cut-1/air 25" in finding.message
    assert finding.remedy.endswith("or set their metrics by hand, and write `metrics: {wire: 10, air: 100}`.")
    assert speed_metrics()["wired"][0].source == finding.source


def test_what_is_planned_and_only_software_prefers_is_told_as_well() -> None:
    """The same table: 10 Gb/s wired counts 15, Wi-Fi of 866 Mb/s 30 as printed and 35 halved."""
    (finding,) = found(desk(system="windows"), RULE)

    assert (
        "cut-1/wire and cut-1/air are both in media, and cut-1 uses cut-1/wire only because Windows by itself counts "
        "cut-1/wire 15 and cut-1/air 30 to 35, where the lowest wins" == finding.message
    )


def test_linux_is_told_what_its_manager_counts() -> None:
    (finding,) = found(desk(system="linux", manager="NetworkManager"), RULE)
    assert "only because NetworkManager by itself counts cut-1/wire 100 and cut-1/air 600" in finding.message
    assert manager_metrics()["networkmanager", "ethernet"].source == finding.source

    (tie,) = found(desk(system="linux", manager="systemd-networkd"), RULE)
    assert "it counts cut-1/wire 1024 and cut-1/air 1024" in tie.message
    assert manager_metrics()["systemd-networkd", "any"].source == tie.source


def test_linux_under_an_unknown_manager_goes_by_what_came_first() -> None:
    (bare,) = found(desk(system="linux"), RULE)
    assert "what manages its network is not given, and of equal routes the first one wins" in bare.message
    assert "plan" == bare.source.standing

    (script,) = found(desk(system="linux", manager="a script"), RULE)
    assert "a script is in no table" in script.message

    (half,) = found(desk(system="linux", metrics={"wire": 50}), RULE)
    assert "it counts cut-1/wire 50, and the lowest wins" in half.message


@pytest.mark.parametrize(
    "fields",
    [
        {"system": "macos", "service_order": ("wire", "air")},
        {"system": "macos", "service_order": ("air", "wire")},
        {"system": "windows", "metrics": {"wire": 10, "air": 100}},
        {"system": "windows", "metrics": {"wire": 1000, "air": 100}},
        {"system": "windows", "metrics": {"wire": 10}},
        {"system": "linux", "metrics": {"wire": 10, "air": 100}},
        {"system": "linux", "manager": "NetworkManager", "metrics": {"air": 1000}},
    ],
)
def test_what_somebody_set_decides_for_whichever_port_and_the_rule_is_silent(fields: dict[str, Any]) -> None:
    report = desk(**fields)

    assert ([], []) == (found(report, RULE), gaps(report, RULE))


def test_software_that_prefers_another_port_than_the_planned_one_is_no_matter_of_doubt() -> None:
    """The same table: 100 Mb/s wired counts 35, Wi-Fi of 2402 Mb/s 25 as printed and 30 halved."""
    ports = {"wire": jack(0.1, untagged="media"), "air": aerial(2.402, untagged="media")}

    assert [] == found(desk(ports, system="windows"), RULE)


def test_a_narrower_subnet_decides() -> None:
    wide = network("office", "10.44.0.0/16")
    ports = {"wire": jack(10, untagged="media"), "air": aerial(1, untagged="office")}

    assert [] == found(desk(ports, networks=(MEDIA, wide)), RULE)


@pytest.mark.parametrize(
    "ports",
    [
        {"wire": jack(10, untagged="media")},
        {"wire": jack(10, untagged="media"), "air": aerial(1, untagged="office")},
        {"wire": jack(10, untagged="media", tagged=("office",))},
    ],
)
def test_one_port_in_the_network_is_no_choice(ports: dict[str, Port]) -> None:
    report = desk(ports)

    assert ([], []) == (found(report, RULE), gaps(report, RULE))


def test_a_bond_counts_once_and_under_its_own_name() -> None:
    ports = {"a": jack(10), "b": jack(10)}
    bonds = {"pair": Bond(("a", "b"), untagged="media")}
    assert [] == found(desk(ports, bonds=bonds), RULE)

    (finding,) = found(desk({**ports, "air": aerial(1, untagged="media")}, bonds=bonds, system="macos"), RULE)
    assert ["port cut-1/pair", "port cut-1/air"] == places(finding)[1:]
    assert "service_order: [pair, air]" in finding.remedy


def test_three_ports_are_told_together_the_planned_one_first() -> None:
    ports = {"slow": jack(1, untagged="media"), "wire": jack(10, untagged="media"), "air": aerial(1, untagged="media")}

    (finding,) = found(desk(ports, system="linux"), RULE)

    assert "cut-1/slow, cut-1/wire and cut-1/air are all in media" in finding.message
    assert ["port cut-1/wire", "port cut-1/slow", "port cut-1/air"] == places(finding)[1:]
    assert "Take cut-1/slow and cut-1/air out of media, so that cut-1/wire is the only way" in finding.remedy
    assert "metrics: {wire: 10, slow: 100, air: 100}" in finding.remedy


def test_in_a_plan_without_networks_two_ports_are_in_one() -> None:
    (finding,) = found(desk({"wire": jack(10), "air": aerial(1)}, networks=(), box=jack()), RULE)

    assert "cut-1/wire and cut-1/air are both in one network" in finding.message
    assert finding.remedy.startswith("Take cut-1/air out of that network, so that cut-1/wire")


def test_a_second_port_whose_network_is_not_given_leaves_it_open_and_the_path_proven() -> None:
    report = desk({"wire": jack(10, untagged="media"), "air": aerial(1)})

    (gap,) = gaps(report, RULE)
    assert ["port cut-1/air"] == places(gap)
    assert "The network of cut-1/air is not given" == gap.reason
    assert "write down `network` of cut-1/air: in media it would contend with cut-1/wire" == gap.decides
    assert ["pass"] == [judged.verdict for judged in report.paths if judged.path.planned]


def test_a_second_port_whose_address_tells_its_network_is_not_asked_for_it() -> None:
    house = jack(addresses=(ip_address("192.168.44.9"),))

    assert [] == gaps(desk({"wire": jack(10, untagged="media"), "house": house}), RULE)


def test_a_seat_that_goes_through_a_router_has_no_port_there_to_choose_from() -> None:
    lit = (network("media", "10.44.20.0/24", "10.44.20.1"), network("office", "192.168.44.0/24", "192.168.44.1"))
    gate = device("gate", "router", {"m": jack(untagged="media"), "o": jack(untagged="office")})
    cut = seat("cut-1", {"a": jack(untagged="office"), "b": jack(untagged="office")})
    core = switch(
        "core", {**many(4, jack(untagged="office")), "9": jack(untagged="media"), "10": jack(untagged="media")}
    )
    ends = [
        ("cut-1/a", "core/1"),
        ("cut-1/b", "core/2"),
        ("gate/o", "core/3"),
        ("gate/m", "core/9"),
        ("vault/fast", "core/10"),
    ]
    box = vault("vault", {"fast": jack(untagged="media", addresses=(ADDRESS,))})

    report = netaudit.check(wired(*lit, gate, cut, core, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends))))

    assert [True] * len(report.paths) == [judged.path.routed for judged in report.paths]
    assert ([], []) == (found(report, RULE), gaps(report, RULE))


@pytest.mark.parametrize(
    "fields", [{"system": "macos"}, {"system": "windows"}, {"system": "linux"}, {"system": "linux", "manager": "x"}]
)
def test_the_setting_that_the_remedy_names_settles_it(fields: dict[str, Any]) -> None:
    (finding,) = found(desk(**fields), RULE)
    key, _, value = finding.remedy.rpartition("`")[0].rpartition("`")[2].partition(": ")
    names = value.strip("[]{}").split(", ")
    pairs = (name.split(": ") for name in names)
    setting = tuple(names) if key == "service_order" else {name: int(metric) for name, metric in pairs}

    assert [] == found(desk(**fields, **{key: setting}), RULE)


def test_the_sources_are_those_of_every_system() -> None:
    sources = list(ROUTE_AMBIGUOUS.sources())

    assert 5 == len(sources) == len(set(sources))
    assert {"plan", "read"} == {source.standing for source in sources}


def test_a_manager_without_a_system_is_no_rule() -> None:
    (finding,) = found(desk(manager="NetworkManager"), RULE)

    assert "plan" == finding.source.standing


@pytest.mark.parametrize(
    "fields",
    [
        {"system": "windows", "metrics": {"wire": 10, "air": 100}},
        {"system": "linux", "metrics": {"wire": 10, "air": 100}},
    ],
)
def test_what_somebody_set_decides_in_a_plan_without_networks_as_well(fields: dict[str, Any]) -> None:
    report = desk({"wire": jack(10), "air": aerial(1)}, networks=(), box=jack(), **fields)

    assert ([], []) == (found(report, RULE), gaps(report, RULE))


LIT = network("media", "10.44.20.0/24", "10.44.20.1", purpose="storage")
OWN_NETWORK = (
    "or give vault a network and a subnet of its own without a gateway, with cut-1/wire and no other port of the seat "
    "in it, and mount it by its address there."
)


def mac(wire: dict[str, Any], air: dict[str, Any], *order: str, within: Network = LIT) -> Report:
    """A seat under macOS whose wire and Wi-Fi are in a network with a gateway."""
    ports = {"wire": jack(10, untagged="media", **wire), "air": aerial(1, untagged="media", **air)}
    return desk(ports, networks=(within, OFFICE), system="macos", service_order=order)


FIXED, LENT = {"addresses": (ip_address("10.44.20.11"),)}, {"leased": True}


@pytest.mark.parametrize("order", [(), ("wire", "air")])
def test_no_service_order_settles_it_beside_a_gateway_that_may_not_be_typed_in(order: tuple[str, ...]) -> None:
    """configd at commit 585b7f2, ip_plugin.c: a service without a router ranks last, its subnet's route included."""
    (finding,) = found(mac(FIXED, LENT, *order), RULE)

    assert (
        "cut-1/wire and cut-1/air are both in media, and macOS ranks a port without a router last, wherever it stands "
        "in the service order: whether cut-1/wire has one is not in the plan" == finding.message
    )
    assert finding.remedy.startswith("Take cut-1/air out of media, so that cut-1/wire is the only way to vault; ")
    assert finding.remedy.endswith(OWN_NETWORK)
    assert service_ranks()[True].source == finding.source


def test_two_fixed_addresses_beside_a_gateway_are_both_in_doubt() -> None:
    (finding,) = found(mac(FIXED, {}, "wire", "air"), RULE)

    assert finding.message.endswith("whether cut-1/wire and cut-1/air have one is not in the plan")
    assert finding.remedy.endswith(OWN_NETWORK)


def test_in_a_plan_without_networks_nobody_knows_which_port_has_a_router() -> None:
    ports = {"wire": jack(10), "air": aerial(1)}

    (finding,) = found(
        desk(ports, networks=(), box=jack(), system="macos", service_order=("wire", "air")), RULE
    )  # fmt: skip

    assert finding.message.startswith("cut-1/wire and cut-1/air are both in one network, and macOS ranks")


def test_leases_bring_a_router_along_so_that_the_order_settles_it() -> None:
    (finding,) = found(mac(LENT, LENT), RULE)
    assert "the service order that settles it on cut-1 is not given for them" in finding.message
    assert finding.remedy.endswith("and write `service_order: [wire, air]`.")

    assert [] == found(mac(LENT, LENT, "wire", "air"), RULE)
    assert [] == found(mac(FIXED, LENT, "air", "wire"), RULE)
    assert [] == found(mac(FIXED, LENT, "wire", "air", within=MEDIA), RULE)


def test_no_order_helps_a_port_without_a_gateway_beside_two_that_have_one() -> None:
    dark = network("dark", "10.44.20.0/24", purpose="storage")
    lit = LIT._replace(purpose=None)
    ports = {
        "wire": jack(10, untagged="dark"),
        "air": aerial(1, untagged="media", leased=True),
        "spare": jack(1, untagged="media", leased=True),
    }
    box = jack(untagged="dark", addresses=(ADDRESS,))

    (finding,) = found(desk(ports, networks=(lit, dark), box=box, system="macos"), RULE)

    assert "cut-1/wire, cut-1/air and cut-1/spare are all in dark and media" in finding.message
    assert finding.remedy.endswith(OWN_NETWORK)


@pytest.mark.parametrize("system", ["macos", "windows", "linux", None])
def test_where_a_narrower_subnet_leaves_the_planned_port_out_no_setting_is_told_for_another(system: Any) -> None:
    narrow = network("narrow", "10.44.20.0/28")
    ports = {"wire": jack(10, untagged="media"), "one": jack(1, untagged="narrow"), "two": jack(1, untagged="narrow")}

    (finding,) = found(desk(ports, networks=(MEDIA, narrow), system=system), RULE)

    assert finding.message.startswith("cut-1/one and cut-1/two are both in narrow, and ")
    assert ["path cut-1 > vault", "port cut-1/one", "port cut-1/two"] == places(finding)
    assert "Take cut-1/one and cut-1/two out of narrow, so that cut-1/wire is the only way to vault." == finding.remedy


def test_a_seat_with_one_port_or_without_a_road_is_not_asked() -> None:
    core = switch("core", many(4, jack(untagged="media")))
    pair = {"a": jack(untagged="media"), "b": jack(untagged="media")}
    cords = [cable("C1", "cut-1/a", "core/1"), cable("C2", "cut-1/b", "core/2")]
    lost = build_facts(wired(MEDIA, seat("cut-1", pair), core, vault(), *cords))
    lone = build_facts(wired(MEDIA, seat("cut-1", pair), core, vault(), cords[0], cable("C3", "vault/fast", "core/3")))

    assert ([], []) == (list(ROUTE_AMBIGUOUS.subjects(lost)), list(ROUTE_AMBIGUOUS.subjects(lone)))
