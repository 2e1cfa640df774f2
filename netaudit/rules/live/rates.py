"""Live rules about a measured rate: where the missing part went, once the network has passed."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import quantiles
from typing import NamedTuple

from netaudit.model.finding import Finding, Judgement, Measure
from netaudit.model.observation import Timing
from netaudit.model.place import Place
from netaudit.model.situation import Situation
from netaudit.rules.live.chain import Chain, chain_of
from netaudit.rules.live.fingerprints import RATES, STEADY_SHARE, suspect, suspicion
from netaudit.rules.live.network import network_passes
from netaudit.rules.live.room import SHORT_SHARE
from netaudit.rules.live.sources import observed
from netaudit.rules.live.storage import on_the_storage, stood_still
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place
from netaudit.units import both_rates_text, share_text

BUSY_CORE = 0.85
"""Share of one processor core from which it is the limit itself: common practice, no source."""


class Reading(NamedTuple):
    """One file read twice, cold and from the storage's memory, beside what the chain should carry."""

    cold: Timing
    warm: Timing | None
    chain: Chain

    @property
    def cold_bit_per_s(self) -> float:
        """What the first reading ran at [bit/s]."""
        return self.cold.rate_bit_per_s or 0.0

    @property
    def warm_bit_per_s(self) -> float | None:
        """What the second one ran at [bit/s]; None where there was none."""
        return None if self.warm is None else self.warm.rate_bit_per_s

    @property
    def cold_is_short(self) -> bool:
        """Whether the first reading fell short of the chain with its disks."""
        return self.cold_bit_per_s < SHORT_SHARE * self.chain.rate_bit_per_s

    @property
    def warm_is_short(self) -> bool | None:
        """Whether the second one fell short of links and buses alone; None where there was none."""
        warm = self.warm_bit_per_s
        return None if warm is None else warm < SHORT_SHARE * self.chain.network_bit_per_s


def _readings(situation: Situation) -> Iterator[Reading]:
    """A file that was read short of what the chain should carry while no other rule of the network strikes."""
    chain = chain_of(situation)
    over_the_wire = [timing for timing in situation.seen.timings if timing.direction == "read" and _crossed(timing)]
    cold = next((timing for timing in over_the_wire if timing.cold is not False and timing.rate_bit_per_s), None)
    warm = next((timing for timing in over_the_wire if timing.cold is False and timing.rate_bit_per_s), None)
    if chain is None or cold is None or not situation.seen.complete:
        return
    reading = Reading(cold, warm, chain)
    if (reading.cold_is_short or reading.warm_is_short) and network_passes(situation):
        yield reading


def _crossed(timing: Timing) -> bool:
    """Whether what was read really came over the network, and not from this machine's own memory."""
    return timing.received_bytes is None or timing.received_bytes >= timing.bytes


def _place(situation: Situation) -> Place:
    used = situation.used_addresses
    return address_place(used[0].address) if used else Place("device", situation.storage_name)


def _secured(situation: Situation) -> tuple[str, ...]:
    """What is done to each packet of the session: signing, encryption."""
    client = situation.seen.client
    servers = [far.smb for far in situation.used_addresses if far.smb is not None]
    signed = client.signing or (client.signing is None and any(smb.signing_required for smb in servers))
    encrypted = client.encryption or (client.encryption is None and any(smb.encryption_required for smb in servers))
    return tuple(word for word, done in (("signed", signed), ("encrypted", encrypted)) if done)


def _secured_readings(situation: Situation) -> Iterator[Reading]:
    """Readings as slow from the storage's memory as from its disks, in a session that is signed or encrypted."""
    if _secured(situation):
        yield from (reading for reading in _readings(situation) if reading.warm_is_short is not False)


def _judge_secured(reading: Reading, situation: Situation) -> Judgement:
    where, how = _place(situation), " and ".join(_secured(situation))
    warm = reading.warm_bit_per_s
    if warm is None:
        return SIGNING_OR_ENCRYPTION.not_checked(
            where,
            reason=f"The session is {how}, and no second reading tells whether the disks are to blame",
            decides="read the same file once more: as slow from the storage's memory means not the disks",
        )
    return SIGNING_OR_ENCRYPTION.finding(
        where,
        message=f"reading runs at {both_rates_text(warm)} even from the storage's memory, where the network leaves "
        f"{both_rates_text(reading.chain.network_bit_per_s)}, and each packet of the session is {how}",
        remedy="Keep it unless the owner of the pictures decides otherwise: without it, whoever gets onto this "
        f"network can {'read' if 'encrypted' in _secured(situation) else 'change'} what passes. What helps without "
        "giving that up: a newer system at both ends (faster ciphers), a faster processor in the storage, several "
        "channels. If it is decided, switch it off for the storage's own isolated subnet alone, never for all.",
        source=RATES,
        measured=Measure(round(warm), "bit/s"),
        limit=Measure(reading.chain.network_bit_per_s, "bit/s"),
    )


