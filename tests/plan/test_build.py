"""From the raw tree to the plan: every key of the format lands in its field."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from ipaddress import ip_address, ip_network

import pytest

from netaudit.errors import InputError
from netaudit.model import plan as model
from netaudit.model.place import PortRef
from netaudit.plan.load import loads

Lines = Callable[[str | bytes], list[str]]

FULL = """
netaudit: 1
name: Boathouse
about: what
tree_costs: short
networks:
  media: {subnet: [10.44.20.0/24, fd00::/64], vlan: 20, mtu: 9000, gateway: 10.44.20.1, leases: 10.44.20.5-10.44.20.9,
          purpose: storage}
racks: {bay: {units: 12, depth: 600 mm, room: loft}}
rooms: {loft: {building: boathouse}}
routes: {attic: 31 m}
stock: [{what: cord, category: 6A, length: 2 m, price: 7.20 EUR}]
copies: [{what: cards, from: cut-1, to: vault, size: 2 TB, within: 4 h, at: '19:30', weight: 2, source_rate: 400 MB/s}]
cables:
  F1: {from: cut-1/wire, to: [vault/fast, vault/slow], category: OM4, rates: [10G], length: 31 m, cord: 26 AWG,
       screened: true, material: aluminium-clad, fibres: 8, splices: 1, loss: 1.2 dB, ambient: 30 °C, installed: true,
       owned: false, via: [attic], label: F1 attic, note: bends}
devices:
  cut-1:
    role: station
    room: loft
    rack: {name: bay, unit: 3, height: 2, mounted: rear, half: left}
    depth: 400 mm
    watts: 200 W
    watts_max: 0.5 kW
    owned: true
    system: linux
    service_order: [wire, air]
    metrics: {wire: 100}
    manager: networkd
    wants: 10G
    edits_from: [vault, vault/fast]
    bridges: [wire, air]
    ports:
      wire: {connector: sfp+, rates: [10G], module: 10GBASE-SR, bus: pcie 3 x4 via dock, host_cable: 1 m, active: true,
             networks: {untagged: media, tagged: []}, address: 10.44.20.11, mtu: 9000, mac: 02-00-5E-10-00-01,
             interface: en5, purpose: management, owned: true}
      air: {network: media, address: lease}
    plays: [{what: cam, streams: 4, rate: 183.5 Mb/s, from: vault/main, when: day}]
    records: [{format: {codec: vc-3, profile: hq, level: '5.1', raster: 3840x2160, fps: 23.976, bits: 10,
                        sampling: '4:2:2', ratio: '5:1', channels: 8, sample_rate: 48 kHz}, to: vault/main}]
  vault:
    role: storage
    purpose: archive
    ports: {fast: {}, slow: {serves: false}, third: {}}
    bonds: {lag: {ports: [slow, third], network: media, address: [10.44.20.12], mtu: 1500}}
    pools: {main: {drives: 5, size: 20 TB, read: 240 MB/s, write: 230 MB/s, measured_read: 7 Gb/s, measured_write: 6 Gb/s,
                   layout: double-parity, groups: 2, spares: 1}}
    nodes: {a: [fast]}
    virtual: {media: 10.44.20.50}
  core: {role: switch, spanning_tree: true, priority: 4096, mac: 0200.5e10.0002, fabric: 320G}
  plate: {role: outlet, ports: {1: {connector: rj45, category: 6A, screened: true, owned: true}}}
  out: {role: internet, up: 100M, down: 1G}
