"""Live rules about the storage: which ports it offers, and whether it stalls while the network is fine."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.model.finding import Judgement, Measure
from netaudit.model.observation import FarAddress, Offer, Timing
from netaudit.model.place import Place
from netaudit.model.services import SMB
from netaudit.model.situation import Situation, Use
from netaudit.rules.live.roads import leaving
from netaudit.rules.live.sources import PRACTICE, observed, practice
from netaudit.rules.live.storage_ports import port_of
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place
from netaudit.units import both_rates_text, duration_text

STALL_S = 0.25
"""A step this long is felt: six frames at 25 a second [s]; common practice, no source."""
STALL_TIMES = 20
"""How many times longer than the median a step must be to stand out: common practice, no source."""
CALM_SHARE = 0.1
"""Share of the longest step that handshakes meanwhile may take to show a calm network: common practice, no source."""


class Slower(NamedTuple):
    """A port that the storage offers in this seat's subnet, beside the one in use."""

    offer: Offer
    used: Offer


def _offers(situation: Situation) -> Iterator[Slower]:
    offers = situation.seen.offers or ()
    for use in leaving(situation):
        used = next((offer for offer in offers if offer.address == use.remote), None)
        if used is None or used.rate_bit_per_s is None:
            continue
        for offer in offers:
            if offer.address != use.remote and _near(offer, use, situation) and not _same_port(offer, used):
                yield Slower(offer, used)


def _near(offer: Offer, use: Use, situation: Situation) -> bool:
    """Whether an offer lies in a subnet of the interface in use, other than the one each port makes up."""
    state = situation.seen.interfaces.get(use.interface)
    subnets = () if state is None else [each.network for each in state.addresses if not each.ip.is_link_local]
    return any(offer.address in subnet for subnet in subnets)


def _same_port(one: Offer, other: Offer) -> bool:
    return one.number is not None and one.number == other.number


def _judge_offer(slower: Slower, situation: Situation) -> Judgement:
    offer, used = slower
    where = address_place(offer.address)
    if offer.rate_bit_per_s is None:
        return STORAGE_OFFERS_SLOWER_PORT.not_checked(
            where,
            reason=f"How fast the port is that {situation.storage_name} offers at {offer.address} is not told",
            decides=f"look it up on the storage: {both_rates_text(used.rate_bit_per_s or 0)} is as fast as the one in "
            "use",
        )
    if offer.rate_bit_per_s >= (used.rate_bit_per_s or 0):
        return None
    port = port_of(offer.address, situation)
    whose = "" if port is None else f" ({port})"
    return STORAGE_OFFERS_SLOWER_PORT.finding(
        where,
        address_place(used.address),
        message=f"{situation.storage_name} also offers {offer.address}{whose} at "
        f"{both_rates_text(offer.rate_bit_per_s)} in this seat's subnet, beside {used.address} at "
        f"{both_rates_text(used.rate_bit_per_s or 0)}: a client that opens several channels may use both",
        remedy=f"Let {situation.storage_name} serve files on the fast port alone (its list of SMB interfaces), or "
        "move the slow port to a subnet of its own; then eject the share and mount it again.",
        source=OBSERVED,
        measured=Measure(offer.rate_bit_per_s, "bit/s"),
        limit=Measure(used.rate_bit_per_s or 0, "bit/s"),
    )


STORAGE_OFFERS_SLOWER_PORT = Rule(
    name="storage-offers-slower-port",
    family="live",
    severity="warn",
    subjects=_offers,
    judge=_judge_offer,
    what="A slower port that the storage offers in the same subnet as the one in use.",
    why="A client with several channels follows the storage's list, and the slowest channel drags the whole copy.",
    todo="Let the storage serve files on the fast port alone.",
    sources=observed,
)


class Mute(NamedTuple):
    """An address whose SMB service took a question and did not answer it."""

    far: FarAddress


def _stalls(situation: Situation) -> Iterator[Timing | Mute]:
    for timing in situation.seen.timings:
        if len(timing.steps_s) > 1:
            yield timing
    for far in situation.used_addresses:
        if far.smb_silent and not far.is_here:
            yield Mute(far)


def stood_still(timing: Timing) -> bool:
    """Whether one step took far longer than a step usually does."""
    longest = max(timing.steps_s, default=0.0)
    return longest >= STALL_S and longest >= STALL_TIMES * median(timing.steps_s)


def _judge_stall(subject: Timing | Mute, situation: Situation) -> Judgement:
    if isinstance(subject, Mute):
        return _judge_mute(subject.far, situation)
    if not stood_still(subject):
        return None
    longest, usual = max(subject.steps_s), median(subject.steps_s)
    where = _where(subject, situation)
    calm = max(subject.handshakes_s, default=None)
    if calm is None:
        return STORAGE_STALLS.not_checked(
            where,
            reason=f"One step of {duration_text(longest)} stood out, and no handshake was made meanwhile",
            decides="probe once more: handshakes that stay short show that the network is not to blame",
        )
    if calm > CALM_SHARE * longest:
        return None
    verb = "reading" if subject.direction == "read" else "writing"
    return STORAGE_STALLS.finding(
        where,
        message=f"{situation.storage_name} stood still for {duration_text(longest)} while {verb}, where a step "
        f"usually takes {duration_text(usual)}, and the network meanwhile answered within {duration_text(calm)}",
        remedy=on_the_storage(situation),
        source=PRACTICE,
        measured=Measure(round(longest, 3), "s"),
        limit=Measure(STALL_S, "s"),
    )


def _where(timing: Timing, situation: Situation) -> Place:
    used = situation.used_addresses
    return address_place(used[0].address) if used else Place("file", timing.path)


def _judge_mute(far: FarAddress, situation: Situation) -> Judgement:
    where = address_place(far.address)
    if not _is_smb(situation):
        return STORAGE_STALLS.not_checked(
            where,
            reason=f"The service behind {far.address} port {SMB} takes connections and says nothing, and whether "
            "it is a file server is not known",
            decides="probe a folder on the mounted share instead of the host",
        )
    return STORAGE_STALLS.finding(
        where,
        message=f"the file server at {far.address} takes the connection and then does not answer: the network is fine, "
        "the server stands still",
        remedy=on_the_storage(situation),
        source=OBSERVED,
    )


def _is_smb(situation: Situation) -> bool:
    """Whether an SMB server is known to serve there: by the mount, the client, or another address."""
    mount = situation.seen.mount
    kind = "" if mount is None else mount.kind.casefold()
    told = situation.seen.client.dialect is not None or any(far.smb is not None for far in situation.seen.addresses)
    return told or "smb" in kind or "cifs" in kind


def on_the_storage(situation: Situation) -> str:
    """Where to look at a storage that stands still."""
    return (
        f"Look on {situation.storage_name} itself at what was running then: a scrub, a rebuild, snapshots, indexing, "
        "a backup, a disk that retries. Move such jobs to the night, and keep the pool under 80 % full."
    )


STORAGE_STALLS = Rule(
    name="storage-stalls",
    family="live",
    severity="warn",
    subjects=_stalls,
    judge=_judge_stall,
    what="A storage that stands still while its network answers at once.",
    why="Playback stops for the blink of a disk, and everybody looks at the cable.",
    todo="Look at what the storage does at that hour: scrub, rebuild, snapshots, indexing.",
    sources=practice,
)