SIGNING_OR_ENCRYPTION = Rule(
    name="signing-or-encryption",
    family="live",
    severity="note",
    subjects=_secured_readings,
    judge=_judge_secured,
    what="A signed or encrypted session that reads slowly even from the storage's memory, over a network that is fine.",
    why="Each packet is computed on at both ends, mostly by one core, and that may be all that the session can do.",
    todo="Know the cost, and keep the protection unless its owner decides otherwise.",
    sources=lambda: (RATES, *observed()),
)


def _judge_rest(reading: Reading, situation: Situation) -> Judgement:
    where = _place(situation)
    if reading.warm_is_short is None:
        return NOT_THE_NETWORK.not_checked(
            where,
            reason=f"Reading ran at {both_rates_text(reading.cold_bit_per_s)}, short of what the chain should carry, "
            "and the file was not read a second time",
            decides="read the same file once more: fast from the storage's memory means the disks",
        )
    slowest = reading.warm if reading.warm_is_short and reading.warm is not None else reading.cold
    hop = _looks_like_a_hop(slowest)
    if hop is not None:
        return NOT_THE_NETWORK.not_checked(
            where,
            reason=f"Reading runs flat at {both_rates_text(slowest.rate_bit_per_s or 0)}, and {hop}",
            decides="read the rates of every link on the way, the storage's own port and the uplinks first",
        )
    return _not_the_network(reading, situation)


def _looks_like_a_hop(timing: Timing) -> str | None:
    """What a flat rate just under that of a common link points at, as a clause; None where it is not such a rate."""
    rate = timing.rate_bit_per_s or 0.0
    known = suspect(rate)
    if known is None or known.hop_bit_per_s is None or len(timing.steps_s) < 4:
        return None
    low, middle, high = quantiles(timing.steps_s, n=4)
    return suspicion(rate) if high - low <= STEADY_SHARE * middle else None


def _not_the_network(reading: Reading, situation: Situation) -> Finding:
    cold, warm = reading.cold_bit_per_s, reading.warm_bit_per_s or 0.0
    disks = not reading.warm_is_short
    stalls = not disks and reading.warm is not None and stood_still(reading.warm)
    lead = f"a file was read at {both_rates_text(cold)} cold and at {both_rates_text(warm)} from the storage's memory"
    where_it_went = (
        "so that the disks hold it back"
        if disks
        else "so that the storage holds it back, which stands still in between"
        if stalls
        else "so that neither the disks nor the network hold it back: the file protocol or a processor does"
    )
    return NOT_THE_NETWORK.finding(
        _place(situation),
        message=f"the network is not to blame: it leaves {both_rates_text(reading.chain.network_bit_per_s)}, and "
        f"{lead}, {where_it_went}",
        remedy=_disks(situation) if disks else on_the_storage(situation) if stalls else _protocol(reading, warm),
        source=RATES,
        measured=Measure(round(cold if disks else warm), "bit/s"),
        limit=Measure(reading.chain.rate_bit_per_s, "bit/s"),
    )


def _disks(situation: Situation) -> str:
    return (
        f"Look at the pool of {situation.storage_name}: how full it is (under 80 % is good), whether it rebuilds or "
        "scrubs, what else reads from it. More or faster disks, mirrors, or flash for the jobs in hand make it faster; "
        "a faster network does not."
    )


def _protocol(reading: Reading, rate_bit_per_s: float) -> str:
    share = None if reading.warm is None else reading.warm.cpu_share
    core = (
        f"One core of this machine was {share_text(round(share, 2))} busy with it: the reading end is the limit. "
        if share is not None and share >= BUSY_CORE
        else ""
    )
    usual = suspicion(rate_bit_per_s)
    hint = f"{usual[0].upper()}{usual[1:]}. " if usual else ""
    return (
        f"{core}{hint}Look at the load of one core at both ends during a copy, at a virus scanner or an indexer on "
        "this machine, and at old tuning left in the client's settings; several files at once often go faster than one."
    )


NOT_THE_NETWORK = Rule(
    name="not-the-network",
    family="live",
    severity="note",
    subjects=_readings,
    judge=_judge_rest,
    what="A file read slower than the chain should carry while every test of the network passes.",
    why="It saves a day of swapping cables: what is missing gets lost behind the network, in disks, protocol or "
    "processor.",
    todo="Compare the cold and the second reading: only the first one slow means the disks.",
    sources=lambda: (RATES, *observed()),
)