"""


@pytest.fixture(scope="module")
def full() -> model.Plan:
    return loads(FULL, "full.yaml")


def test_the_header_is_read(full: model.Plan) -> None:
    assert ("full.yaml", "Boathouse", "what", 0.3, "iso", 20.0, "short") == (
        full.file, full.name, full.about, full.headroom, full.regime, full.ambient_c, full.tree_costs,
    )  # fmt: skip


def test_a_network_is_read(full: model.Plan) -> None:
    expected = model.Network(
        name="media",
        subnets=(ip_network("10.44.20.0/24"), ip_network("fd00::/64")),
        vlan=20,
        mtu=9000,
        gateway=ip_address("10.44.20.1"),
        leases=(ip_address("10.44.20.5"), ip_address("10.44.20.9")),
        purpose="storage",
    )

    assert {"media": expected} == full.networks


def test_racks_rooms_routes_and_stock_are_read(full: model.Plan) -> None:
    assert {"bay": model.Rack(name="bay", units=12, depth_m=0.6, room="loft")} == full.racks
    assert {"loft": model.Room(name="loft", building="boathouse")} == full.rooms
    assert {"attic": model.Route(name="attic", length_m=31.0)} == full.routes
    price = model.Price(amount=Decimal("7.20"), currency="EUR")
    assert (model.StockItem(what="cord", category="6A", length_m=2.0, price=price),) == full.stock


def test_a_copy_is_read(full: model.Plan) -> None:
    expected = model.Copy(
        what="cards",
        from_device="cut-1",
        to_device="vault",
        size_bytes=2 * 10**12,
        within_s=14_400.0,
        at_minute=1170,
        weight=2.0,
        source_rate_bit_per_s=3_200_000_000,
    )

    assert (expected,) == full.copies


def test_a_breakout_cable_is_read(full: model.Plan) -> None:
    expected = model.Cable(
        name="F1",
        from_port=PortRef("cut-1", "wire"),
        to_ports=(PortRef("vault", "fast"), PortRef("vault", "slow")),
        category="OM4",
        rates=model.Rates((10**10,)),
        length_m=31.0,
        cord_awg=26,
        screened=True,
        material="aluminium-clad",
        fibres=8,
        splices=1,
        loss_db=1.2,
        ambient_c=30.0,
        installed=True,
        owned=False,
        via=("attic",),
        label="F1 attic",
        note="bends",
    )

    assert {"F1": expected} == full.cables


def test_a_station_is_read(full: model.Plan) -> None:
    wire = model.Port(
        connector="sfp+",
        rates=model.Rates((10**10,)),
        module="10GBASE-SR",
        bus=model.Bus(kind="pcie", generation=3, lanes=4, via="dock"),
        host_cable=model.HostCable(length_m=1.0, active=True),
        untagged="media",
        addresses=(ip_address("10.44.20.11"),),
        mtu=9000,
        mac="02:00:5e:10:00:01",
        interface="en5",
        purpose="management",
        owned=True,
    )
    plays = model.Stream(what="cam", streams=4, rate_bit_per_s=183_500_000, pool=("vault", "main"), when="day")
    recorded = model.Format(
        codec="vc-3",
        profile="hq",
        level="5.1",
        raster=(3840, 2160),
        fps=Fraction(24000, 1001),
        bits=10,
        sampling="4:2:2",
        ratio=Fraction(5),
        channels=8,
        sample_rate_hz=48_000,
    )
    expected = model.Station(
        name="cut-1",
        role="station",
        room="loft",
        rack=model.RackPosition(rack="bay", unit=3, height=2, mounted="rear", half="left"),
        depth_m=0.4,
        watts=200.0,
        watts_max=500.0,
        owned=True,
        ports={"wire": wire, "air": model.Port(untagged="media", leased=True)},
        bridges=("wire", "air"),
        system="linux",
        service_order=("wire", "air"),
        metrics={"wire": 100},
        manager="networkd",
        wants_bit_per_s=10**10,
        edits_from=("vault", "vault/fast"),
        plays=(plays,),
        records=(model.Stream(format=recorded, pool=("vault", "main")),),
    )

    assert expected == full.devices["cut-1"]


def test_a_storage_is_read(full: model.Plan) -> None:
    pool = model.Pool(
        drives=5,
        size_bytes=20 * 10**12,
        read_bit_per_s=1_920_000_000,
        write_bit_per_s=1_840_000_000,
        measured_read_bit_per_s=7 * 10**9,
        measured_write_bit_per_s=6 * 10**9,
        layout="double-parity",
        groups=2,
        spares=1,
    )
    bond = model.Bond(ports=("slow", "third"), untagged="media", addresses=(ip_address("10.44.20.12"),), mtu=1500)
    expected = model.Storage(
        name="vault",
        role="storage",
        ports={"fast": model.Port(), "slow": model.Port(serves=False), "third": model.Port()},
        bonds={"lag": bond},
        purpose="archive",
        pools={"main": pool},
        nodes={"a": ("fast",)},
        virtual={"media": ip_address("10.44.20.50")},
    )

    assert expected == full.devices["vault"]


def test_other_devices_are_read(full: model.Plan) -> None:
    port = model.Port(connector="rj45", category="6A", screened=True, owned=True)

    assert [
        model.Switch(
            name="core", role="switch", spanning_tree=True, priority=4096, mac="02:00:5e:10:00:02", fabric_bit_per_s=32 * 10**10
        ),
        model.Device(name="plate", role="outlet", ports={"1": port}),
        model.Internet(name="out", role="internet", up_bit_per_s=10**8, down_bit_per_s=10**9),
    ] == [full.devices[name] for name in ("core", "plate", "out")]  # fmt: skip


def test_what_the_file_does_not_say_is_listed_as_assumed(full: model.Plan, example: str) -> None:
    assert ("headroom 30 %", "regime iso", "ambient 20 °C") == full.assumed
    assert () == loads(example).assumed
    assert ("ambient 20 °C",) == loads("netaudit: 1\nheadroom: 30%\nregime: iso\n").assumed


def test_no_edits_from_is_not_the_same_as_an_empty_list() -> None:
    devices = loads("netaudit: 1\ndevices: {a: {role: station}, b: {role: station, edits_from: []}}").devices

    assert [None, ()] == [device.edits_from for device in devices.values() if isinstance(device, model.Station)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("name: x", "1:1: `netaudit` is missing: the plan format, such as `1`"),
        ("netaudit: 2", "1:11: netaudit: '2' is not a plan format that can be read: write 1"),
        ("netaudit: [1]", "1:11: netaudit: the plan format, such as `1`, is wanted here, not a list"),
        (
            "netaudit: 1\ncabels: {}",
            "2:1: cabels: 'cabels' is not a key of a plan, whose keys are netaudit name about headroom regime ambient "
            "tree_costs networks racks rooms devices cables routes copies stock; did you mean 'cables'?",
        ),
        ("netaudit: 1\ncables: [a]", "2:9: cables: cables are a mapping from names, not a list"),
        (
            "netaudit: 1\ncables:",
            "2:8: cables: nothing is written here: cables are a mapping from names; {} is an empty one",
        ),
        ("netaudit: 1\ncopies: {}", "2:9: copies: copies are a list, each item with a dash before it, not a mapping"),
        ("netaudit: 1\nroutes: {a: {length: 1 m}}", "2:13: routes.a: a route is its length, such as 31 m, not a mapping"),
        ("netaudit: 1\nroutes: {a: 31}", "2:13: routes.a: '31' has no unit: write 31 m or 31 cm or 31 mm or 31 km or 31 ft or 31 in"),
        ("netaudit: 1\nracks: {' a': {}}", "2:9: racks. a: ' a' begins with a blank: write 'a'"),
        ("netaudit: 1\ndevices: {a/b: {role: switch}}", "2:11: devices.a/b: 'a/b' holds '/', which parts device from port: write 'a-b'"),
        ("netaudit: 1\ndevices: {a: x}", "2:14: devices.a: a device is a mapping with keys such as role, ports, not the text 'x'"),
        (
            "netaudit: 1\ndevices: {a: {}}",
            "2:14: devices.a: `role` is missing: what the device is, one of station storage switch router access-point "
            "panel outlet adapter internet ups other",
        ),
        (
            "netaudit: 1\ndevices: {a: {role: statoin}}",
            "2:21: devices.a.role: 'statoin' is not a role, which is one of station storage switch router access-point "
            "panel outlet adapter internet ups other; did you mean 'station'?",
        ),
        (
            "netaudit: 1\ndevices: {a: {role: [station]}}",
            "2:21: devices.a.role: a list is not a role, which is one of station storage switch router access-point "
            "panel outlet adapter internet ups other",
        ),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_section_is_told(text: str, expected: str, lines: Lines) -> None:
    assert [f"plan.yaml:{expected}"] == lines(text)


@pytest.mark.parametrize("role", ["rolle: switch", "role: swich, rolle: x", "role: [], rolle: x"])
def test_a_key_that_no_role_has_is_told_beside_a_role_that_is_missing_or_wrong(role: str, lines: Lines) -> None:
    told = lines(f"netaudit: 1\ndevices: {{a: {{{role}, plays: [], fabric: 1G, ports: {{}}}}}}\n")

    assert 2 == len(told)
    assert "role" in told[0]
    assert told[1].endswith("devices.a.rolle: 'rolle' is not a key of a device of any role; did you mean 'role'?")


def test_one_bad_item_hides_no_other(lines: Lines) -> None:
    text = """netaudit: 1
headroom: 3
networks: {m: {vlan: 0}}
devices: {a: {role: switch, watts: 4}, b: {role: x}}
cables: {C1: {from: q/1, to: a/1}}
"""

    assert ["2:11", "3:22", "4:36", "4:50", "5:21"] == [":".join(told.split(":")[1:3]) for told in lines(text)]


def test_what_an_item_with_problems_names_is_looked_up_as_well() -> None:
    text = "netaudit: 1\ncables: {C1: {from: a/1, to: b/1, length: 3}}\n"

    with pytest.raises(InputError) as told:
        loads(text)

    assert [("cables", "C1", "from"), ("cables", "C1", "to"), ("cables", "C1", "length")] == [
        problem.path for problem in told.value.problems
    ]
