"""Which storage a target means."""

from __future__ import annotations

import pytest
from machines import SLOW_VAULT, VAULT, FakeMachine

from netaudit.errors import AnswerError, InputError
from netaudit.model.machine_state import Mount
from netaudit.probing import target
from netaudit.probing.request import Request
from netaudit.probing.target import find_goal


@pytest.fixture(autouse=True)
def _resolver(monkeypatch: pytest.MonkeyPatch) -> None:
    names = {"vault": ((SLOW_VAULT, "hosts"), (VAULT, "dns")), "10.44.20.10": ((VAULT, "literal"),)}
    monkeypatch.setattr(target, "addresses_of", lambda host, timeout_s: names.get(host, ()))


def test_a_name_means_every_address_it_has_in_the_order_of_the_system() -> None:
    goal = find_goal(FakeMachine(), Request("vault"))

    assert ("vault", ((SLOW_VAULT, "hosts"), (VAULT, "dns")), (445, 2049)) == (goal.host, goal.addresses, goal.ports)


def test_an_unknown_name_is_wrong_input_with_a_remedy() -> None:
    with pytest.raises(InputError, match=r"vualt: no such host: .*check the spelling"):
        find_goal(FakeMachine(), Request("vualt"))


def test_a_name_that_no_resolver_knows_may_be_the_plans() -> None:
    goal = find_goal(FakeMachine(), Request("store", fallback=(VAULT,)))

    assert ((VAULT, "plan"),) == goal.addresses


def test_a_silent_resolver_is_told_unless_the_plan_knows_the_address(monkeypatch: pytest.MonkeyPatch) -> None:
    def silent(host: str, timeout_s: float) -> None:
        raise AnswerError("the name servers are silent")

    monkeypatch.setattr(target, "addresses_of", silent)

    with pytest.raises(AnswerError, match="silent"):
        find_goal(FakeMachine(), Request("vault"))
    assert ((VAULT, "plan"),) == find_goal(FakeMachine(), Request("vault", fallback=(VAULT,))).addresses


def test_a_folder_means_the_host_of_its_mount_and_the_address_of_its_living_connection_first() -> None:
    mount = Mount("/mnt/media", "cifs", "//vault/media", "vault", "media", remote=VAULT, port=445)
    goal = find_goal(FakeMachine(mount=mount), Request("/mnt/media"))

    assert ("vault", ((VAULT, "dns"), (SLOW_VAULT, "hosts")), (445,)) == (goal.host, goal.addresses, goal.ports)


def test_a_mount_whose_connection_alone_is_known_stands_by_its_address() -> None:
    goal = find_goal(FakeMachine(mount=Mount("/mnt", "fuse", "disk", remote=VAULT)), Request("/mnt"))

    assert ("10.44.20.10", ((VAULT, "literal"),)) == (goal.host, goal.addresses)


def test_a_folder_on_a_disk_of_this_machine_is_wrong_input() -> None:
    with pytest.raises(InputError, match="/home/edit: lies on a disk of this machine"):
        find_goal(FakeMachine(), Request("/home/edit"))


def test_a_mount_that_names_no_host_is_wrong_input() -> None:
    with pytest.raises(InputError, match="names no host"):
        find_goal(FakeMachine(mount=Mount("/mnt", "fuse", "disk")), Request("/mnt"))


def test_a_mount_whose_name_of_a_host_is_empty_is_wrong_input() -> None:
    with pytest.raises(InputError, match="/mnt: is mounted as cifs from '///media', which names no host"):
        find_goal(FakeMachine(mount=Mount("/mnt", "cifs", "///media", "", "media")), Request("/mnt"))


def test_a_living_connection_to_an_address_that_no_resolver_gives_is_told_as_the_mounts() -> None:
    mount = Mount("/mnt", "cifs", "//store/media", "store", remote=VAULT)

    assert ((VAULT, "mount"),) == find_goal(FakeMachine(mount=mount), Request("/mnt")).addresses


def test_ports_that_are_named_stand_before_those_of_the_mount() -> None:
    mount = Mount("/mnt", "nfs4", "vault:/media", "vault", port=2049)

    assert (8445,) == find_goal(FakeMachine(mount=mount), Request("/mnt", ports=(8445,))).ports


def test_a_name_with_very_many_addresses_is_asked_about_the_first_few(monkeypatch: pytest.MonkeyPatch) -> None:
    many = tuple((VAULT + number, "dns") for number in range(50))
    monkeypatch.setattr(target, "addresses_of", lambda host, timeout_s: many)

    assert many[:8] == find_goal(FakeMachine(), Request("vault")).addresses
