"""Rule about plugs: does each end of a cable go into the port that it is planned for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import either
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, cable_place, port_place
from netaudit.model.plan import Cable, Port
from netaudit.network.plugs import ALL_PLUGS, CAGES, NO_PLUG, Plug, plug_of, plugs_taken
from netaudit.rules.facts import Facts
from netaudit.rules.ports.modules import module_for
from netaudit.rules.rule import Rule
from netaudit.rules.words import steps_text
from netaudit.standards.optics import optics
from netaudit.units import rate_text

_WORDS: dict[Plug, str] = {
    "twisted pair": "twisted pair",
    "fibre": "fibre",
    "made-up": "a made-up cable",
    "thunderbolt": "a Thunderbolt cable",
    "usb": "a USB cable",
}


class End(NamedTuple):
    """One end of a cable, in the port that it is planned for."""

    cable: Cable
    at: PortRef

    @property
    def other(self) -> PortRef:
        """The port at the other end; of a breakout the first one."""
        return self.cable.to_ports[0] if self.at == self.cable.from_port else self.cable.from_port


def _ends(facts: Facts) -> Iterable[End]:
    """Each end of each cable; of an unread one only the far ends, since it is judged by both its ports together."""
    for cable in facts.plan.cables.values():
        for at in cable.to_ports if plug_of(cable) is None else cable.ends:
            yield End(cable, at)


def _judge(end: End, facts: Facts) -> Judgement:
    plug, port = plug_of(end.cable), facts.port(end.at)
    if plug is None:
        return _judge_unread(end, facts)
    if plug not in plugs_taken(port):
        message = f"{end.cable.name} is {_cable_words(end.cable, plug)} and does not go into {_described(end.at, port)}"
        return _mismatch(end, message, _remedy(end, plug, facts))
    if plugs_taken(port) == ALL_PLUGS:
        return _judge_joint(end, plug, facts) if facts.plan.devices[end.at.device].passive else _no_connector(end)
    return _judge_fibre(end, facts) if plug == "fibre" and len(end.cable.to_ports) == 1 else None


def _no_connector(end: End) -> Judgement:
    return CONNECTOR_MISMATCH.not_checked(
        port_place(end.at),
        cable_place(end.cable.name),
        reason=f"Which connector {end.at} has is not given",
        decides=f"write down `connector` of {end.at}, such as rj45 or sfp+",
    )


def _judge_unread(end: End, facts: Facts) -> Judgement:
    """A cable of unknown category fits if any plug goes into both its ports."""
    one, other = facts.port(end.other), facts.port(end.at)
    if plugs_taken(one) & plugs_taken(other):
        return None
    message = f"No cable goes into both {_described(end.other, one)}, and {_described(end.at, other)}"
    return _mismatch(end, message, steps_text(_unread_steps(end, facts)))


def _unread_steps(end: End, facts: Facts) -> Sequence[str]:
    """The module that lets a cage take twisted pair, where the port at the other end does."""
    steps = [
        step
        for cage, far in ((end.other, end.at), (end.at, end.other))
        if plugs_taken(facts.port(far)) == {"twisted pair"}
        for step in _module_steps(cage, facts)
    ]
    return steps or [f"use ports or modules at {end.other} and {end.at} that take the same cable"]


def _judge_joint(end: End, plug: Plug, facts: Facts) -> Judgement:
    """A passive port without a connector takes what its first cable is."""
    first, before = next(
        (cable, own) for cable in facts.topology.cabling.cables_at[end.at] if (own := plug_of(cable)) is not None
    )
    if before == plug:
        return None
    message = f"{end.at} joins {first.name}, which is {_WORDS[before]}, and {end.cable.name}, which is {_WORDS[plug]}"
    instead = f"Use {_WORDS[before]} instead of {end.cable.name}"
    return _mismatch(end, message, f"{instead}, or put a switch with both kinds of port there.")


def _judge_fibre(end: End, facts: Facts) -> Judgement:
    """Plugs of many fibres and plugs of one never meet on one cable; two modules are left to the rule on optics."""
    here, there = facts.port(end.at), facts.port(end.other)
    one, other = _fibre_plug(here), _fibre_plug(there)
    told_here = here.module is None and (there.module is not None or end.at != end.cable.from_port)
    if one is None or other is None or (one == "mpo") == (other == "mpo") or not told_here:
        return None
    what = str(end.other) if there.module is None else f"the {there.module} module in {end.other}"
    needed, given = ("lc", "mpo") if one == "mpo" else ("mpo", "lc")
    message = f"{end.cable.name} joins {what}, whose plug is {other}, to {end.at}, which is {one}"
    remedy = (
        f"Use a port at {end.at} that is {other}, a module at {end.other} whose plug is {given}, "
        f"or a breakout between {needed} and {given}."
    )
    return _mismatch(end, message, remedy)


def _fibre_plug(port: Port) -> str | None:
    """mpo, lc or sc; None where it is not known."""
    if port.module is not None:
        optic = optics().get(port.module)
        return None if optic is None else optic.connector
    return port.connector if port.connector in ("lc", "sc", "mpo") else None


def _mismatch(end: End, message: str, remedy: str) -> Judgement:
    where = (cable_place(end.cable.name), port_place(end.at))
    return CONNECTOR_MISMATCH.finding(*where, message=message, remedy=remedy, source=PLAN)


def _cable_words(cable: Cable, plug: Plug) -> str:
    """What a cable is: twisted pair (6A), a made-up cable (twinax), a USB cable."""
    return _WORDS[plug] if plug in ("thunderbolt", "usb") else f"{_WORDS[plug]} ({cable.category})"


def _described(ref: PortRef, port: Port) -> str:
    """A port and what goes into it."""
    taken = either(words for plug, words in _WORDS.items() if plug in plugs_taken(port)) if plugs_taken(port) else ""
    if port.module is not None:
        return f"{ref}, whose {port.module} module takes {taken}"
    if port.connector is None:
        top = "" if port.rates is None else f" `up to {rate_text(port.rates.bit_per_s[0])}`"
        return f"{ref}, whose rates{top} are those of rj45"
    if port.connector in CAGES:
        return f"{ref}, an empty {port.connector} cage that takes a module or a made-up cable"
    return f"{ref}, which is {port.connector} and takes {taken or 'no cable'}"


def _remedy(end: End, plug: Plug, facts: Facts) -> str:
    steps = []
    free = facts.free.suiting(end.at, _rates_meant(end.at, facts), lambda port: plug in _taken_bare(port))
    if free is not None:
        steps.append(f"plug {end.cable.name} into {free}, which is free and takes it")
    if plug == "twisted pair":
        steps.extend(_module_steps(end.at, facts))
    there = plugs_taken(facts.port(end.other))
    shared = plugs_taken(facts.port(end.at)) & there
    if shared and there != ALL_PLUGS:
        steps.append(
            f"use {either(words for one, words in _WORDS.items() if one in shared)} instead of {end.cable.name}"
        )
    return steps_text(steps or [f"use a port or a module at {end.at} that takes {_WORDS[plug]}"])


def _taken_bare(port: Port) -> frozenset[Plug]:
    """The plugs that go into a port as it is; fibre needs a module in a cage first."""
    if port.connector is None:
        return NO_PLUG
    return plugs_taken(port) - {"fibre"} if port.connector in CAGES else plugs_taken(port)


def _module_steps(cage: PortRef, facts: Facts) -> Iterable[str]:
    """The module that lets an empty cage take twisted pair, where one is sold."""
    port = facts.port(cage)
    module = module_for(port, "copper", _rates_meant(cage, facts) or None) if port.module is None else None
    if module is not None:
        yield f"put a {module} module into {cage} and write `module: {module}`"


def _rates_meant(ref: PortRef, facts: Facts) -> Sequence[int]:
    """The rates that a port has in common with what it is cabled to, or else its own [bit/s]; empty if unknown."""
    own = facts.port(ref).rates
    common = (link.rates for link in facts.links_at.get(ref, ()) if link.rates)
    return next(common, () if own is None else own.bit_per_s)


CONNECTOR_MISMATCH = Rule(
    name="connector-mismatch",
    family="ports",
    severity="fail",
    subjects=_ends,
    judge=_judge,
    what="A cable whose plug does not go into the port that it is planned for.",
    why="It is found on the day, with the desk already cleared. A cage takes a module or a cable with ends made on, "
    "never a bare plug.",
    todo="Put the right module into the cage, or use a cable with the plug that the port takes.",
)
