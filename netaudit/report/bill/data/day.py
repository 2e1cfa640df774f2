"""What a bill says of the day of the move, as plain values: labels, ports, plugs, ticks and addresses."""

from __future__ import annotations

from typing import Any

from netaudit.model.moving import Acceptance, AddressCard, BenchTest, Label, Mount, PortRow, Setting, Step
from netaudit.report.goods_values import written


def label_values(label: Label) -> dict[str, Any]:
    """One label."""
    return {
        "cable": label.cable,
        "end": label.end,
        "text": label.text,
        "port": str(label.port),
        "far": [str(port) for port in label.far],
    }


def port_values(row: PortRow) -> dict[str, Any]:
    """One row of the port map."""
    return {
        "port": str(row.port),
        "connector": row.connector,
        "module": row.module,
        "cable": row.cable,
        "far": written(row.far),
        "peer": written(row.peer),
        "network": row.network,
        "addresses": [str(address) for address in row.addresses],
        "rate_bit_per_s": row.rate_bit_per_s,
    }


def bench_values(test: BenchTest) -> dict[str, Any]:
    """One test on arrival."""
    return {"what": test.what, "quantity": test.quantity, "how": test.how}


def step_values(step: Step) -> dict[str, Any]:
    """One plug to pull or to push."""
    return {
        "number": step.number,
        "group": step.group,
        "cable": step.cable,
        "first": str(step.first),
        "then": [str(port) for port in step.then],
    }


def acceptance_values(row: Acceptance) -> dict[str, Any]:
    """One cable to tick off."""
    return {
        "cable": row.cable,
        "from": str(row.from_port),
        "to": [str(port) for port in row.to_ports],
        "expected_bit_per_s": row.expected_bit_per_s,
        "where": row.where,
        "shown": row.shown,
    }


def card_values(card: AddressCard) -> dict[str, Any]:
    """What to set on one machine."""
    return {
        "device": card.device,
        "role": card.role,
        "settings": [_setting(setting) for setting in card.settings],
        "mounts": [_mount(mount) for mount in card.mounts],
        "mounted_by": [{"station": seat, "address": written(address)} for seat, address in card.mounted_by],
        "leave": list(card.leave),
        "mind": list(card.mind),
    }


def _setting(setting: Setting) -> dict[str, Any]:
    return {
        "port": str(setting.port),
        "interface": setting.interface,
        "network": setting.network,
        "addresses": list(setting.addresses),
        "mtu": setting.mtu,
        "gateway": written(setting.gateway),
        "vlan": setting.vlan,
        "tagged": setting.tagged,
        "netmasks": list(setting.netmasks),
        "open_mtu": setting.open_mtu,
    }


def _mount(mount: Mount) -> dict[str, Any]:
    return {
        "storage": mount.storage,
        "addresses": [str(address) for address in mount.addresses],
        "through": written(mount.through),
        "network": mount.network,
        "never": [str(address) for address in mount.never],
    }
