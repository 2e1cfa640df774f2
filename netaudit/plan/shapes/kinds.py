"""The kinds of value that a plan is made of, each with its form."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any, get_args

from netaudit.model import plan as model
from netaudit.model.place import PortRef
from netaudit.plan.scalars import accepted_units, addresses, counts, footage, ports, quantities, spelling, text
from netaudit.plan.scalars.accepted_units import Unit
from netaudit.plan.scalars.ranges import port_range
from netaudit.plan.shapes.forms import Form, JsonSchema, OneOrMore, words

_NAME_SCHEMA: JsonSchema = {
    "type": ["string", "number", "boolean"],
    "minLength": 1,
    "maxLength": text.LONGEST_NAME,
    "pattern": r"^(?!.* > )\S(.*\S)?$",
}
_TARGET_SCHEMA: JsonSchema = {"type": ["string", "number", "boolean"], "minLength": 1, "pattern": r"^[^/]+(/.+)?$"}
_DEVICE_SCHEMA: JsonSchema = {**_NAME_SCHEMA, "pattern": r"^(?!.* > )[^\s/]([^/]*[^\s/])?$"}


def _quantity(kind: Unit, parse: Any, spell: Any) -> Form:
    units = "|".join(re.escape(unit).replace("\\ ", " ") for unit in kind.factors)
    sign = "[+-]?" if kind.least < 0 else ""
    schema = {"type": "string", "pattern": rf"^{sign}[0-9]+(\.[0-9]+)? *({units})$"}
    examples = re.split(", | or ", kind.example)
    shown = " ".join(f"`{example}`" for example in examples)
    return Form(what=kind.what, shown=shown, parse=parse, spell=spell, schema=schema)


def _count(what: str, least: int, most: int, step: int = 1) -> Form:
    schema = {"type": ["integer", "string"], "minimum": least, "maximum": most, "pattern": "^[0-9]+$"}
    if step > 1:
        schema["multipleOf"] = step
    shown = f"{least} to {most}" + (f" in steps of {step}" if step > 1 else "")
    return Form(what=what, shown=shown, parse=counts.count(what, least, most, step), schema=schema)


def _pattern(what: str, example: str, parse: Any, spell: Any, pattern: str, *types: str) -> Form:
    schema = {"type": ["string", *types] if types else "string", "pattern": pattern}
    shown = " ".join(f"`{each}`" for each in example.split(" or "))
    return Form(what=what, shown=shown, parse=parse, spell=spell, schema=schema)


def _flag(written: str) -> bool:
    if written in {"true", "false"}:
        return written == "true"
    meant = "false" if written.casefold() in {"no", "n", "off", "false", "0"} else "true"
    raise ValueError(f"{text.quoted(written)} is neither true nor false: write {meant}")


def _version(written: str) -> str:
    if written != "1":
        raise ValueError(f"{text.quoted(written)} is not a plan format that can be read: write 1")
    return written


def _port_key(written: str) -> str:
    port_range(text.name(written))
    return written


FLAG = Form(what="true or false", shown="`true` `false`", parse=_flag, spell=bool, schema={"type": "boolean"})
VERSION = Form(what="the plan format", shown="`1`", parse=_version, schema={"enum": [1, "1"]})
NAME = Form(what="a name", shown="name", parse=text.name, schema=_NAME_SCHEMA)
DEVICE_NAME = Form(what="the name of a device", shown="name", parse=text.device_name, schema=_DEVICE_SCHEMA)
FREE_TEXT = Form(
    what="a text",
    shown="text",
    parse=text.free_text,
    schema={"type": ["string", "number", "boolean"], "minLength": 1},
)
PORT_KEY = Form(what="the name of a port", shown="name or range", parse=_port_key, schema=_NAME_SCHEMA)
PORT_RATE = _quantity(accepted_units.RATE, quantities.rate_bit_per_s, spelling.port_rate)
RATES = Form(
    what="a rate",
    shown="`10G` `up to 10G`",
    parse=ports.rates,
    spell=spelling.rates,
    schema={"type": "string", "pattern": f"^(up to +)?{PORT_RATE.schema['pattern'][1:-1]}$"},
)
SUBNET = _pattern("a subnet", "10.44.20.0/24", addresses.subnet, str, r"^[0-9A-Fa-f.:]+/[0-9]+$")
ADDRESS = _pattern("an address", "10.44.20.11 or fd00::11", addresses.address, str, r"^[0-9A-Fa-f.:]+$")
ADDRESS_OR_LEASE = _pattern(
    "an address", "10.44.20.11 or lease", addresses.address_or_lease, str, r"^([0-9A-Fa-f.:]+|lease)$"
)  # fmt: skip
PORT_REFERENCE = _pattern("a port", "core/9", ports.port_reference, str, "^[^/]+/.+$")


def _joined_addresses(each: tuple[Any, ...]) -> tuple[Any, ...]:
    if addresses.LEASE in each and len(each) > 1:
        raise ValueError("'lease' stands alone: write 'lease', or list the addresses")
    return each


def _split_rates(rates: model.Rates) -> tuple[model.Rates, ...]:
    return (rates,) if rates.up_to else tuple(model.Rates((rate,)) for rate in rates.bit_per_s)


Version = Annotated[str, VERSION]
Flag = Annotated[bool, FLAG]
Name = Annotated[str, NAME]
DeviceName = Annotated[str, DEVICE_NAME]
PortKey = Annotated[str, PORT_KEY]
FreeText = Annotated[str, FREE_TEXT]

Length = Annotated[float, _quantity(accepted_units.LENGTH, quantities.length_m, spelling.length)]
PortRate = Annotated[int, PORT_RATE]
StreamRate = Annotated[int, _quantity(accepted_units.RATE, quantities.rate_bit_per_s, spelling.stream_rate)]
DiskRate = Annotated[int, _quantity(accepted_units.RATE, quantities.rate_bit_per_s, spelling.disk_rate)]
Size = Annotated[int, _quantity(accepted_units.SIZE, quantities.size_bytes, spelling.size)]
Power = Annotated[float, _quantity(accepted_units.POWER, quantities.power_w, spelling.power)]
Time = Annotated[float, _quantity(accepted_units.TIME, quantities.time_s, spelling.time)]
Share = Annotated[float, _quantity(accepted_units.SHARE, quantities.share, spelling.share)]
Loss = Annotated[float, _quantity(accepted_units.LOSS, quantities.loss_db, spelling.loss)]
Temperature = Annotated[float, _quantity(accepted_units.TEMPERATURE, quantities.temperature_c, spelling.temperature)]

Vlan = Annotated[int, _count("a VLAN identifier", 1, 4094)]
"""IEEE Std 802.1Q: 0 and 4095 are reserved."""
Mtu = Annotated[int, _count("a largest packet, in octets,", 68, 65535)]
"""IETF RFC 791: every link carries 68 octets; the length field of a packet ends at 65,535."""
RackUnits = Annotated[int, _count("a number of rack units", 1, 100)]
Priority = Annotated[int, _count("a bridge priority", 0, 61440, 4096)]
"""IEEE Std 802.1D-2004, table 17-2."""
Metric = Annotated[int, _count("a route metric", 0, 4_294_967_295)]
Streams = Annotated[int, _count("a number of streams", 1, 10_000)]
Drives = Annotated[int, _count("a number of drives", 1, 10_000)]
Spares = Annotated[int, _count("a number of spares", 0, 10_000)]
Bits = Annotated[int, _count("a sample depth, in bits,", 1, 64)]
Channels = Annotated[int, _count("a number of sound channels", 1, 1024)]
Fibres = Annotated[int, _count("a number of fibres", 1, 1024)]
Splices = Annotated[int, _count("a number of splices", 0, 1000)]
Gauge = Annotated[int, _pattern("a gauge", "26 AWG", counts.gauge_awg, spelling.gauge, "^[0-9]{2}( ?AWG)?$", "integer")]
Weight = Annotated[
    float,
    Form(
        what="a weight",
        shown="`2`, over 0",
        parse=counts.weight,
        spell=spelling.number,
        schema={"type": ["number", "string"], "exclusiveMinimum": 0, "pattern": r"^[0-9]+(\.[0-9]+)?$"},
    ),
]
TimeOfDay = Annotated[
    int,
    _pattern("a time of day", "19:30", counts.minute_of_day, spelling.time_of_day, "^[0-9]{2}:[0-9]{2}$", "integer"),
]
Price = Annotated[
    model.Price, _pattern("a price", "7.20 EUR", counts.price, spelling.price, r"^[0-9]+(\.[0-9]+)? [A-Z]{3}$")
]

Fps = Annotated[
    Fraction,
    _pattern("a frame rate", "24000/1001", footage.fps, str, r"^[0-9]+(\.[0-9]+|/[0-9]+)?$", "number"),
]
Raster = Annotated[
    tuple[int, int], _pattern("a raster", "3840x2160", footage.raster, spelling.raster, "^[0-9]+ ?[x×] ?[0-9]+$")
]
Sampling = Annotated[
    str, _pattern("a chroma sampling", "4:2:2", footage.sampling, str, "^[0-9](:[0-9]){2,3}$", "integer")
]
Ratio = Annotated[Fraction, _pattern("a ratio", "5:1", footage.ratio, spelling.ratio, r"^[0-9.]+:[0-9.]+$", "integer")]
SampleRate = Annotated[
    int,
    _pattern(
        "a sample rate", "48 kHz", quantities.sample_rate_hz, spelling.sample_rate, "^[0-9.]+ *(k?Hz)?$", "integer"
    ),
]

Subnets = Annotated[tuple[model.Subnet, ...], OneOrMore(form=SUBNET)]
Address = Annotated[model.Address, ADDRESS]
Addresses = Annotated[tuple[model.Address | str, ...], OneOrMore(form=ADDRESS_OR_LEASE, join=_joined_addresses)]
Leases = Annotated[
    tuple[model.Address, model.Address],
    _pattern("a range of addresses", "10.44.20.100-10.44.20.199", addresses.leases, spelling.leases, "^.+-.+$"),
]
Mac = Annotated[
    str, _pattern("a hardware address", "02:00:5e:10:00:01", addresses.mac, str, r"^[0-9A-Fa-f:.-]+$", "integer")
]
Rates = Annotated[model.Rates, OneOrMore(form=RATES, join=ports.joined_rates, split=_split_rates)]
Bus = Annotated[
    model.Bus,
    _pattern(
        "a bus",
        "pcie 3 x4 or thunderbolt 3 or usb 10G",
        ports.bus,
        spelling.bus,
        r"^(pcie [1-7] x[0-9]+|thunderbolt [1-5]|usb .+?)( via .+)?$",
    ),
]
Port = Annotated[PortRef, PORT_REFERENCE]
Ports = Annotated[tuple[PortRef, ...], OneOrMore(form=PORT_REFERENCE)]
StorageReference = Annotated[
    str,
    Form(what="a storage", shown="`vault` `vault/fast`", parse=ports.storage_reference, schema=_TARGET_SCHEMA),
]
PoolReference = Annotated[
    tuple[str, str], _pattern("a pool", "vault/main", ports.pool_reference, spelling.pool_reference, "^[^/]+/.+$")
]

Role = Annotated[model.Role, words("a role", get_args(model.Role))]
Regime = Annotated[model.Regime, words("a regime", get_args(model.Regime))]
TreeCosts = Annotated[model.TreeCosts, words("a kind of path cost", get_args(model.TreeCosts))]
Purpose = Annotated[model.NetworkPurpose, words("a purpose of a network", get_args(model.NetworkPurpose))]
StoragePurpose = Annotated[model.StoragePurpose, words("a purpose of a storage", get_args(model.StoragePurpose))]
PortPurpose = Annotated[str, words("a purpose of a port", ("management",))]
System = Annotated[model.System, words("a system", get_args(model.System))]
Connector = Annotated[model.Connector, words("a connector", get_args(model.Connector))]
Category = Annotated[model.Category, words("a category", get_args(model.Category))]
Material = Annotated[model.Material, words("a conductor material", get_args(model.Material))]
Layout = Annotated[model.Layout, words("a pool layout", get_args(model.Layout))]
Mounted = Annotated[str, words("a side of a rack", ("front", "rear"))]
Half = Annotated[str, words("a half of a rack unit", ("left", "right"))]
