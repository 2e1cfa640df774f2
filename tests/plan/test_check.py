"""What does not fit a shape, in our own words and at the right place."""

from __future__ import annotations

from collections.abc import Callable

import pytest

Lines = Callable[[str | bytes], list[str]]

HEAD = "netaudit: 1\n"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "networks: {media: {subnett: 10.0.0.0/8}}",
            "2:20: networks.media.subnett: 'subnett' is not a key of a network, whose keys are subnet vlan mtu gateway "
            "leases purpose; did you mean 'subnet'?",
        ),
        (
            "devices: {a: {role: switch, ports: {1-8: {conector: rj45}}}}",
            "2:43: devices.a.ports.1-8.conector: 'conector' is not a key of an active port, whose keys are connector "
            "rates module bus host_cable active network networks address mtu mac interface purpose owned; "
            "did you mean 'connector'?",
        ),
        (
            "devices: {a: {role: panel, plays: []}}",
            "2:28: devices.a.plays: 'plays' belongs to a station; this is a device of role panel",
        ),
        (
            "devices: {a: {role: station, priority: 0}}",
            "2:30: devices.a.priority: 'priority' belongs to a switch; this is a device of role station",
        ),
        (
            "devices: {a: {role: panel, bonds: {}}}",
            "2:28: devices.a.bonds: 'bonds' is not a key of a device of role panel, whose keys are role room rack depth "
            "watts watts_max owned ports; did you mean 'owned'?",
        ),
        (
            "devices: {a: {role: switch, ports: {x: {serves: true}}}}",
            "2:41: devices.a.ports.x.serves: 'serves' belongs to a port of a storage; this is an active port",
        ),
        (
            "devices: {a: {role: switch, ports: {x: {screened: true}}}}",
            "2:41: devices.a.ports.x.screened: 'screened' belongs to a port of a panel or outlet; this is an active port",
        ),
        (
            "devices: {a: {role: outlet, ports: {x: {rates: 10G}}}}",
            "2:41: devices.a.ports.x.rates: 'rates' belongs to an active port; this is a port of a panel or outlet",
        ),
        (
            "cables: {C1: {from: a/1}}",
            "2:14: cables.C1: `to` is missing: the port at its far end; a list for a breakout, such as `core/9`",
        ),
        (
            "devices: {a: {role: station, rack: {name: bay}}}",
            "2:36: devices.a.rack: `unit` is missing: lowest unit it fills, counted from the bottom, such as 1 to 100",
        ),
        (
            "copies: [{what: a, from: b, to: c, size: [1 TB]}]",
            "2:42: copies.1.size: a size, such as `20 TB`, is wanted here, not a list",
        ),
        (
            "devices: {a: {role: station, edits_from: vault}}",
            "2:42: devices.a.edits_from: the text 'vault' stands here where a list is wanted: write [vault]",
        ),
        (
            "devices: {a: {role: station, plays: {what: b}}}",
            "2:37: devices.a.plays: a mapping stands here where a list is wanted: "
            "write a list, each item with a dash before it",
        ),
        (
            "devices: {a: {role: station, rack: bay}}",
            "2:36: devices.a.rack: a place in a rack is a mapping with keys such as name, unit, height, not the text 'bay'",
        ),
        (
            "devices: {a: {role: station, ports: [wire]}}",
            "2:37: devices.a.ports: a mapping of names to values is wanted here, not a list",
        ),
        (
            "devices: {a: {role: station, ports: }}",
            "2:37: devices.a.ports: nothing is written here: a mapping of names to values is wanted here; {} is an empty one",
        ),
        (
            "cables: {C1: {from: a/1, to: []}}",
            "2:30: cables.C1.to: the list is empty: write at least one item, or leave the key out",
        ),
        (
            "cables: {C1: {from: a/1, to: [b/1, b]}}",
            "2:36: cables.C1.to.2: 'b' is not a port: write device/port, as core/9",
        ),
        (
            "devices: {a: {role: station, ports: {x: {network: m, networks: {}}}}}",
            "2:54: devices.a.ports.x.networks: `network` and `networks` are both given: keep one of them",
        ),
        (
            "devices: {a: {role: switch, ports: {x: {networks: {untagged: m, tagged: [m]}}}}}",
            "2:65: devices.a.ports.x.networks.tagged: network 'm' is named twice: name it once",
        ),
        (
            "devices: {a: {role: switch, ports: {x: {rates: [1G, up to 10G]}}}}",
            "2:48: devices.a.ports.x.rates: 'up to' stands alone: write 'up to 10G' without a list, or list every rate",
        ),
        (
            "devices: {a: {role: switch, ports: {x: {host_cable: two}}}}",
            "2:53: devices.a.ports.x.host_cable: 'two' is not a length: write a number and a unit, such as 38 m",
        ),
        (
            "devices: {a: {role: switch, ports: {a > b: {}}}}",
            "2:37: devices.a.ports.a > b: 'a > b' holds ' > ', which joins the ends of a path: write 'a - b'",
        ),
        (
            "devices: {a: {role: switch, ports: {24-1: {}}}}",
            "2:37: devices.a.ports.24-1: '24-1' is not ascending: write the lower number first, as 1-24",
        ),
        (
            "devices: {a: {role: station, plays: [{rate: 10G, format: {codec: vc-3}}]}}",
            "2:50: devices.a.plays.1.format: `rate` and `format` are both given: keep one of them",
        ),
    ],
)
def test_what_does_not_fit_is_told_at_its_place_with_a_remedy(text: str, expected: str, lines: Lines) -> None:
    assert [f"plan.yaml:{expected}"] == lines(HEAD + text)


def test_every_problem_of_one_item_is_told(lines: Lines) -> None:
    told = lines(HEAD + "cables: {C1: {from: a, to: b, length: 3, nte: x}}")

    assert ["2:21", "2:28", "2:39", "2:42"] == [":".join(line.split(":")[1:3]) for line in told]


def test_an_item_where_everything_is_wrong_is_told_once(lines: Lines) -> None:
    keys = ", ".join(f"k{number}: 1" for number in range(2000))

    assert [
        "plan.yaml:2:14: devices.a: more than 1000 things are wrong within a switch: look at it as a whole first"
    ] == lines(HEAD + f"devices: {{a: {{role: switch, {keys}}}}}")


def test_a_hostile_key_is_escaped_and_cut(lines: Lines) -> None:
    (told,) = lines(HEAD + f'networks: {{C1: {{mtu: 1500, "x\\n{"y" * 100}": 3 m}}}}')

    assert told.startswith(f"plan.yaml:2:28: networks.C1.x\\n{'y' * 61}…: 'x\\n{'y' * 57}…' is not a key of a network")
