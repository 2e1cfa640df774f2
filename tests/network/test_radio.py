"""Radio: which client joins which access point, and what stands for the rest where there are very many."""

from __future__ import annotations

import tracemalloc

import pytest
from wiring import aerial, cable, device, jack, many, network, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Cable, Device, Network, Plan, Port
from netaudit.network import radio
from netaudit.network.radio import MOST_BASES, MOST_LINKS, radio_links
from netaudit.network.topology import build_topology

MEDIA, OFFICE = network("media"), network("office")
KEYLESS, IN_MEDIA, IN_OFFICE = aerial(), aerial(untagged="media"), aerial(untagged="office")
TRUNK = aerial(untagged="office", tagged=("media",))


def joined(*things: Device | Cable | Network) -> list[tuple[str, str]]:
    """The two ends of each radio link of a plan."""
    return [(str(link.near), str(link.far)) for link in topology_of(*things).links if link.by_radio]


@pytest.mark.parametrize(
    ("client", "base", "expected"),
    [
        (KEYLESS, KEYLESS, True),
        (KEYLESS, IN_MEDIA, True),
        (IN_MEDIA, KEYLESS, True),
        (IN_MEDIA, IN_MEDIA, True),
        (IN_MEDIA, TRUNK, True),
        (TRUNK, IN_MEDIA, True),
        (IN_MEDIA, IN_OFFICE, False),
    ],
)
def test_a_client_joins_the_access_points_that_carry_a_network_of_it(client: Port, base: Port, expected: bool) -> None:
    found = joined(MEDIA, OFFICE, seat("cut-1", {"air": client}), device("ap", "access-point", {"wl": base}))
    assert found == ([("cut-1/air", "ap/wl")] if expected else [])


def test_clients_do_not_join_each_other_nor_access_points_and_other_ports_join_nothing() -> None:
    seats = [seat(f"cut-{number}", {"air": KEYLESS, "wire": jack()}) for number in (1, 2)]
    bases = [device(f"ap-{number}", "access-point", {"wl": KEYLESS, "lan": jack()}) for number in (1, 2)]
    assert joined(*seats, *bases) == [(f"cut-{one}/air", f"ap-{other}/wl") for one in (1, 2) for other in (1, 2)]
    assert joined(*seats) == joined(*bases) == []


def test_of_the_radios_of_an_access_point_that_carry_the_same_the_first_by_name_stands_for_all() -> None:
    radios = {"wl-6": IN_MEDIA, "wl-2": IN_MEDIA, "wl-5": IN_MEDIA, "guest": IN_OFFICE, "all": TRUNK}
    found = joined(MEDIA, OFFICE, seat("cut-1", {"air": IN_MEDIA}), device("ap", "access-point", radios))
    assert found == [("cut-1/air", "ap/wl-2"), ("cut-1/air", "ap/all")]


def campus(clients: int, bases: int, *more: Device | Cable, lan: Port | None = None) -> Plan:
    """So many laptops and access points, without a cable."""
    ports = {"wl": KEYLESS, "lan": lan or jack()}
    seats = [seat(f"cut-{number}", {"air": KEYLESS}) for number in range(clients)]
    return wired(*seats, *(device(f"ap-{number}", "access-point", ports) for number in range(bases)), *more)


@pytest.mark.parametrize(
    ("clients", "bases", "each"),
    [
        (2, MOST_BASES, MOST_BASES),
        (2, MOST_BASES + 1, MOST_BASES),
        (MOST_LINKS // 20, MOST_BASES, 20),
    ],
)
def test_where_there_are_more_the_first_in_the_plan_stand_for_the_rest(clients: int, bases: int, each: int) -> None:
    found = [(str(link.near), str(link.far)) for link in radio_links(campus(clients, bases), ())]
    assert len(found) == clients * each
    assert [far for near, far in found if near == "cut-1/air"] == [f"ap-{number}/wl" for number in range(each)]


def test_more_laptops_than_links_still_have_one_each(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(radio, "MOST_LINKS", 2)
    assert len(list(radio_links(campus(3, 2), ()))) == 3


def test_a_storage_behind_the_last_of_very_many_access_points_is_still_reached() -> None:
    """All the others hang on one switch; the last one alone hangs on the storage."""
    core = switch("core", many(300, jack()))
    lines = [cable(f"C{number}", f"ap-{number}/lan", f"core/{number + 1}") for number in range(299)]
    topology = build_topology(campus(2, 300, core, vault(), *lines, cable("V", "ap-299/lan", "vault/fast")))
    assert [[hop.to_port.device for hop in path.hops] for path in topology.paths] == [["ap-299", "vault"]] * 2
    assert sum(link.by_radio for link in topology.links) == 2 * MOST_BASES


def test_very_many_laptops_and_access_points_fit_into_memory() -> None:
    """One link for each laptop and each access point would be fifty times as many."""
    plan = campus(10_000, 1_000)
    tracemalloc.start()
    links = list(radio_links(plan, ()))
    peak_bytes = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert len(links) == MOST_LINKS
    assert peak_bytes < 100e6


def test_an_outlet_joins_no_access_point_whatever_its_connector_is_called() -> None:
    plate = device("plate", "outlet", {"1": aerial()})
    topology = topology_of(plate, device("beacon", "access-point", {"air": aerial()}))

    assert () == topology.links
