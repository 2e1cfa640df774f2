"""The interfaces of a Mac: ifconfig for links and addresses, netstat for counters, other tools for the rest."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.machine.macos.asking import IFCONFIG, NETSTAT, NETWORKSETUP, SCUTIL, beside, text
from netaudit.machine.parse.macos.ifconfig import Block, parse_ifconfig, parse_supported
from netaudit.machine.parse.macos.medium import medium_of, rate_is_made_up
from netaudit.machine.parse.macos.netstat_interfaces import parse_netstat_interfaces
from netaudit.machine.parse.macos.network_setup import parse_hardware_ports
from netaudit.machine.parse.macos.profiler import RADIO_TYPES, WIRED_TYPES, Card, parse_cards, parse_radio_rate
from netaudit.machine.parse.macos.scutil import Ranked, parse_nwi, parse_show
from netaudit.model.machine_state import Counters, Interface
from netaudit.model.observation import Growth
from netaudit.model.vocabulary import Address

PROFILER = "/usr/sbin/system_profiler"
PROFILER_S = 8.0
"""Wait for the hardware lists, which take one or two seconds each [s]."""


class _Beside(NamedTuple):
    """What other tools than ifconfig know of the interfaces."""

    counters: Mapping[int | None, Counters]
    titles: Mapping[str, str]
    ranked: tuple[Ranked, ...]


def interfaces() -> Mapping[str, Interface]:
    """Every interface by name; raises MachineError where ifconfig cannot be asked."""
    found = blocks()
    known = _Beside(
        beside(_counters) or {},
        beside(lambda: parse_hardware_ports(text(NETWORKSETUP, "-listallhardwareports"))) or {},
        beside(lambda: parse_nwi(text(SCUTIL, "-d", "--nwi"))) or (),
    )
    return {name: _interface(block, known) for name, block in found.items()}


def blocks() -> Mapping[str, Block]:
    """What ifconfig says of every interface."""
    return parse_ifconfig(text(IFCONFIG, "-av"))


def owner_of(address: Address, found: Mapping[str, Block]) -> str | None:
    """The interface that bears an address; None where none or several do."""
    names = [name for name, block in found.items() if address in [each.ip for each in block.addresses]]
    return names[0] if len(names) == 1 else None


def counts() -> Mapping[str, Growth]:
    """The counters of every interface; netstat may cut names, so they are joined by number."""
    counters = _counters()
    return {name: Growth(counters[block.number]) for name, block in blocks().items() if block.number in counters}


def detailed(interface: Interface) -> Interface:
    """The same interface with bus and supported rates, and with carrier and radio rate where ifconfig told none."""
    name = interface.name
    supported = beside(lambda: parse_supported(text(IFCONFIG, "-m", name)))
    closer = interface._replace(supported=supported or interface.supported)
    if closer.carrier is None:
        closer = closer._replace(carrier=beside(lambda: _stored_carrier(name)))
    if closer.medium == "radio":
        return closer._replace(rate_bit_per_s=closer.rate_bit_per_s or beside(lambda: _radio_rate(name)))
    card = beside(lambda: _card(name)) if closer.medium in ("wired", "unknown") else None
    return closer if card is None else closer._replace(bus=card.bus, title=closer.title or card.product)


def _interface(block: Block, known: _Beside) -> Interface:
    media = block.media
    rates = (None if media is None else media.rate_bit_per_s, block.link_rate_bit_per_s)
    medium = medium_of(block.name, block.kind, block.flags)
    forced = None if media is None else media.forced_bit_per_s
    ranks = [rank.last for rank in known.ranked if rank.interface == block.name]
    return Interface(
        name=block.name,
        number=block.number,
        title=known.titles.get(block.name) or block.agent,
        medium=medium,
        up="UP" in block.flags,
        carrier=block.carrier,
        rate_bit_per_s=None if block.carrier is False else rates[0] or rates[1],
        duplex=None if media is None or block.carrier is False else media.duplex,
        mtu=block.mtu,
        mac=block.mac,
        addresses=block.addresses,
        offered=None if forced is None else (forced,),
        counters=known.counters.get(block.number, Counters()),
        parent=block.parent or (block.members[0] if len(block.members) == 1 else None),
        made_up_rate=rate_is_made_up(block.name),
        ranked_last=ranks[0] if ranks else None,
    )


def _counters() -> Mapping[int | None, Counters]:
    return {link.number: link.counters for link in parse_netstat_interfaces(text(NETSTAT, "-ibn"))}


def _stored_carrier(name: str) -> bool | None:
    said = text(SCUTIL, stdin=f"show State:/Network/Interface/{name}/Link\n")
    return {"TRUE": True, "FALSE": False}.get(parse_show(said).get("Active", ""))


def _card(name: str) -> Card | None:
    said = text(PROFILER, "-json", *WIRED_TYPES, timeout_s=PROFILER_S)
    return next((card for card in parse_cards(said) if card.interface == name), None)


def _radio_rate(name: str) -> int | None:
    return parse_radio_rate(text(PROFILER, "-json", *RADIO_TYPES, timeout_s=PROFILER_S), name)
