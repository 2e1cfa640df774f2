"""The far end from here: who answers for its addresses, which frames pass, what its file service says of itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from ipaddress import IPv4Address

from netaudit.errors import AnswerError, SilenceError
from netaudit.machine import arp, smb
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress, FrameTest, Neighbours, Observation, Offer, most_likely
from netaudit.model.ports import LEAST_MTU
from netaudit.model.services import SMB
from netaudit.model.vocabulary import Address
from netaudit.probing.asking import Notebook
from netaudit.probing.request import Request

ARP_S = 0.5
"""How long further answers to one ARP question are waited for [s]; those of one link come within a millisecond."""
FRAME_S = 0.6
"""Wait for the few packets of one size to come back [s]."""
LEAST_OCTETS = 576
"""Packet that every host takes whole [octets]: RFC 791, section 3.1."""
ROUTERS_AT_MOST = 4
"""Routers that are looked for on the way."""
ROUTERS_S = 1.0
"""Wait for all of them [s]."""
SMB_S = 2.0
"""Wait for one conversation with an SMB server [s]."""


def neighbours_of(machine: Machine, each: FarAddress, notes: Notebook) -> Neighbours | None:
    """The hardware addresses that answer for an address on the link: asked for, or else the one the system holds."""
    route, address = each.route, each.address
    if route is None or route.gateway is not None or route.local:
        return None
    rules = ("two-answers-for-address", "one-hardware-address-twice")
    what = f"hardware addresses that answer for {address}"
    if isinstance(address, IPv4Address):
        asked = notes.ask(what, rules, lambda: arp.ask(address, route.interface, notes.deadline.at_most(ARP_S)))
        if asked:
            return Neighbours(tuple(dict.fromkeys(asked)), asked=True)
    held = notes.ask(what, rules, lambda: machine.neighbours(address))
    return Neighbours(held, asked=False) if held else None


def frames_of(
    machine: Machine, each: FarAddress, interface: Interface | None, planned_mtu: int | None, notes: Notebook
) -> tuple[FrameTest, ...]:
    """Whether packets of the port's own size, of the planned one and of the standard's come back unbroken."""
    route = each.route
    if route is None or route.local:
        return ()
    own = route.mtu if interface is None or interface.mtu is None else interface.mtu
    sizes = sorted({size for size in (own, planned_mtu, LEAST_MTU) if size and (own is None or size <= own)})
    tests: list[FrameTest] = []
    for size in sizes:
        what = f"whether packets of {size} octets reach {each.address}"
        question = partial(machine.frame, each.address, size, route, notes.deadline.at_most(FRAME_S))
        test = notes.ask(what, ("large-frames-lost",), question)
        if test is not None:
            tests.append(test)
        if test is None or test.passed is None:
            break
    return tuple(tests)


def routers_of(machine: Machine, each: FarAddress, notes: Notebook) -> tuple[Address, ...] | None:
    """The routers on the way; none need be asked for where the address lies on the link."""
    if each.route is None or each.route.local:
        return None
    if each.route.gateway is None:
        return ()
    what = f"routers on the way to {each.address}"
    found = notes.ask(
        what,
        ("router-between",),
        lambda: machine.routers(each.address, ROUTERS_AT_MOST, notes.deadline.at_most(ROUTERS_S)),
    )
    return found or (each.route.gateway,)


def with_smb(each: FarAddress, notes: Notebook) -> FarAddress:
    """What the SMB server at an address says of itself to whoever asks."""
    knock = each.knocks.get(SMB)
    if knock is None or knock.outcome != "open":
        return each
    try:
        return each._replace(smb=smb.negotiate(each.address, SMB, notes.deadline.at_most(SMB_S)))
    except AnswerError as error:
        rules = ("signing-or-encryption", "storage-stalls")
        notes.note(f"what the service behind {each.address} port {SMB} is", rules, str(error), "ask the storage itself")
        return each._replace(smb_silent=isinstance(error, SilenceError))


def offers_of(
    addresses: Iterable[FarAddress], share: str | None, request: Request, notes: Notebook
) -> tuple[tuple[Offer, ...] | None, FarAddress | None]:
    """The storage's own list of its ports, and the address that told it, which knows more of itself now.

    Parameters: the addresses in use; the share that a folder lies on, which may demand encryption for itself.
    """
    for each in addresses:
        if each.smb is None:
            continue
        question = partial(
            smb.offers,
            each.address,
            SMB,
            notes.deadline.at_most(SMB_S),
            request.user,
            request.password,
            share=share if request.user is not None else None,
        )
        rules = ("storage-offers-slower-port",)
        answer = notes.ask("the storage's own list of its ports and speeds", rules, question)
        if answer is not None:
            facts, offers = answer
            return offers, each._replace(smb=facts)
    return None, None


def in_use(seen: Observation) -> Sequence[FarAddress]:
    """The addresses that sessions go to, else the one that a new connection takes."""
    remotes = {channel.remote for channel in seen.channels} | {session.remote.address for session in seen.file_sessions}
    used = [each for each in seen.addresses if each.address in remotes]
    return used or most_likely(seen.addresses)[:1]
