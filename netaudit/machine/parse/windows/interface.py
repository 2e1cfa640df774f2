"""From what Windows tells of its adapters to interfaces: which of them count, what they are called, what they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from netaudit.machine.parse.windows.facts import AdapterFacts, AddressFacts
from netaudit.model.machine_state import Duplex, Interface, Medium

_RADIO_KIND = 71
_LOOPBACK_KIND = 24
_ETHERNET_KIND = 6
_TUNNEL_KINDS = frozenset({23, 53, 131})
"""PPP, proprietary virtual, tunnel."""
_CELLULAR_KINDS = frozenset({243, 244})
_RADIO_MEDIA = frozenset({1, 8, 9, 10})
"""NDIS_PHYSICAL_MEDIUM of radios: wireless LAN, wireless WAN, native 802.11, Bluetooth. Many Wi-Fi drivers say 802.3
where the medium alone is asked."""
_CABLE_MEDIUM = 14


def interfaces(
    adapters: Iterable[AdapterFacts],
    addresses: Iterable[AddressFacts],
    ip_mtus: Mapping[int, int],
    stack: Iterable[tuple[int, int]],
) -> Mapping[int, Interface]:
    """The interfaces that count, by their number.

    Windows lists dozens of layers for each card: kept are cards, and whatever has an address. The number decides,
    names are only shown. Parameters: largest packets that IP uses, by number [octets]; pairs of an interface and one
    that it stands upon.
    """
    own: dict[int, list[AddressFacts]] = {}
    for address in addresses:
        own.setdefault(address.number, []).append(address)
    kept = {each.number: each for each in adapters if not each.layer and (each.hardware or each.number in own)}
    names = unique_names(kept.values())
    below = _below(stack, kept)
    return {
        number: Interface(
            name=names[number],
            number=number,
            title=each.description if each.description != names[number] else None,
            medium=medium(each),
            up=each.up,
            carrier=each.carrier,
            rate_bit_per_s=None if each.carrier is False else each.rate_bit_per_s,
            duplex=_duplex(each),
            mtu=ip_mtus.get(number, each.mtu),
            mac=each.mac,
            addresses=tuple(address.address for address in own.get(number, ())),
            counters=each.counters,
            parent=names[below[number]] if number in below else None,
            made_up_rate=medium(each) in ("virtual", "tunnel"),
        )
        for number, each in kept.items()
    }


def unique_names(adapters: Iterable[AdapterFacts]) -> Mapping[int, str]:
    """A name for each: what people see, with the number behind it where that is empty or taken."""
    names: dict[int, str] = {}
    for each in adapters:
        alias = each.alias.strip()
        free = alias and alias.casefold() not in {name.casefold() for name in names.values()}
        names[each.number] = alias if free else f"{alias or 'interface'} #{each.number}"
    return names


def medium(adapter: AdapterFacts) -> Medium:
    """What an adapter sends through, by numbers that no language translates."""
    if adapter.physical_medium in _RADIO_MEDIA or adapter.kind in _CELLULAR_KINDS | {_RADIO_KIND}:
        return "radio"
    if adapter.tunnelled or adapter.kind in _TUNNEL_KINDS:
        return "tunnel"
    if adapter.kind == _LOOPBACK_KIND:
        return "virtual"
    if adapter.hardware is None:
        return "wired" if adapter.physical_medium == _CABLE_MEDIUM else "unknown"
    if adapter.hardware:
        return "wired"
    return "virtual" if adapter.kind == _ETHERNET_KIND else "unknown"


def _duplex(adapter: AdapterFacts) -> Duplex | None:
    """Both ways at once or not; a radio takes turns by nature, which Windows shows as half duplex."""
    if adapter.full_duplex is None or medium(adapter) == "radio":
        return None
    return "full" if adapter.full_duplex else "half"


def _below(stack: Iterable[tuple[int, int]], kept: Mapping[int, AdapterFacts]) -> Mapping[int, int]:
    """The card that a virtual interface stands upon, through the layers between."""
    steps: dict[int, list[int]] = {}
    for above, below in stack:
        steps.setdefault(above, []).append(below)
    found = {}
    for number, each in kept.items():
        if not each.hardware:
            card = _first_card(number, steps, kept)
            if card is not None:
                found[number] = card
    return found


def _first_card(number: int, steps: Mapping[int, list[int]], kept: Mapping[int, AdapterFacts]) -> int | None:
    """The nearest card downwards; a table that runs in a circle ends the search."""
    seen, level = {number}, steps.get(number, [])
    while level:
        cards = [each for each in level if each in kept and kept[each].hardware]
        if cards:
            return cards[0]
        seen.update(level)
        level = [below for each in level for below in steps.get(each, []) if below not in seen]
    return None
