"""What moved, as tables: sessions, the file client's channels, counters within the interval, timed files."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.machine_state import Channel, Session
from netaudit.model.observation import Growth, Timing
from netaudit.model.services import service_name
from netaudit.model.situation import Situation
from netaudit.report.probe.causes import TEMPERATURES, is_local
from netaudit.report.probe.tables import UNKNOWN, Row, Table, counted, interfaces_that_matter, link_changes
from netaudit.units import BITS_PER_BYTE, both_rates_text, duration_text, share_text, size_text

TRICKLE_BIT_PER_S = 1_000_000
"""Less than this is no traffic worth a rate: announcements, time, name services [bit/s]."""


def sessions(situation: Situation) -> Table:
    """Living connections to the storage."""
    rows = tuple(_session_row(session) for session in situation.seen.sessions)
    head = ("service", "from", "to", "by", "received", "sent")
    return Table(f"Sessions with {situation.storage_name}", head, rows)


def _session_row(session: Session) -> Row:
    cells = (
        service_name(session.service),
        str(session.local),
        str(session.remote),
        session.interface or UNKNOWN,
        _size(session.tcp.received_bytes),
        _size(session.tcp.sent_bytes),
    )
    return Row(cells, tuple(_finer_of_session(session)))


def _finer_of_session(session: Session) -> Iterator[str]:
    if session.owner:
        yield f"held by {session.owner}"
    if session.round_trip_s is not None:
        yield f"round trip {duration_text(session.round_trip_s)}"
    if session.tcp.retransmitted is not None:
        of_all = "" if session.tcp.sent_segments is None else f" of {session.tcp.sent_segments}"
        yield f"packets sent again {session.tcp.retransmitted}{of_all}"
    if session.mss is not None:
        yield f"{session.mss} octets of data in a packet at most"


def channels(situation: Situation) -> Table:
    """Connections as the file client itself reports them."""
    rows = tuple(_channel_row(channel) for channel in situation.seen.client.channels)
    return Table("What the file client reports", ("share", "by", "from", "to", "rate", "state"), rows)


def _channel_row(channel: Channel) -> Row:
    cells = (
        channel.share,
        channel.interface or UNKNOWN,
        str(channel.local or UNKNOWN),
        str(channel.remote or UNKNOWN),
        UNKNOWN if channel.rate_bit_per_s is None else both_rates_text(channel.rate_bit_per_s),
        "active" if channel.active else "stands by",
    )
    amounts = (("received", channel.received_bytes), ("sent", channel.sent_bytes))
    return Row(cells, tuple(f"{name} {size_text(size)}" for name, size in amounts if size is not None))


def moved(situation: Situation) -> Table:
    """What the interfaces that matter, and every busy one, moved within the interval; no rows where nobody watched."""
    watched = situation.seen.moved
    if watched is None:
        return Table("What moved", (), ())
    matter = {state.name for state in interfaces_that_matter(situation)}
    rows = tuple(
        _moved_row(name, growth, watched.seconds)
        for name, growth in watched.interfaces.items()
        if name in matter or _is_busy(growth, watched.seconds)
    )
    return Table(f"What moved in {duration_text(watched.seconds)}", ("port", "received", "sent"), rows)


def _moved_row(name: str, growth: Growth, seconds: float) -> Row:
    counters = growth.counters
    finer = []
    if growth.carrier_changes:
        finer.append(link_changes(growth.carrier_changes))
    if any(counters.errors.values()):
        finer.append(f"new errors: {counted(counters.errors)}")
    cells = (name, _pace(counters.received_bytes, seconds), _pace(counters.sent_bytes, seconds))
    return Row(cells, tuple(finer))


def _is_busy(growth: Growth, seconds: float) -> bool:
    """Whether more than a trickle went through an interface."""
    amounts = (growth.counters.received_bytes, growth.counters.sent_bytes)
    return any((size or 0) * BITS_PER_BYTE >= TRICKLE_BIT_PER_S * seconds for size in amounts)


def _pace(size_bytes: int | None, seconds: float) -> str:
    """An amount, with its rate where that is worth telling."""
    if size_bytes is None:
        return UNKNOWN
    rate = size_bytes * BITS_PER_BYTE / seconds if seconds > 0 else 0
    return f"{size_text(size_bytes)} at {both_rates_text(rate)}" if rate >= TRICKLE_BIT_PER_S else size_text(size_bytes)


def files(situation: Situation) -> Table:
    """Files that were read or written against the clock."""
    rows = tuple(_file_row(timing) for timing in situation.seen.timings)
    return Table("Files against the clock", ("file", "what", "rate", "amount", "took"), rows)


def _file_row(timing: Timing) -> Row:
    rate = timing.rate_bit_per_s
    where = "from this machine's memory, in part" if is_local(timing) else TEMPERATURES[timing.cold]
    what = f"read {where}".rstrip() if timing.direction == "read" else "written"
    cells = (
        timing.path,
        what,
        UNKNOWN if rate is None else both_rates_text(rate),
        size_text(timing.bytes),
        duration_text(timing.seconds),
    )
    return Row(cells, tuple(_finer_of_file(timing)))


def _finer_of_file(timing: Timing) -> Iterator[str]:
    if timing.steps_s:
        yield f"slowest {size_text(timing.step_bytes)} in {duration_text(max(timing.steps_s))}"
    if timing.interface is not None:
        yield f"over {timing.interface}"
    if timing.handshakes_s:
        yield f"slowest handshake meanwhile {duration_text(max(timing.handshakes_s))}"
    if timing.cpu_share is not None:
        yield f"{share_text(round(timing.cpu_share, 2))} of a processor core here"
    if timing.direction == "read" and timing.cold is None:
        yield "whether it came from disks or memory is not known"


def _size(size_bytes: int | None) -> str:
    return UNKNOWN if size_bytes is None else size_text(size_bytes)
