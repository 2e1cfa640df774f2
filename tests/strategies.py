"""Generated plans: every role, ranges, bonds, breakouts and unusual names, all of them right in themselves."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from functools import cache
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network
from typing import Any, get_args

from hypothesis import strategies as st

from netaudit.model import plan as model
from netaudit.model.place import PortRef

BASE_T_BIT_PER_S = tuple(int(rate * 10**9) for rate in (0.1, 1, 2.5, 5, 10, 25, 40))
NOT_IN_NAMES = "\u2028\u2029\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufffe\uffff"
ODD_NAMES = (
    "=1+1", "<b>bold</b>", "[red]x[/red]", "&amp;", "true", "null", "~", "- a", "a: b", "a #b", "#1", "é", "日本語",
    "🎞", "0x10", "1.0", "1e3", "12:30", "007", "*star", "&and", "!bang", "%d", "@at", "`tick`", "'one'", '"two"',
    "back\\slash", "<<", "?", "{x}", "a, b", "ـعربي", "x" * 64, "...", "---", "|", ">", "a - b", "C#", "\u00a0".join("ab"),
    "می\u200cخواهم",
)  # fmt: skip

_characters = st.characters(codec="utf-8", exclude_categories=("Cc", "Cf", "Cs"), exclude_characters=NOT_IN_NAMES)


@cache
def names(without: str = "") -> st.SearchStrategy[str]:
    """Names that a plan allows, the unusual ones often."""
    odd = st.sampled_from([name for name in ODD_NAMES if not set(without) & set(name)])
    plain = st.from_regex(r"[a-z]{1,8}(-[0-9]{1,2})?", fullmatch=True)
    any_text = st.text(_characters, min_size=1, max_size=64)
    return st.one_of(plain, odd, any_text).filter(lambda name: _is_name(name) and not set(without) & set(name))


@cache
def device_names() -> st.SearchStrategy[str]:
    """Names of devices."""
    return names(without="/")


@cache
def port_names() -> st.SearchStrategy[str]:
    """Names of single ports, which may hold a slash but must not read as a range."""
    return st.one_of(names(), st.sampled_from(("ge/0/1", "en0", "12"))).filter(lambda name: not _is_range(name))


@cache
def free_texts() -> st.SearchStrategy[str]:
    """Words for people, over several lines at times."""
    lines = st.text(st.one_of(_characters, st.sampled_from("\n\t")), min_size=1, max_size=40)
    return st.one_of(st.sampled_from(("two\nlines", "a\n\nb", " lead", "trail \n", ": ", "#")), lines)


@cache
def lengths_m() -> st.SearchStrategy[float]:
    """Lengths from a millimetre to 200 km [m]."""
    return st.one_of(st.integers(1, 300).map(float), st.floats(0.001, 200_000))


@cache
def rates_bit_per_s() -> st.SearchStrategy[int]:
    """Rates from 1 kb/s to 100 Tb/s [bit/s]."""
    return st.one_of(st.sampled_from(BASE_T_BIT_PER_S), st.integers(10**3, 10**14))


@cache
def port_rates() -> st.SearchStrategy[model.Rates]:
    """Rates of a port: a list, or all up to one."""
    up_to = st.integers(1, len(BASE_T_BIT_PER_S)).map(lambda n: model.Rates(BASE_T_BIT_PER_S[:n][::-1], up_to=True))
    listed = st.lists(rates_bit_per_s(), min_size=1, max_size=3, unique=True)
    return st.one_of(up_to, listed.map(lambda rates: model.Rates(tuple(sorted(rates, reverse=True)))))


@cache
def addresses() -> st.SearchStrategy[model.Address]:
    """Addresses of either version."""
    return st.one_of(
        st.integers(0, 2**32 - 1).map(IPv4Address),
        st.integers(0, 2**128 - 1).map(IPv6Address),
    )


@cache
def subnets() -> st.SearchStrategy[model.Subnet]:
    """Subnets of either version, without host bits."""
    old = st.builds(
        lambda bits, host: IPv4Network((host, bits), strict=False), st.integers(1, 32), st.integers(0, 2**32 - 1)
    )
    new = st.builds(
        lambda bits, host: IPv6Network((host, bits), strict=False), st.integers(1, 128), st.integers(0, 2**128 - 1)
    )
    return st.one_of(old, new)


@cache
def macs() -> st.SearchStrategy[str]:
    """Hardware addresses."""
    return st.binary(min_size=6, max_size=6).map(lambda octets: octets.hex(":"))


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """The value, or None, which is unknown."""
    return st.one_of(st.none(), strategy)


def made(factory: Callable[..., Any], **fields: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Values of a class from those of the fields named, the others left at their defaults."""
    return st.fixed_dictionaries(fields).map(lambda given: factory(**given))


