"""Nothing of Windows runs here: the capture is written after the documented properties of MSFT_NetNeighbor; it is not
taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

from windowsroom import capture

from netaudit.machine.parse.windows.facts import NeighbourFacts
from netaudit.machine.parse.windows.neighbours import neighbours
from netaudit.machine.parse.windows.script import answered

FOUND = neighbours(answered(capture("neighbours"), "neighbours"))


def test_one_address_on_two_links_has_two_neighbours() -> None:
    expected = [
        NeighbourFacts(ip_address("10.44.20.10"), "02:00:5e:00:53:10", 7),
        NeighbourFacts(ip_address("10.44.20.10"), "02:00:5e:00:53:20", 12),
    ]

    assert expected == [each for each in FOUND if each.address == ip_address("10.44.20.10")]


def test_zeros_and_nothing_are_no_hardware_address() -> None:
    assert {"10.44.20.98", "10.44.20.99"}.isdisjoint(str(each.address) for each in FOUND)


def test_a_link_local_neighbour_is_kept_without_its_zone() -> None:
    assert NeighbourFacts(ip_address("fe80::10"), "02:00:5e:00:53:10", 7) in FOUND


def test_rows_that_make_no_sense_are_left_away() -> None:
    row = {"IPAddress": "10.0.0.1", "LinkLayerAddress": "02-00-5E-00-53-10", "InterfaceIndex": 7, "State": 4}

    assert 1 == len(neighbours([row]))
    assert () == neighbours(
        [{**row, "LinkLayerAddress": "02-00-5E"}, {**row, "InterfaceIndex": None}, {**row, "IPAddress": 1}]
    )
