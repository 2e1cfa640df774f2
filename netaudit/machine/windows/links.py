"""The interfaces of Windows, their counters, and what takes PowerShell to find out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.parse.windows import adapters, vpn
from netaudit.machine.parse.windows.facts import AdapterFacts
from netaudit.machine.parse.windows.interface import interfaces
from netaudit.machine.parse.windows.json_shape import Row, text
from netaudit.machine.parse.windows.script import answered, answered_or_empty
from netaudit.machine.windows import queries
from netaudit.machine.windows.asked import Ask
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Interface
from netaudit.model.observation import Growth


def by_number(ways: Ways) -> Mapping[int, Interface]:
    """The interfaces that count, by the system's number."""
    found = ways.either(lambda way: way.adapters())
    own = ways.either(lambda way: way.addresses())
    numbers = sorted({address.number for address in own})
    return interfaces(found, own, dict(_ip_mtus(ways, numbers)), _stack(ways))


def by_name(ways: Ways) -> Mapping[str, Interface]:
    """The interfaces that count, by the name that people see."""
    return {each.name: each for each in by_number(ways).values()}


def counts(ways: Ways) -> Mapping[str, Growth]:
    """The counters of every interface that counts; Windows does not count how often a carrier came and went."""
    return {each.name: Growth(each.counters) for each in by_number(ways).values()}


def detailed(ask: Ask, interface: Interface) -> Interface:
    """The same interface with its bus, duplex and settings, and whether it is a VPN of Windows itself.

    Windows tells neither what the other end offers nor what an adapter offers by itself; a forced rate is all that it
    offers. The rates that it can be set to are the least that it can run: they are believed where they reach the
    agreed one.
    """
    answers = ask(queries.ADAPTERS, queries.HARDWARE, queries.SETTINGS, queries.TUNNELS, queries.COMMON_TUNNELS)
    adapter = _own(adapters.adapters(answered(answers, "adapters")), interface)
    settings = adapters.settings(answered_or_empty(answers, "settings"), adapter.alias)
    tunnels = (answered_or_empty(answers, name) for name in ("tunnels", "commonTunnels"))
    listed = settings.listed if max(settings.listed, default=0) >= (interface.rate_bit_per_s or 0) else ()
    radio = interface.medium == "radio"
    return interface._replace(
        medium="tunnel"
        if adapter.alias in vpn.connected(row for rows in tunnels for row in rows)
        else interface.medium,
        duplex=None if radio or adapter.full_duplex is None else "full" if adapter.full_duplex else "half",
        mtu=interface.mtu if interface.mtu is not None else settings.mtu,
        offered=None if settings.forced_bit_per_s is None else (settings.forced_bit_per_s,),
        supported=listed or None,
        bus=adapters.bus(adapter.device, _hardware(answered_or_empty(answers, "hardware"), adapter.alias)),
    )


def _own(found: tuple[AdapterFacts, ...], interface: Interface) -> AdapterFacts:
    """The adapter of an interface, by its number: names change hands."""
    for each in found:
        if each.number == interface.number:
            return each
    raise AnswerError(f"PowerShell knows no adapter {interface.name}")


def _hardware(found: tuple[Row, ...], alias: str) -> Row | None:
    return next((row for row in found if text(row, "Name") == alias), None)


def _ip_mtus(ways: Ways, numbers: list[int]) -> Iterator[tuple[int, int]]:
    """Largest packets that IP uses [octets], which may be set below the driver's own; only by direct calls."""
    for number in numbers:
        for version in (6, 4):
            try:
                settings = ways.native.ip_interface(number, version)
            except MachineError:
                return
            if settings is not None and settings.mtu is not None:
                yield number, settings.mtu


def _stack(ways: Ways) -> tuple[tuple[int, int], ...]:
    """Which interface stands upon which; unknown where direct calls are barred."""
    try:
        return ways.native.stack()
    except MachineError:
        return ()