def one_of_words(literal: Any) -> st.SearchStrategy[Any]:
    """One of the words of a Literal."""
    return st.sampled_from(get_args(literal))


@st.composite
def networks(draw: st.DrawFn) -> dict[str, model.Network]:
    """A few networks, each VLAN used once."""
    found: dict[str, model.Network] = {}
    vlans = draw(st.permutations(range(1, 5)))
    for name in draw(st.lists(names(), max_size=3, unique=True)):
        ends = draw(maybe(st.lists(st.integers(0, 2**32 - 1).map(IPv4Address), min_size=2, max_size=2).map(sorted)))
        found[name] = model.Network(
            name=name,
            subnets=tuple(draw(st.lists(subnets(), max_size=2))),
            vlan=draw(maybe(st.just(vlans[len(found)]))),
            mtu=draw(maybe(st.integers(68, 65535))),
            gateway=draw(maybe(addresses())),
            leases=tuple(ends) if ends else None,
            purpose=draw(maybe(one_of_words(model.NetworkPurpose))),
        )
    return found


@cache
def formats() -> st.SearchStrategy[model.Format]:
    """Picture and sound formats."""
    return made(
        model.Format,
        codec=names(),
        profile=maybe(names()),
        level=maybe(names()),
        raster=maybe(st.tuples(st.integers(1, 65536), st.integers(1, 65536))),
        fps=maybe(st.sampled_from((Fraction(25), Fraction(24000, 1001), Fraction(25, 2)))),
        bits=maybe(st.integers(1, 64)),
        sampling=maybe(st.sampled_from(("4:2:2", "4:4:4:4"))),
        ratio=maybe(st.fractions(1, 1000, max_denominator=20)),
        channels=maybe(st.integers(1, 64)),
        sample_rate_hz=maybe(st.sampled_from((44100, 48000, 96000))),
    )


@st.composite
def streams(draw: st.DrawFn, pools: tuple[tuple[str, str], ...]) -> model.Stream:
    """A row of what a seat plays or records, with a rate, a format or neither."""
    rate = draw(maybe(rates_bit_per_s()))
    return model.Stream(
        what=draw(maybe(names())),
        streams=draw(st.integers(1, 16)),
        rate_bit_per_s=rate,
        format=draw(maybe(formats())) if rate is None else None,
        pool=draw(maybe(st.sampled_from(pools))) if pools else None,
        when=draw(st.sampled_from(("always", "evening"))),
    )


@cache
def buses() -> st.SearchStrategy[model.Bus]:
    """Host buses of each kind, shared or not."""
    via = maybe(names().filter(lambda name: " via " not in name))
    return st.one_of(
        made(model.Bus, kind=st.just("pcie"), generation=st.integers(1, 7), lanes=st.sampled_from((1, 4, 16)), via=via),
        made(model.Bus, kind=st.just("thunderbolt"), generation=st.integers(1, 5), via=via),
        made(model.Bus, kind=st.just("usb"), rate_bit_per_s=rates_bit_per_s(), via=via),
    )


@cache
def passive_ports() -> st.SearchStrategy[model.Port]:
    """Ports of panels and outlets."""
    return made(
        model.Port,
        connector=maybe(one_of_words(model.Connector)),
        category=maybe(one_of_words(model.Category)),
        screened=maybe(st.booleans()),
        owned=maybe(st.booleans()),
    )


