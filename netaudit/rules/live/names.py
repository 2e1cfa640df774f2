"""Live rules about addresses: is the planned one in use, does the name give one port alone, is there a way there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address
from netaudit.rules.live.between import way_first
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.remedies import remount
from netaudit.rules.live.roads import evidence_text, leaving
from netaudit.rules.live.settings import hosts_entry, own_address_step
from netaudit.rules.live.sources import observed
from netaudit.rules.live.storage_ports import grouped, on_one_port, port_of, surely_apart
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place, interface_place

_FROM_A_NAME = ("hosts", "dns", "mdns")
_LOOKED_UP = {
    "hosts": "the hosts file",
    "dns": "the name service (DNS)",
    "mdns": "the storage's own announcement (mDNS)",
}


class UsedAddress(NamedTuple):
    """An address of the storage that traffic goes to, and how that is known."""

    address: Address
    evidence: str


def _used(situation: Situation) -> Iterator[UsedAddress]:
    """The addresses in use, where the plan names those that are meant."""
    if situation.expected is None or not situation.expected.planned_addresses:
        return
    found = {use.remote: use for use in leaving(situation)}
    for address, use in found.items():
        if address is not None:
            yield UsedAddress(address, evidence_text(use))


def _judge_address(used: UsedAddress, situation: Situation) -> Judgement:
    expected, address = situation.expected, used.address
    planned = () if expected is None else expected.planned_addresses
    if not planned or address in planned or any(on_one_port(address, each, situation) for each in planned):
        return None
    if _is_made_up(address) and not any(on_one_port(address, each, situation) is False for each in planned):
        return ADDRESS_NOT_PLANNED.not_checked(
            address_place(address),
            reason=f"Which port of {situation.storage_name} has {address} is not known: every port makes up such an "
            "address for itself",
            decides=f"mount by {planned[0]}, which is planned",
        )
    port = port_of(address, situation)
    whose = f", which is {port} in the plan" if port is not None else ", which the plan does not know"
    return ADDRESS_NOT_PLANNED.finding(
        address_place(address),
        *(address_place(each) for each in planned[:1]),
        message=f"{situation.storage_name} is reached at {address}{whose}, instead of {listed(planned)}; "
        f"{used.evidence}",
        remedy=_to_the_planned(address, planned[0], situation),
        source=OBSERVED,
    )


def _to_the_planned(address: Address, planned: Address, situation: Situation) -> str:
    step = remount(situation, planned)
    first = way_first(planned, situation)
    lead = f"{first}{step}." if first else f"{step[0].upper()}{step[1:]}."
    far = situation.address(address)
    if far is None or far.origin not in _FROM_A_NAME:
        return f"{lead} A shortcut, a sidebar entry or a project that has {address} in it needs the new address too."
    return (
        f"{lead} The address came from {_LOOKED_UP[far.origin]}: to keep the name, let it give {planned} alone "
        f"(by {hosts_entry(situation, planned)})."
    )


ADDRESS_NOT_PLANNED = Rule(
    name="address-not-planned",
    family="live",
    severity="fail",
    subjects=_used,
    judge=_judge_address,
    what="A storage used by another of its addresses than the plan means.",
    why="The address decides the road: a name in the sidebar often gives that of the slow port, and nothing shows it.",
    todo="Mount by the planned address, or let the name give that one alone.",
    sources=observed,
)


def _names(situation: Situation) -> Iterable[tuple[Address, ...]]:
    """The addresses that the storage's name gives, where it gives several."""
    given = tuple(
        far.address
        for far in situation.seen.addresses
        if far.origin in _FROM_A_NAME and not far.is_here and not _is_made_up(far.address)
    )
    if situation.seen.complete and len(given) > 1:
        yield given


def _is_made_up(address: Address) -> bool:
    """Whether a port gave itself the address: every IPv6 port has one such."""
    return address.version == 6 and address.is_link_local


