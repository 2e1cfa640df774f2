"""Shapes of ports and bonds: keys that share a field, and keys that exclude each other."""

from __future__ import annotations

from ipaddress import ip_address

import pytest

from netaudit.model.plan import Bond, HostCable, Port
from netaudit.plan.shapes.forms import KeyConflictError
from netaudit.plan.shapes.ports import BondShape, NetworksShape, PassivePortShape, PortShape, StoragePortShape
from netaudit.plan.shapes.validators import validator

ADDRESS = ip_address("10.44.20.11")


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        ({}, Port()),
        ({"network": "media"}, Port(untagged="media")),
        ({"networks": {"untagged": "media", "tagged": ["office"]}}, Port(untagged="media", tagged=("office",))),
        ({"networks": {}}, Port()),
        ({"address": "lease"}, Port(leased=True)),
        ({"address": "10.44.20.11"}, Port(addresses=(ADDRESS,))),
        ({"address": ["10.44.20.11", "fd00::1"]}, Port(addresses=(ADDRESS, ip_address("fd00::1")))),
        ({"host_cable": "2 m"}, Port(host_cable=HostCable(length_m=2.0))),
        ({"host_cable": "2 m", "active": "true"}, Port(host_cable=HostCable(length_m=2.0, active=True))),
        ({"host_cable": {"length": "2 m", "active": "true"}}, Port(host_cable=HostCable(length_m=2.0, active=True))),
    ],
)
def test_a_port_is_built_from_its_keys(raw: dict[str, object], expected: Port) -> None:
    assert expected == validator(PortShape).validate_python(raw).built()


@pytest.mark.parametrize(
    ("raw", "key", "message"),
    [
        ({"network": "a", "networks": {}}, "networks", "`network` and `networks` are both given: keep one of them"),
        ({"active": "true"}, "active", "`active` describes a host cable: give `host_cable` with its length, as 2 m"),
        (
            {"host_cable": {"length": "2 m", "active": "true"}, "active": "false"},
            "active",
            "`active` and `host_cable` contradict each other: keep one of them",
        ),
    ],
)
def test_keys_that_contradict_each_other_are_refused(raw: dict[str, object], key: str, message: str) -> None:
    with pytest.raises(KeyConflictError) as caught:
        validator(PortShape).validate_python(raw).built()

    assert (key, message) == (caught.value.key, str(caught.value))


@pytest.mark.parametrize(
    ("raw", "named"),
    [({"tagged": ["a", "b", "a"]}, "a"), ({"untagged": "b", "tagged": ["a", "b", "c"]}, "b")],
)
def test_a_network_that_a_port_names_twice_is_refused(raw: dict[str, object], named: str) -> None:
    with pytest.raises(KeyConflictError, match=f"network '{named}' is named twice: name it once"):
        validator(NetworksShape).validate_python(raw).built()


def test_only_a_storage_has_ports_that_serve() -> None:
    assert not validator(StoragePortShape).validate_python({"serves": "false"}).built().serves
    assert "serves" not in PortShape.fields()


def test_only_passive_ports_have_a_category_and_a_screen() -> None:
    expected = Port(category="6A", screened=True)

    assert expected == validator(PassivePortShape).validate_python({"category": "6A", "screened": "true"}).built()
    assert not {"category", "screened"} & set(PortShape.fields())


def test_a_bond_is_built_from_its_keys() -> None:
    expected = Bond(ports=("1", "2"), untagged="media", addresses=(ADDRESS,), mtu=9000)
    raw = {"ports": ["1", "2"], "network": "media", "address": "10.44.20.11", "mtu": "9000"}

    assert expected == validator(BondShape).validate_python(raw).built()
    assert (
        Bond(ports=("1",), leased=True)
        == validator(BondShape).validate_python({"ports": ["1"], "address": "lease"}).built()
    )