@st.composite
def active_ports(draw: st.DrawFn, networks_there: tuple[str, ...], *, serving: bool) -> model.Port:
    """Ports of devices that are not passive; `serving` ones may be told not to serve."""
    carried: list[str] = (
        draw(st.lists(st.sampled_from(networks_there), unique=True, max_size=2)) if networks_there else []
    )
    first_untagged = draw(st.booleans())
    untagged = carried.pop() if carried and first_untagged else None
    leased = draw(st.booleans())
    host_cable = made(model.HostCable, length_m=lengths_m(), active=st.booleans())
    return model.Port(
        connector=draw(maybe(one_of_words(model.Connector))),
        rates=draw(maybe(port_rates())),
        module=draw(st.sampled_from((None, "10GBASE-SR"))),
        bus=draw(maybe(buses())),
        host_cable=draw(maybe(host_cable)),
        untagged=untagged,
        tagged=tuple(carried),
        addresses=() if leased else tuple(draw(st.lists(addresses(), max_size=2))),
        leased=leased,
        mtu=draw(maybe(st.integers(68, 65535))),
        mac=draw(maybe(macs())),
        interface=draw(maybe(names())),
        serves=draw(st.booleans()) if serving else True,
        purpose=draw(st.sampled_from((None, "management"))),
        owned=draw(maybe(st.booleans())),
    )


@st.composite
def ports_by_name(draw: st.DrawFn, port: st.SearchStrategy[model.Port]) -> dict[str, model.Port]:
    """A run of numbered ports that share one value, and some with names."""
    found: dict[str, model.Port] = {}
    for _ in range(draw(st.integers(0, 2))):
        first = draw(st.integers(0, 30))
        shared = draw(port)
        for number in range(first, first + draw(st.integers(1, 6))):
            found.setdefault(str(number), shared)
    for name in draw(st.lists(port_names(), max_size=2, unique=True)):
        found.setdefault(name, draw(port))
    return found


@st.composite
def bonds(draw: st.DrawFn, ports: tuple[str, ...], networks_there: tuple[str, ...]) -> dict[str, model.Bond]:
    """At most one bond of two of the ports."""
    name = draw(names())
    if len(ports) < 2 or name in ports or not draw(st.booleans()):
        return {}
    leased = draw(st.booleans())
    bond = model.Bond(
        ports=tuple(draw(st.permutations(ports))[:2]),
        untagged=draw(maybe(st.sampled_from(networks_there))) if networks_there else None,
        addresses=() if leased else tuple(draw(st.lists(addresses(), max_size=2))),
        leased=leased,
        mtu=draw(maybe(st.integers(68, 65535))),
    )
    return {name: bond}


@cache
def pools() -> st.SearchStrategy[model.Pool]:
    """Pools of disks."""
    rate = maybe(rates_bit_per_s())
    return made(
        model.Pool,
        drives=maybe(st.integers(1, 60)),
        size_bytes=maybe(st.one_of(st.just(20 * 10**12), st.just(2**40), st.integers(1, 10**18))),
        read_bit_per_s=rate,
        write_bit_per_s=rate,
        measured_read_bit_per_s=rate,
        measured_write_bit_per_s=rate,
        layout=maybe(one_of_words(model.Layout)),
        groups=st.integers(1, 4),
        spares=st.integers(0, 4),
    )


@st.composite
def _common(draw: st.DrawFn, racks: tuple[str, ...], rooms: tuple[str, ...]) -> dict[str, Any]:
    position = made(
        model.RackPosition,
        rack=st.sampled_from(racks or ("none",)),
        unit=st.integers(1, 42),
        height=st.integers(1, 4),
        mounted=st.sampled_from(("front", "rear")),
        half=st.sampled_from((None, "left", "right")),
    )
    return {
        "room": draw(maybe(st.sampled_from(rooms) if rooms else names())),
        "rack": draw(maybe(position)) if racks else None,
        "depth_m": draw(maybe(lengths_m())),
        "watts": draw(maybe(st.floats(0, 10**6))),
        "watts_max": draw(maybe(st.floats(0, 10**6))),
        "owned": draw(maybe(st.booleans())),
    }