def _judge_name(given: tuple[Address, ...], situation: Situation) -> Judgement:
    planned = () if situation.expected is None else situation.expected.planned_addresses
    groups = grouped(given, situation)
    if len(groups) == 1 or all(address in planned for address in given):
        return None
    apart = surely_apart(groups, situation)
    host, heads = situation.seen.host, [group[0] for group in groups]
    if apart is None:
        told = gap(
            NAME_GIVES_MANY_ADDRESSES.name,
            situation,
            f"Whether {listed(heads)} are on one port of the storage is not known",
            "compare their hardware addresses: on one port they are the same",
        )
        return NAME_GIVES_MANY_ADDRESSES.not_checked(
            *map(address_place, heads), reason=told.reason, decides=told.decides
        )
    wanted = next((address for address in planned if address in given), None)
    keep = str(wanted) if wanted is not None else "the one on its fast port"
    ways = [way_first(each, situation) for each in ((wanted,) if wanted is not None else given)]
    first = next(filter(None, ways), "")
    return NAME_GIVES_MANY_ADDRESSES.finding(
        *map(address_place, heads),
        message=f"the name {host} gives {len(groups)} ports of the storage, {listed(heads)}, and this system tries "
        f"{given[0]} first",
        remedy=f"{first}Mount by address instead of by name: {remount(situation, wanted)}. Or let {host} give {keep} "
        f"alone: by {hosts_entry(situation, wanted)}, or by turning its announcements off on the storage's other "
        "ports.",
        source=OBSERVED,
    )


NAME_GIVES_MANY_ADDRESSES = Rule(
    name="name-gives-many-addresses",
    family="live",
    severity="warn",
    subjects=_names,
    judge=_judge_name,
    what="A storage's name that gives addresses of several of its ports.",
    why="Which of them is taken may change with every mount: fast today, slow tomorrow, and the name stays the same.",
    todo="Mount by address, or let the name give the fast port's address alone.",
    sources=observed,
)


class Destination(NamedTuple):
    """Addresses of which one must be reachable, and what they are."""

    addresses: tuple[FarAddress, ...]
    what: str


def destinations(situation: Situation, lives: Callable[[FarAddress], bool]) -> Iterator[Destination]:
    """What was asked for, each part of which must be reachable.

    Parameters: whether an address is. Beside all addresses together stands the storage's planned end, where only others
    are.
    """
    every = situation.seen.addresses
    if every:
        yield Destination(every, situation.storage_name)
    planned = () if situation.expected is None else situation.expected.planned_addresses
    own = tuple(far for far in every if far.address in planned)
    if own and any(lives(far) for far in every if far.address not in planned):
        yield Destination(own, f"the planned end of {situation.storage_name}")


def _routed(situation: Situation) -> Iterator[Destination]:
    return destinations(situation, lambda far: far.route is not None)


def _judge_route(to: Destination, situation: Situation) -> Judgement:
    lacking = [far for far in to.addresses if far.route is None and far.no_route is not None]
    if len(lacking) < len(to.addresses):
        return None
    state = situation.planned_interface
    return NO_ROUTE.finding(
        *(address_place(far.address) for far in lacking),
        *(() if state is None else (interface_place(state.name),)),
        message=f"this machine has no route to {to.what} ({listed(far.address for far in lacking)}): the system says "
        f"{lacking[0].no_route!r}",
        remedy=_a_way_there(lacking[0], situation),
        source=OBSERVED,
    )


def _a_way_there(far: FarAddress, situation: Situation) -> str:
    port, state = situation.planned_port, situation.planned_interface
    if port is not None and port.addresses and (state is None or not set(port.addresses) <= set(state.hosts)):
        step = own_address_step(situation, port)
        return f"Give {situation.planned_way} its planned address {listed(port.addresses)}, without a gateway{step}."
    near = [state.name for state in situation.seen.interfaces.values() if _reaches(state, far.address)]
    if near:
        show = {"linux": "ip route show table all", "macos": "netstat -rn", "windows": "route print"}
        return (
            f"{listed(near)} has an address in that subnet, so that something forbids it: look for a route to "
            f"{far.address} that rejects in `{show[situation.seen.system]}`, and take it out."
        )
    return (
        f"Give the wired port an address in the subnet of {far.address}, without a gateway; if it should have got one "
        "by itself, look at its cable and at what hands the addresses out."
    )


def _reaches(state: Interface, address: Address) -> bool:
    """Whether an interface has an address in the subnet of another."""
    return any(address in each.network for each in state.addresses)


NO_ROUTE = Rule(
    name="no-route",
    family="live",
    severity="fail",
    subjects=_routed,
    judge=_judge_route,
    what="A storage that this machine has no route to.",
    why="Not one packet leaves: the port that should carry it lacks its address, or is gone.",
    todo="Give the wired port its address in the storage's subnet.",
    sources=observed,
)
