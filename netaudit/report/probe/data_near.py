"""This end as plain values: ports, sessions, mounts, what moved, and what the file client reports."""

from __future__ import annotations

from typing import Any

from netaudit.model.machine_state import Channel, ClientFacts, Interface, Mount, Session
from netaudit.model.observation import Moved, SwitchPort, Timing
from netaudit.model.situation import Situation
from netaudit.report.probe.data_far import milliseconds


def link_values(situation: Situation, state: Interface) -> dict[str, Any]:
    """One interface, held against the plan."""
    return {
        "interface": state.name,
        "medium": situation.medium(state.name),
        "carrier": state.carrier,
        "rate_bit_per_s": state.rate_bit_per_s,
        "duplex": state.duplex,
        "mtu": state.mtu,
        "offered": _rates(state.offered),
        "bus": None if state.bus is None else state.bus.text,
        "carrier_changes": state.carrier_changes,
        "errors": dict(state.counters.errors),
        "plan_port": _written(situation.plan_ports.get(state.name)),
        "title": state.title,
        "up": state.up,
        "mac": state.mac,
        "addresses": [str(address) for address in state.addresses],
        "supported": _rates(state.supported),
        "partner": _rates(state.partner),
        "bus_rate_bit_per_s": None if state.bus is None else state.bus.rate_bit_per_s,
        "made_up_rate": state.made_up_rate,
        "parent": state.parent,
    }


def _rates(rates: tuple[int, ...] | None) -> list[int] | None:
    return None if rates is None else list(rates)


def session_values(session: Session) -> dict[str, Any]:
    """One living connection."""
    return {
        "local": str(session.local),
        "remote": str(session.remote),
        "service": str(session.service),
        "interface": session.interface,
        "round_trip_ms": milliseconds(session.round_trip_s),
        "sent_bytes": session.tcp.sent_bytes,
        "received_bytes": session.tcp.received_bytes,
        "retransmitted": session.tcp.retransmitted,
        "out_of_order": session.tcp.out_of_order,
        "mss": session.mss,
        "path_mtu": session.path_mtu,
        "evidence": session.evidence,
        "owner": session.owner,
    }


def client_values(client: ClientFacts) -> dict[str, Any]:
    """What the file client reports."""
    return {
        "dialect": client.dialect,
        "signing": client.signing,
        "encryption": client.encryption,
        "channels": [_channel(channel) for channel in client.channels],
    }


def _channel(channel: Channel) -> dict[str, Any]:
    return {
        "share": channel.share,
        "interface": channel.interface,
        "local": _written(channel.local),
        "remote": _written(channel.remote),
        "rate_bit_per_s": channel.rate_bit_per_s,
        "active": channel.active,
        "sent_bytes": channel.sent_bytes,
        "received_bytes": channel.received_bytes,
    }


def mount_values(mount: Mount | None) -> dict[str, Any] | None:
    """The mount that holds the folder."""
    if mount is None:
        return None
    return {
        "folder": mount.folder,
        "kind": mount.kind,
        "source": mount.source,
        "host": mount.host,
        "share": mount.share,
        "remote": _written(mount.remote),
        "local": _written(mount.local),
        "port": mount.port,
        "options": list(mount.options),
    }


def moved_values(moved: Moved | None) -> dict[str, Any] | None:
    """What moved within the interval."""
    if moved is None:
        return None
    return {
        "seconds": round(moved.seconds, 3),
        "interfaces": {
            name: {
                "sent_bytes": growth.counters.sent_bytes,
                "received_bytes": growth.counters.received_bytes,
                "errors": dict(growth.counters.errors),
                "carrier_changes": growth.carrier_changes,
            }
            for name, growth in moved.interfaces.items()
        },
    }


def read_values(timing: Timing) -> dict[str, Any]:
    """A file that was read or written against the clock."""
    rate = timing.rate_bit_per_s
    return {
        "path": timing.path,
        "direction": timing.direction,
        "bytes": timing.bytes,
        "seconds": round(timing.seconds, 6),
        "rate_bit_per_s": None if rate is None else round(rate),
        "cold": timing.cold,
        "slowest_step_ms": milliseconds(max(timing.steps_s, default=None)),
        "step_bytes": timing.step_bytes,
        "received_bytes": timing.received_bytes,
        "sent_bytes": timing.sent_bytes,
        "interface": timing.interface,
        "handshakes_ms": [milliseconds(trip_s) for trip_s in timing.handshakes_s],
        "cpu_share": None if timing.cpu_share is None else round(timing.cpu_share, 3),
    }


def switch_port_values(port: SwitchPort | None) -> dict[str, Any] | None:
    """The switch port that this machine is plugged into."""
    return None if port is None else port._asdict()


def _written(value: object) -> str | None:
    return None if value is None else str(value)