@st.composite
def devices(  # noqa: PLR0913, PLR0917 - a device depends on everything that it may refer to
    draw: st.DrawFn,
    name: str,
    role: Any,
    networks_there: tuple[str, ...],
    racks: tuple[str, ...],
    rooms: tuple[str, ...],
    storages: tuple[model.Storage, ...],
) -> model.Device:
    """A device of one role."""
    common = draw(_common(racks, rooms)) | {"name": name, "role": role}
    if role in model.PASSIVE_ROLES:
        return model.Device(**common, ports=draw(ports_by_name(passive_ports())))
    ports = draw(ports_by_name(active_ports(networks_there, serving=role == "storage")))
    own = tuple(ports)
    common |= {"ports": ports, "bonds": draw(bonds(own, networks_there))}
    some_ports = st.lists(st.sampled_from(own), unique=True, max_size=3).map(tuple) if own else st.just(())
    common["bridges"] = draw(some_ports)
    match role:
        case "station":
            return model.Station(**common, **draw(_station(some_ports, storages)))
        case "storage":
            return model.Storage(**common, **draw(_storage(own, networks_there)))
        case "switch":
            return model.Switch(
                **common,
                spanning_tree=draw(maybe(st.booleans())),
                priority=draw(maybe(st.integers(0, 15).map(lambda step: step * 4096))),
                mac=draw(maybe(macs())),
                fabric_bit_per_s=draw(maybe(rates_bit_per_s())),
            )
        case "internet":
            rate = maybe(rates_bit_per_s())
            return model.Internet(**common, up_bit_per_s=draw(rate), down_bit_per_s=draw(rate))
        case _:
            return model.Device(**common)


@st.composite
def _station(
    draw: st.DrawFn, some_ports: st.SearchStrategy[tuple[str, ...]], storages: tuple[model.Storage, ...]
) -> dict[str, Any]:
    targets = [storage.name for storage in storages]
    targets += [f"{storage.name}/{port}" for storage in storages for port in list(storage.ports)[:1]]
    pools_there = tuple((storage.name, pool) for storage in storages for pool in storage.pools)
    rows = st.lists(streams(pools_there), max_size=2).map(tuple)
    return {
        "system": draw(maybe(one_of_words(model.System))),
        "service_order": draw(some_ports),
        "metrics": {port: draw(st.integers(0, 5000)) for port in draw(some_ports)},
        "manager": draw(maybe(names())),
        "wants_bit_per_s": draw(maybe(rates_bit_per_s())),
        "edits_from": draw(
            maybe(st.lists(st.sampled_from(targets), unique=True).map(tuple) if targets else st.just(()))
        ),
        "plays": draw(rows),
        "records": draw(rows),
    }


@st.composite
def _storage(draw: st.DrawFn, ports: tuple[str, ...], networks_there: tuple[str, ...]) -> dict[str, Any]:
    nodes = draw(st.lists(names(), unique=True, max_size=2)) if len(ports) >= 2 else []
    virtual = draw(st.lists(st.sampled_from(networks_there), unique=True, max_size=2)) if networks_there else []
    return {
        "purpose": draw(one_of_words(model.StoragePurpose)),
        "pools": draw(st.dictionaries(names(), pools(), max_size=2)),
        "nodes": {node: (ports[nth],) for nth, node in enumerate(nodes)},
        "virtual": {network: draw(addresses()) for network in virtual},
    }


@st.composite
def cables(draw: st.DrawFn, devices_there: tuple[model.Device, ...], routes: tuple[str, ...]) -> dict[str, model.Cable]:
    """A few cables and breakouts; none begins and ends in one port, and a jack takes two."""
    free = [PortRef(device.name, port) for device in devices_there for port in device.ports]
    free += [end for end in free if any(end.device == device.name and device.passive for device in devices_there)]
    free = draw(st.permutations(free[:40]))
    found: dict[str, model.Cable] = {}
    for name in draw(st.lists(names(), unique=True, max_size=4)):
        taken = draw(st.integers(2, 3))
        ends = tuple(dict.fromkeys(free[:taken]))
        free = free[taken:]
        if len(ends) < 2:
            break
        found[name] = model.Cable(
            name=name,
            from_port=ends[0],
            to_ports=ends[1:],
            category=draw(one_of_words(model.Category)),
            rates=draw(maybe(port_rates())),
            length_m=draw(maybe(lengths_m())),
            cord_awg=draw(st.sampled_from((None, 22, 23, 24, 26, 28))),
            screened=draw(st.booleans()),
            material=draw(one_of_words(model.Material)),
            fibres=draw(maybe(st.integers(1, 24))),
            splices=draw(st.integers(0, 9)),
            loss_db=draw(maybe(st.floats(0, 100))),
            ambient_c=draw(maybe(st.floats(-60, 90))),
            installed=draw(st.booleans()),
            owned=draw(maybe(st.booleans())),
            via=tuple(draw(st.lists(st.sampled_from(routes), max_size=2))) if routes else (),
            label=draw(maybe(free_texts())),
            note=draw(maybe(free_texts())),
        )
    return found


