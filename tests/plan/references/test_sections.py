"""Everything that a plan refers to is in it: networks, racks, cables, copies."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.model.place import PortRef
from netaudit.plan.load import loads

Lines = Callable[[str | bytes], list[str]]
Marked = Callable[[str], tuple[str, str]]

ROOM = """netaudit: 1
routes: {attic: 31 m}
devices:
  cut-1: {role: station, ports: {wire: {}, ge/0/1: {}}}
  plate: {role: outlet, ports: {1-4: {}}}
  panel: {role: panel, ports: {1-24: {}}}
  vault: {role: storage, ports: {a: {}, b: {}}, bonds: {lag: {ports: [a, b]}}}
"""
CABLES = ROOM.count("\n") + 2


@pytest.mark.parametrize(
    ("cable", "expected"),
    [
        ("from: §cut-q/wire, to: plate/1", "cables.C.from: there is no device 'cut-q'; did you mean 'cut-1'?"),
        (
            "from: §cut-1/wyre, to: plate/1",
            "cables.C.from: device 'cut-1' has no port 'wyre': its ports are wire ge/0/1; did you mean 'wire'?",
        ),
        ("from: cut-1/wire, to: §plate/5", "cables.C.to: device 'plate' has no port '5': its ports are 1-4"),
        (
            "from: cut-1/wire, to: [plate/1, §plate/9]",
            "cables.C.to.2: device 'plate' has no port '9': its ports are 1-4",
        ),
        (
            "from: cut-1/wire, to: §panel/1-24",
            "cables.C.to: '1-24' of 'panel' is a range: name one of its ports, such as 1",
        ),
        (
            "from: cut-1/wire, to: §vault/lag",
            "cables.C.to: 'lag' of 'vault' is a bond: name one of its ports, a b",
        ),
        (
            "from: plate/1, to: §plate/1",
            "cables.C.to: both ends are in 'plate/1': a cable joins two ports",
        ),
        (
            "from: vault/a, to: [plate/1, §plate/1]",
            "cables.C.to.2: both ends are in 'plate/1': a cable joins two ports",
        ),
        (
            "from: cut-1/wire, to: plate/1, via: [§atic]",
            "cables.C.via.1: there is no route 'atic'; did you mean 'attic'?",
        ),
    ],
)
def test_a_cable_refers_to_what_is_there(cable: str, expected: str, lines: Lines, marked: Marked) -> None:
    text, place = marked(f"{ROOM}cables:\n  C: {{{cable}}}\n")

    assert [f"plan.yaml:{place}: {expected}"] == lines(text)


def test_the_ends_of_a_breakout_are_not_compared_with_each_other_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    ends = ", ".join(f"panel/{number}" for number in range(1, 301))
    text = ROOM.replace("1-24", "1-300") + f"cables:\n  C: {{from: cut-1/wire, to: [{ends}]}}\n"
    compared = []
    monkeypatch.setattr(
        PortRef, "__eq__", lambda one, other: (compared.append(one), tuple(one) == tuple(other))[1], raising=False
    )
    monkeypatch.setattr(PortRef, "__hash__", lambda one: hash(tuple(one)), raising=False)
    loads(text)

    assert len(compared) < 2 * 300


def test_a_port_name_may_hold_slashes() -> None:
    (cable,) = loads(ROOM + "cables:\n  C: {from: cut-1/ge/0/1, to: plate/1}\n").cables.values()

    assert ("cut-1", "ge/0/1") == cable.from_port


def test_a_jack_joins_two_cables_and_the_third_is_told(lines: Lines) -> None:
    cables = "cables:\n  A: {from: cut-1/wire, to: plate/1}\n  B: {from: plate/1, to: panel/1}\n"
    loads(ROOM + cables)

    assert [
        f"plan.yaml:{CABLES + 2}:26: cables.C.to: 'plate/1' joins 'A' and 'B' already: a jack joins two cables"
    ] == lines(ROOM + cables + "  C: {from: vault/a, to: plate/1}\n")


def test_two_cables_in_an_active_port_are_left_to_the_rules() -> None:
    loads(ROOM + "cables:\n  A: {from: cut-1/wire, to: plate/1}\n  B: {from: cut-1/wire, to: plate/2}\n")


def test_a_cable_to_a_device_with_problems_is_not_told_as_well(lines: Lines) -> None:
    told = lines("netaudit: 1\ndevices: {a: {role: switch, watts: 1}}\ncables: {C: {from: a/1, to: a/2}}\n")

    assert ["devices.a.watts"] == [line.split(": ")[1] for line in told]


def test_a_vlan_belongs_to_one_network(lines: Lines) -> None:
    assert ["plan.yaml:2:36: networks.b.vlan: VLAN 7 is network 'a' already: give one of the two another"] == lines(
        "netaudit: 1\nnetworks: {a: {vlan: 7}, b: {vlan: 7}}\n"
    )


def test_a_gateway_outside_its_subnet_is_left_to_the_rules() -> None:
    loads("netaudit: 1\nnetworks: {a: {subnet: 10.0.0.0/24, gateway: 192.168.0.1}}\n")


def test_leases_that_run_backwards_are_refused(lines: Lines) -> None:
    assert ["plan.yaml:2:24: networks.a.leases: '10.0.0.9-10.0.0.1' runs backwards: write 10.0.0.1-10.0.0.9"] == lines(
        "netaudit: 1\nnetworks: {a: {leases: 10.0.0.9-10.0.0.1}}\n"
    )


def test_rooms_are_free_words_until_there_is_a_section_of_them(lines: Lines) -> None:
    racks = "racks: {bay: {room: lofft}}\n"
    loads("netaudit: 1\n" + racks)

    assert ["plan.yaml:2:21: racks.bay.room: there is no room 'lofft'; did you mean 'loft'?"] == lines(
        "netaudit: 1\n" + racks + "rooms: {loft: {}}\n"
    )


def test_a_copy_goes_between_devices(lines: Lines) -> None:
    assert [
        f"plan.yaml:{CABLES}:21: copies.1.from: there is no device 'cut-l'; did you mean 'cut-1'?",
        f"plan.yaml:{CABLES}:32: copies.1.to: there is no device 'faults'; did you mean 'vault'?",
    ] == lines(ROOM + "copies:\n  - {what: x, from: cut-l, to: faults}\n")


def test_problems_of_shape_and_of_reference_are_told_together(lines: Lines) -> None:
    told = lines(ROOM + "cables:\n  A: {from: cut-1/wire, to: plate/9}\n  B: {from: plate}\n")

    assert ["cables.A.to", "cables.B", "cables.B.from"] == sorted(line.split(": ")[1] for line in told)
