"""Shapes of ports and bonds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, ClassVar

from netaudit.model import plan as model
from netaudit.plan.scalars.addresses import LEASE
from netaudit.plan.scalars.text import quoted
from netaudit.plan.shapes import kinds
from netaudit.plan.shapes.forms import REQUIRED, Built, KeyConflictError, Shape, key


class HostCableShape(Shape):
    """The cable between a computer and its adapter."""

    noun: ClassVar[str] = "a host cable"
    value = model.HostCable
    short: ClassVar[str | None] = "length"

    length_m: kinds.Length = key("length", "its length", REQUIRED)
    active: kinds.Flag = key("active", "whether it has electronics of its own", default=False)


class NetworksShape(Shape):
    """The networks of a port that carries several."""

    noun: ClassVar[str] = "the networks of a port"
    value = dict

    untagged: kinds.Name | None = key("untagged", "network whose frames carry no tag")
    tagged: tuple[kinds.Name, ...] = key("tagged", "networks whose frames carry a tag", ())

    def built(self, **more: Any) -> Any:
        """The two keys as a port has them; raises KeyConflictError where a network is named twice."""
        named = {self.untagged}
        for network in self.tagged:
            if network in named:
                raise KeyConflictError("tagged", f"network {quoted(network)} is named twice: name it once")
            named.add(network)
        return super().built(**more)


class PassivePortShape(Shape):
    """A port that only joins two cables."""

    noun: ClassVar[str] = "a port of a panel or outlet"
    value = model.Port

    connector: kinds.Connector | None = key("connector", "the connector")
    category: kinds.Category | None = key("category", "category of the jack", unsaid="matches its cables")
    screened: kinds.Flag | None = key("screened", "whether the jack has a screen", unsaid="matches its cables")
    owned: kinds.Flag | None = key("owned", "whether you have it already")


class PortShape(Shape):
    """A port with a rate of its own."""

    noun: ClassVar[str] = "an active port"
    value = model.Port
    exclusive: ClassVar[tuple[str, str] | None] = ("network", "networks")

    connector: kinds.Connector | None = key("connector", "the connector or cage")
    rates: kinds.Rates | None = key("rates", "rates that it can run; `up to` means every BASE-T rate from 100M on")
    module: kinds.Name | None = key("module", "designation of the module in the cage, such as 10GBASE-SR")
    bus: kinds.Bus | None = key("bus", "the computer's bus behind it; ` via NAME` where several share one")
    host_cable: Annotated[model.HostCable, Built(HostCableShape)] | None = key(
        "host_cable", "cable between computer and adapter: its length, or length and active"
    )
    active: kinds.Flag | None = key("active", "whether the host cable has electronics of its own", unsaid="false")
    network: kinds.Name | None = key("network", "the one network that it carries, untagged")
    networks: Annotated[dict[str, Any], Built(NetworksShape)] | None = key("networks", "several networks")
    address: kinds.Addresses = key("address", "its address, a list of them, or `lease`", ())
    mtu: kinds.Mtu | None = key("mtu", "largest packet it is set to [octets]", unsaid="unknown, not 1500")
    mac: kinds.Mac | None = key("mac", "its hardware address")
    interface: kinds.Name | None = key("interface", "the system's own name for it")
    purpose: kinds.PortPurpose | None = key("purpose", "set where it is for management only")
    owned: kinds.Flag | None = key("owned", "whether you have it already")

    def built(self, **more: Any) -> Any:
        """The port; raises KeyConflictError where keys contradict each other."""
        self.refuse_both()
        given: dict[str, Any] = dict(vars(self))
        active, network, networks = given.pop("active"), given.pop("network"), given.pop("networks")
        given |= {"untagged": network} if networks is None else networks
        if active is not None:
            given["host_cable"] = _with_electronics(self.host_cable, active=active)
        given |= _addressed(given.pop("address"))
        return self.value(**given, **more)

    @classmethod
    def parts(cls, value: Any) -> Mapping[str, Any]:
        """The fields of the shape that would build the port."""
        several = bool(value.tagged)
        own = {
            "active": None,
            "network": None if several else value.untagged,
            "networks": value if several else None,
            "address": (LEASE,) if value.leased else value.addresses,
        }
        return {field: own[field] if field in own else getattr(value, field) for field in cls.fields()}


class StoragePortShape(PortShape):
    """A port of a storage."""

    noun: ClassVar[str] = "a port of a storage"

    serves: kinds.Flag = key("serves", "whether the storage serves files on it", default=True)


class BondShape(Shape):
    """Ports that work as one."""

    noun: ClassVar[str] = "a bond"
    value = model.Bond

    ports: tuple[kinds.Name, ...] = key("ports", "its member ports; one conversation uses one of them", REQUIRED)
    untagged: kinds.Name | None = key("network", "the network that it carries")
    address: kinds.Addresses = key("address", "its address, a list of them, or `lease`", ())
    mtu: kinds.Mtu | None = key("mtu", "largest packet it is set to [octets]")

    def built(self, **more: Any) -> Any:
        """The bond."""
        given: dict[str, Any] = dict(vars(self))
        given |= _addressed(given.pop("address"))
        return self.value(**given, **more)

    @classmethod
    def parts(cls, value: Any) -> Mapping[str, Any]:
        """The fields of the shape that would build the bond."""
        own = {"address": (LEASE,) if value.leased else value.addresses}
        return {field: own[field] if field in own else getattr(value, field) for field in cls.fields()}


def _addressed(address: tuple[Any, ...]) -> dict[str, Any]:
    return {"leased": True} if address == (LEASE,) else {"addresses": address}


def _with_electronics(cable: model.HostCable | None, *, active: bool) -> model.HostCable:
    if cable is None:
        raise KeyConflictError("active", "`active` describes a host cable: give `host_cable` with its length, as 2 m")
    if cable.active and not active:
        raise KeyConflictError("active", "`active` and `host_cable` contradict each other: keep one of them")
    return cable._replace(active=active)
