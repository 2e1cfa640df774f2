"""Questions: what a draft asks about a room, in order, each with its default and how its answer is read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import count

from netaudit.plan.drafting import readers
from netaudit.plan.drafting.readers import rooms_given, seats_given
from netaudit.plan.drafting.replies import UNKNOWN, Given, Reader, each, one, or_unknown, plain, shown, yes_or_no
from netaudit.plan.scalars.counts import count as counted
from netaudit.plan.scalars.quantities import length_m, rate_bit_per_s, size_bytes
from netaudit.plan.scalars.spelling import port_rate
from netaudit.plan.scalars.text import free_text, name


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Question:
    """One question."""

    key: str
    """Its key in a file of answers."""
    asks: str
    """The question; {seats}, {rooms} and {end} stand for what was answered before."""
    default: str | Callable[[Given], str]
    """The answer of somebody who gives none, as it would be typed."""
    read: Reader
    help: str
    """What may be answered; a default that depends on earlier answers is told here too."""
    worthwhile: Callable[[Given], bool] = lambda _: True
    """Whether, after what was answered before, more than one answer makes sense."""

    def default_text(self, given: Given) -> str:
        """The default after what was answered before."""
        return self.default if isinstance(self.default, str) else self.default(given)

    @property
    def explained(self) -> str:
        """The help with the default."""
        return f"{self.help} [{self.default}]" if isinstance(self.default, str) else self.help

    def wording(self, given: Given) -> str:
        """The question after what was answered before."""
        end = "the switch" if given.get("switch") else "the storage"
        return self.asks.format(seats=shown(seats_given(given)), rooms=shown(rooms_given(given)), end=end)


def _default_switch(given: Given) -> str:
    return "no" if len(seats_given(given)) == 1 else "yes"


def _default_storage(given: Given) -> str:
    names = ("vault" if nth == 1 else f"vault-{nth}" for nth in count(1))
    return next(free for free in names if free not in seats_given(given))


def _default_storage_port(given: Given) -> str:
    return "sfp+" if given["switch"] else "rj45"


def _default_storage_rate(given: Given) -> str:
    return port_rate(readers.RATES_OF_PORT[given["storage_port"]][0])


def _has_drives(given: Given) -> bool:
    return given["drives"] is not None


QUESTIONS = (
    Question(
        key="name",
        asks="What is the place called?",
        default="Cutting rooms",
        read=one(plain(free_text)),
        help="Any words; they head every report.",
    ),
    Question(
        key="seats",
        asks="How many seats edit, or what are they called?",
        default="3",
        read=readers.seats,
        help=f"A number from 1 to {readers.MOST_SEATS}, or names with commas between.",
    ),
    Question(
        key="systems",
        asks="Which system runs on {seats} (macos, windows, linux)?",
        default="macos",
        read=each(plain(readers.system), "seats", seats_given),
        help="macos, windows, linux or unknown: one for all, or one for each seat with commas between.",
    ),
    Question(
        key="wants",
        asks="Which rate shall {seats} have?",
        default="10G",
        read=each(plain(readers.wanted_bit_per_s), "seats", seats_given),
        help="Such as 10G, 2.5G or 400 MB/s: one for all, or one for each seat.",
    ),
    Question(
        key="rooms",
        asks="In which room stands each of {seats}?",
        default="edit room",
        read=each(plain(name), "seats", seats_given),
        help="One room for all, or one for each seat.",
    ),
    Question(
        key="switch",
        asks="Join them with a switch (no: a cable straight to the storage for each)?",
        default=_default_switch,
        read=one(readers.switched),
        help=f"yes, or no (also direct): up to {readers.MOST_DIRECT_SEATS} seats work well with a cable each, "
        "if the storage has so many ports. [yes; no for one seat]",
        worthwhile=lambda given: len(seats_given(given)) <= readers.MOST_DIRECT_SEATS,
    ),
    Question(
        key="distances",
        asks="How far is it from {rooms} to {end}, along the way a cable takes?",
        default="15 m",
        read=each(plain(or_unknown(length_m)), "rooms", rooms_given),
        help="Such as 15 m or 50 ft, or unknown: one for all rooms, or one for each room.",
    ),
    Question(
        key="walls",
        asks="Which cable is in the wall from {rooms}?",
        default=readers.NOTHING,
        read=each(plain(readers.wall), "rooms", rooms_given),
        help="The category printed on its jacket, such as 5e, 6 or 6A; unknown where nobody can read it; "
        "nothing where cords lie all the way. One for all rooms, or one for each room.",
    ),
    Question(
        key="storage",
        asks="What is the storage called?",
        default=_default_storage,
        read=one(readers.storage),
        help="A name that no seat has. [vault]",
    ),
    Question(
        key="storage_port",
        asks="Which port has it for the seats (rj45, or sfp+, a cage)?",
        default=_default_storage_port,
        read=one(readers.storage_port),
        help="rj45 takes a cable as from a wall; a cage, sfp+, takes a short cable with its plugs made on. "
        "[sfp+; rj45 without a switch]",
        worthwhile=lambda given: bool(given["switch"]) or not any(given["walls"]),
    ),
    Question(
        key="storage_rate",
        asks="How fast is that port?",
        default=_default_storage_rate,
        read=one(readers.storage_rate),
        help="A port of kind rj45 may also have 5G, 2.5G or 1G. [10G]",
        worthwhile=lambda given: len(readers.RATES_OF_PORT[given["storage_port"]]) > 1,
    ),
    Question(
        key="drives",
        asks="How many drives does its pool have?",
        default=UNKNOWN,
        read=one(plain(or_unknown(counted("a number of drives", 1, 10_000)))),
        help="A number, or unknown, which leaves the disks out of the plan.",
    ),
    Question(
        key="drive_size",
        asks="How large is one drive?",
        default=UNKNOWN,
        read=one(readers.of_drives(size_bytes)),
        help="Such as 20 TB, or unknown.",
        worthwhile=_has_drives,
    ),
    Question(
        key="drive_read",
        asks="How fast does one drive read?",
        default=UNKNOWN,
        read=one(readers.of_drives(rate_bit_per_s)),
        help="Such as 240 MB/s, or unknown.",
        worthwhile=_has_drives,
    ),
    Question(
        key="layout",
        asks="How are the drives joined?",
        default=UNKNOWN,
        read=one(readers.layout),
        help="stripe, mirror, single-parity, double-parity, triple-parity or unknown.",
        worthwhile=_has_drives,
    ),
    Question(
        key="wifi",
        asks="Do the seats keep Wi-Fi for the internet?",
        default="yes",
        read=one(plain(yes_or_no)),
        help="yes or no; the storage is reached by the wire in any case.",
    ),
    Question(
        key="office_subnet",
        asks="Which subnet has the Wi-Fi?",
        default=lambda given: "192.168.1.0/24" if given["wifi"] else UNKNOWN,
        read=one(plain(readers.office_subnet)),
        help="As the router shows it, such as 192.168.1.0/24, or unknown. The storage gets addresses outside it. "
        "[192.168.1.0/24]",
        worthwhile=lambda given: bool(given["wifi"]),
    ),
)
"""Every question in the order in which it is asked; each may lean on the answers before it."""
