"""Everything that a device refers to is in the plan, and of the right kind."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.plan.load import loads
from netaudit.standards.phys import phys

Lines = Callable[[str | bytes], list[str]]
Marked = Callable[[str], tuple[str, str]]

HEAD = """netaudit: 1
networks: {media: {}}
racks: {bay: {}}
devices:
  core: {role: switch, ports: {1-2: {}}}
  vault: {role: storage, ports: {a: {}, b: {}}, pools: {main: {}}}
  x: """


@pytest.mark.parametrize(
    ("device", "expected"),
    [
        (
            "role: other, rack: {name: §bya, unit: 1}",
            "devices.x.rack.name: there is no rack 'bya'; did you mean 'bay'?",
        ),
        (
            "role: switch, ports: {1-8: {network: §medai}}",
            "devices.x.ports.1-8.network: there is no network 'medai'; did you mean 'media'?",
        ),
        (
            "role: switch, ports: {1: {networks: {untagged: §medai}}}",
            "devices.x.ports.1.networks.untagged: there is no network 'medai'; did you mean 'media'?",
        ),
        (
            "role: switch, ports: {1: {networks: {tagged: [media, §medai]}}}",
            "devices.x.ports.1.networks.tagged.2: there is no network 'medai'; did you mean 'media'?",
        ),
        (
            "role: switch, ports: {1-8: {module: §10GBASE-XR}}",
            "devices.x.ports.1-8.module: '10GBASE-XR' is not a module that is known: "
            "write one such as 10GBASE-SR; did you mean '10GBASE-",
        ),
        (
            "role: switch, ports: {1: {}}, bonds: {lag: {ports: [1, §2]}}",
            "devices.x.bonds.lag.ports.2: device 'x' has no port '2': its ports are 1",
        ),
        ("role: switch, bonds: {lag: {ports: §[]}}", "devices.x.bonds.lag.ports: a bond joins ports: name them"),
        (
            "role: switch, ports: {1: {}}, bonds: {lag: {ports: [1]}, gal: {ports: [§1]}}",
            "devices.x.bonds.gal.ports.1: port '1' is in bond 'lag' already: keep it in one",
        ),
        (
            "role: switch, ports: {1: {}}, bonds: {lag: {ports: [1], network: §medai}}",
            "devices.x.bonds.lag.network: there is no network 'medai'; did you mean 'media'?",
        ),
        (
            "role: adapter, ports: {in: {}}, bridges: [in, §out]",
            "devices.x.bridges.2: device 'x' has no port 'out': its ports are in",
        ),
        (
            "role: station, ports: {wire: {}}, service_order: [§wyre]",
            "devices.x.service_order.1: device 'x' has no port 'wyre': its ports are wire; did you mean 'wire'?",
        ),
        (
            "role: station, ports: {wire: {}}, metrics: {§wyre: 1}",
            "devices.x.metrics.wyre: device 'x' has no port 'wyre': its ports are wire; did you mean 'wire'?",
        ),
        (
            "role: station, edits_from: [§valt]",
            "devices.x.edits_from.1: there is no device 'valt'; did you mean 'vault'?",
        ),
        (
            "role: station, edits_from: [§core]",
            "devices.x.edits_from.1: 'core' is of role switch: a seat edits from a storage",
        ),
        (
            "role: station, edits_from: [§vault/c]",
            "devices.x.edits_from.1: device 'vault' has no port 'c': its ports are a b",
        ),
        (
            "role: station, plays: [{from: §valt/main}]",
            "devices.x.plays.1.from: there is no device 'valt'; did you mean 'vault'?",
        ),
        (
            "role: station, plays: [{from: §core/main}]",
            "devices.x.plays.1.from: 'core' is of role switch: only a storage has pools",
        ),
        (
            "role: station, records: [{to: §vault/mian}]",
            "devices.x.records.1.to: storage 'vault' has no pool 'mian'; did you mean 'main'?",
        ),
        (
            "role: storage, ports: {a: {}}, nodes: {one: [§b]}",
            "devices.x.nodes.one.1: device 'x' has no port 'b': its ports are a",
        ),
        (
            "role: storage, ports: {a: {}}, nodes: {one: [a], two: [§a]}",
            "devices.x.nodes.two.1: port 'a' is in node 'one' already: keep it in one",
        ),
        (
            "role: storage, virtual: {§medai: 10.0.0.1}",
            "devices.x.virtual.medai: there is no network 'medai'; did you mean 'media'?",
        ),
    ],
)
def test_a_device_refers_to_what_is_there(device: str, expected: str, lines: Lines, marked: Marked) -> None:
    text, place = marked(f"{HEAD}{{{device}}}\n")
    (told,) = lines(text)

    assert told.startswith(f"plan.yaml:{place}: {expected}")


def test_a_room_is_looked_up_only_where_rooms_are_declared(lines: Lines) -> None:
    device = f"{HEAD}{{role: other, room: lofft}}\n"
    loads(device)

    assert ["plan.yaml:7:26: devices.x.room: there is no room 'lofft'; did you mean 'loft'?"] == lines(
        device + "rooms: {loft: {}}\n"
    )


def test_a_bond_stands_for_its_ports_wherever_traffic_is_meant() -> None:
    loads(
        HEAD + "{role: storage, ports: {a: {}, b: {}}, bonds: {lag: {ports: [a, b]}}, nodes: {one: [lag]}}\n"
        "  seat: {role: station, edits_from: [x/lag]}\n"
    )


def test_every_module_of_the_tables_is_known() -> None:
    ports = ", ".join(f"'p{nth}': {{module: {name}}}" for nth, name in enumerate(phys()))

    assert len(phys()) == len(loads(f"{HEAD}{{role: switch, ports: {{{ports}}}}}\n").devices["x"].ports)


def test_every_wrong_one_of_several_networks_is_told_in_its_own_place(lines: Lines) -> None:
    told = lines(f"{HEAD}{{role: switch, ports: {{1-8: {{networks: {{tagged: [sea, media, lake]}}}}}}}}\n")

    assert [f"devices.x.ports.1-8.networks.tagged.{nth}" for nth in (1, 3)] == [line.split(": ")[1] for line in told]


def test_a_fault_of_a_range_is_told_once(lines: Lines) -> None:
    assert 1 == len(lines(f"{HEAD}{{role: switch, ports: {{1-4096: {{network: medai}}}}}}\n"))