def copies(devices_there: tuple[str, ...]) -> st.SearchStrategy[tuple[model.Copy, ...]]:
    """A few copies between devices; two may have one name."""
    if not devices_there:
        return st.just(())
    copy = made(
        model.Copy,
        what=st.one_of(st.just("offload"), names()),
        from_device=st.sampled_from(devices_there),
        to_device=st.sampled_from(devices_there),
        size_bytes=maybe(st.integers(1, 10**18)),
        within_s=maybe(st.one_of(st.sampled_from((1800.0, 14400.0)), st.floats(0.001, 10**6))),
        at_minute=maybe(st.integers(0, 1439)),
        weight=st.one_of(st.just(1.0), st.floats(0.01, 1000)),
        source_rate_bit_per_s=maybe(rates_bit_per_s()),
    )
    return st.lists(copy, max_size=2).map(tuple)


@cache
def stock() -> st.SearchStrategy[tuple[model.StockItem, ...]]:
    """A few things to buy."""
    amount = st.decimals(Decimal(0), Decimal(9999), places=2)
    price = made(model.Price, amount=amount, currency=st.sampled_from(("EUR", "CHF")))
    item = made(
        model.StockItem,
        what=names(),
        category=maybe(one_of_words(model.Category)),
        screened=maybe(st.booleans()),
        cord_awg=maybe(st.sampled_from((22, 23, 24, 26, 28))),
        length_m=maybe(lengths_m()),
        price=maybe(price),
        ends=maybe(names()),
    )
    return st.lists(item, max_size=2).map(tuple)


@st.composite
def plans(draw: st.DrawFn) -> model.Plan:
    """A whole plan that the reader accepts: everything it refers to is in it."""
    networks_there = draw(networks())
    rooms = draw(st.dictionaries(names(), maybe(names()), max_size=2))
    room = maybe(st.sampled_from(tuple(rooms)) if rooms else names())
    racks = {
        name: model.Rack(
            name=name, units=draw(maybe(st.integers(1, 48))), depth_m=draw(maybe(lengths_m())), room=draw(room)
        )
        for name in draw(st.lists(names(), unique=True, max_size=2))
    }
    routes = draw(st.dictionaries(names(), lengths_m(), max_size=2))
    devices_there = draw(_devices_of_a_plan(tuple(networks_there), tuple(racks), tuple(rooms)))
    return model.Plan(
        file="<text>",
        name=draw(maybe(free_texts())),
        about=draw(maybe(free_texts())),
        headroom=draw(st.one_of(st.just(0.3), st.floats(0, 0.99))),
        regime=draw(one_of_words(model.Regime)),
        ambient_c=draw(st.one_of(st.just(20.0), st.floats(-60, 90))),
        tree_costs=draw(one_of_words(model.TreeCosts)),
        networks=networks_there,
        racks=racks,
        rooms={name: model.Room(name=name, building=building) for name, building in rooms.items()},
        devices=devices_there,
        cables=draw(cables(tuple(devices_there.values()), tuple(routes))),
        routes={name: model.Route(name=name, length_m=length_m) for name, length_m in routes.items()},
        copies=draw(copies(tuple(devices_there))),
        stock=draw(stock()),
    )


@st.composite
def _devices_of_a_plan(
    draw: st.DrawFn, networks_there: tuple[str, ...], racks: tuple[str, ...], rooms: tuple[str, ...]
) -> dict[str, model.Device]:
    roles = draw(st.lists(st.one_of(st.just("storage"), one_of_words(model.Role)), max_size=4))
    roles.sort(key=lambda role: role != "storage")
    found: dict[str, model.Device] = {}
    for name, role in zip(draw(st.lists(device_names(), unique=True, min_size=4, max_size=4)), roles, strict=False):
        storages = tuple(device for device in found.values() if isinstance(device, model.Storage))
        found[name] = draw(devices(name, role, networks_there, racks, rooms, storages))
    return found


def _is_name(name: str) -> bool:
    return name == name.strip() and " > " not in name and name != ""


def _is_range(name: str) -> bool:
    first, dash, last = name.partition("-")
    return bool(dash) and first.isdecimal() and last.isdecimal()
