"""Live rules about who answers: one port of the storage for each of its addresses, and nobody else."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Iterator
from itertools import combinations

from netaudit.citation import OBSERVED
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.observation import FarAddress
from netaudit.model.place import PortRef
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.sources import observed
from netaudit.rules.live.storage_ports import macs_of, told_apart
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place

_Remedy = Callable[[FarAddress, Situation], str]


def _on_the_link(situation: Situation) -> Iterator[FarAddress]:
    """Addresses of the storage that lie on the link."""
    for far in situation.seen.addresses if situation.seen.complete else ():
        direct = far.route is not None and far.route.gateway is None and not far.is_here
        if direct and far.answers:
            yield far


def _judge_answers(far: FarAddress, situation: Situation) -> Judgement:
    known, where = far.neighbours, address_place(far.address)
    if known is None or not known.asked:
        stray = _stray(far, situation)
        if stray is not None:
            return _two_answers(far, *stray, situation)
        if far.address.version == 6:
            return TWO_ANSWERS_FOR_ADDRESS.not_checked(
                where,
                reason="An address of version 6 is read from this machine's table only, which holds one hardware "
                "address whoever else answers",
                decides=f"unplug {situation.storage_name} for a moment and probe {far.address} again: what still "
                "answers is another machine",
            )
        told = gap(
            TWO_ANSWERS_FOR_ADDRESS.name,
            situation,
            f"Asked by ARP, no hardware address answered for {far.address} in time",
            "probe once more while less is going on",
        )
        return TWO_ANSWERS_FOR_ADDRESS.not_checked(where, reason=told.reason, decides=told.decides)
    if len(known.macs) < 2:
        return None
    macs = [_with_port(mac, situation) for mac in known.macs]
    message = (
        f"{len(macs)} hardware addresses answer for {far.address}: {listed(macs)}; which of them is sent to is chance"
    )
    return _two_answers(far, message, _remedy_of(far, situation), situation)


def _stray(far: FarAddress, situation: Situation) -> tuple[str, _Remedy] | None:
    """What the system's own table proves against the plan: another port of the storage answers for an address."""
    ports = () if situation.expected is None else tuple(situation.expected.storage_ports.values())
    held = macs_of(far.address, situation)
    meant = [port for port in ports if far.address in port.addresses and port.mac is not None]
    others = [port for port in ports if port.mac in held and far.address not in port.addresses]
    if not meant or not others or any(port.mac in held for port in meant):
        return None
    message = (
        f"{others[0].port} answers for {far.address}, which is the address of {meant[0].port}: this system holds "
        f"{others[0].mac} for it, and {meant[0].mac} is planned"
    )
    return message, _two_own_ports


def _two_answers(far: FarAddress, message: str, remedy: _Remedy, situation: Situation) -> Judgement:
    return TWO_ANSWERS_FOR_ADDRESS.finding(
        address_place(far.address),
        message=message,
        remedy=remedy(far, situation),
        source=OBSERVED,
    )


def _two_own_ports(far: FarAddress, situation: Situation) -> str:
    return (
        f"Both are ports of {situation.storage_name}, which stand in one subnet, and each answers for the other's "
        "address. Move the slow port to a subnet of its own, or pull its plug; where both must stay, have the storage "
        f"answer strictly by port (its ARP setting). Then run `{_forget(far, situation)}` here, or wait some minutes."
    )


def _a_stranger(far: FarAddress, situation: Situation) -> str:
    return (
        f"One of them is not {situation.storage_name}: another machine has the address too. Find it by its hardware "
        "address in the switch's table, or unplug what was added last, and give it another address; keep fixed "
        f"addresses outside the range that is handed out. Then run `{_forget(far, situation)}` here."
    )


def _ports_or_stranger(_: FarAddress, situation: Situation) -> str:
    return (
        f"Either two ports of {situation.storage_name} stand in one subnet and each answers for the other's address "
        "(then move the slow one to a subnet of its own, or pull its plug), or another machine has the address too "
        "(then give it another). Pull the storage's slow plug for a moment and probe again: if one answer is left, it "
        "was the first."
    )


def _forget(far: FarAddress, situation: Situation) -> str:
    """The command that makes this system ask again."""
    if situation.seen.system == "linux":
        device = "" if far.route is None else f" dev {shlex.quote(far.route.interface)}"
        return f"sudo ip neigh del {far.address}{device}"
    return f"sudo arp -d {far.address}" if situation.seen.system == "macos" else f"arp -d {far.address}"


def _remedy_of(far: FarAddress, situation: Situation) -> _Remedy:
    """What to do, by whether the second answer is the storage's own, a stranger's, or open.

    The same hardware addresses answer for another address of the storage: both are its own. One that the storage's
    other addresses or the plan know is its own; one that none of them knows while the rest is known is a stranger's.
    """
    macs = macs_of(far.address, situation)
    own = {mac for mac in macs if _planned_port(mac, situation) is not None}
    for other in situation.seen.addresses:
        if other.address != far.address and not other.is_here:
            own |= macs & macs_of(other.address, situation)
    if own == macs:
        return _two_own_ports
    return _a_stranger if own else _ports_or_stranger


def _planned_port(mac: str, situation: Situation) -> PortRef | None:
    ports = () if situation.expected is None else tuple(situation.expected.storage_ports.values())
    return next((port.port for port in ports if port.mac == mac), None)


def _with_port(mac: str, situation: Situation) -> str:
    port = _planned_port(mac, situation)
    return mac if port is None else f"{mac} ({port})"


TWO_ANSWERS_FOR_ADDRESS = Rule(
    name="two-answers-for-address",
    family="live",
    severity="fail",
    subjects=_on_the_link,
    judge=_judge_answers,
    what="An address of the storage for which more than one hardware address answers.",
    why="The first answer wins: the fast address then leads to the slow port, or to a stranger, and changes by the "
    "hour.",
    todo="Give the storage's ports subnets of their own; find the stranger and give it another address.",
    sources=observed,
)


def _pairs(situation: Situation) -> Iterator[tuple[Address, Address]]:
    """Pairs of the storage's addresses that it or the plan puts on different ports, with one answer each."""
    known = [far.address for far in situation.seen.addresses if len(macs_of(far.address, situation)) == 1]
    for one, other in combinations(known, 2):
        if told_apart(one, other, situation):
            yield one, other


def _judge_pair(pair: tuple[Address, Address], situation: Situation) -> Judgement:
    one, other = pair
    macs = macs_of(one, situation)
    if macs != macs_of(other, situation):
        return None
    (mac,) = macs
    return ONE_HARDWARE_ADDRESS_TWICE.finding(
        address_place(one),
        address_place(other),
        message=f"{_with_port(mac, situation)} answers for both {one} and {other}, which are on different ports of "
        f"{situation.storage_name}: one of the two goes by the wrong port",
        remedy=f"Put the two ports of {situation.storage_name} into subnets of their own, or pull the plug of the "
        "slow one, and probe again.",
        source=OBSERVED,
    )


ONE_HARDWARE_ADDRESS_TWICE = Rule(
    name="one-hardware-address-twice",
    family="live",
    severity="warn",
    subjects=_pairs,
    judge=_judge_pair,
    what="One hardware address that answers for two addresses which belong to different ports of the storage.",
    why="In one subnet a storage may answer for its fast address from its slow port, and all traffic then goes there.",
    todo="Put the storage's ports into subnets of their own.",
    sources=observed,
)
