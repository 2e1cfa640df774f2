"""What a plan declares: the names of good and bad items, and where references stand."""

from __future__ import annotations

import pytest

from netaudit.plan.build import build
from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.read import read
from netaudit.plan.references import register as module
from netaudit.plan.references.register import Register

TEXT = """netaudit: 1
networks: {media: {}, office: {}}
devices:
  core: {role: switch, ports: {1-8: {networks: {untagged: media, tagged: [office]}}, 9: {network: media}}, bonds: {lag: {ports: [9]}}}
  broken: {role: wrong}
  empty: {role: other}
racks: [odd]
"""


def register() -> Register:
    problems = Problems("plan.yaml")
    document = read(TEXT, problems)
    return Register(build(document, problems), document, problems)


def test_a_name_that_is_declared_is_known_even_where_its_item_is_broken() -> None:
    assert register().unknown("devices", "core") is None
    assert register().unknown("devices", "broken") is None


def test_a_name_that_is_not_is_a_complaint() -> None:
    complaint = register().unknown("devices", "cor")

    assert complaint is not None
    assert ("there is no device 'cor'", "cor") == complaint[:2]


def test_a_section_that_cannot_be_read_complains_of_nothing() -> None:
    assert register().unknown("racks", "bay") is None


def test_a_section_that_is_not_there_is_named() -> None:
    complaint = register().unknown("routes", "attic")

    assert complaint is not None
    assert "there is no route 'attic': the plan has no `routes`" == complaint.message
    assert not register().declares("routes")


def test_ports_are_listed_as_ranges_in_the_complaint() -> None:
    device = register().devices["core"]
    complaint = register().no_port(device, "10")

    assert complaint is not None
    assert "device 'core' has no port '10': its ports are 1-8 9" == complaint.message
    assert register().no_port(device, "3") is None


def test_a_bond_will_do_only_where_bonds_do() -> None:
    device = register().devices["core"]
    complaint = register().no_port(device, "lag")

    assert register().no_port_or_bond(device, "lag") is None
    assert complaint is not None
    assert "'lag' of 'core' is a bond: name one of its ports, 9" == complaint.message


def test_bonds_are_right_spellings_only_where_bonds_do() -> None:
    device = register().devices["core"]
    strict, wide = register().no_port(device, "lga"), register().no_port_or_bond(device, "lga")

    assert strict is not None
    assert wide is not None
    assert strict.message == wide.message
    assert "lag" not in strict.known
    assert {"1", "9", "lag"} <= set(wide.known)


def test_a_range_where_a_port_is_wanted_is_told_as_that() -> None:
    device = register().devices["core"]
    told = [register().no_port(device, "1-8"), register().no_port_or_bond(device, "2-3")]

    assert [
        "'1-8' of 'core' is a range: name one of its ports, such as 1",
        "'2-3' of 'core' is a range: name one of its ports, such as 2",
    ] == [each.message for each in told if each is not None]


@pytest.mark.parametrize("port", ["10-12", "8-1", "01-8"])
def test_a_range_of_ports_that_are_not_there_is_no_port(port: str) -> None:
    complaint = register().no_port(register().devices["core"], port)

    assert complaint is not None
    assert f"device 'core' has no port '{port}': its ports are 1-8 9" == complaint.message


def test_many_complaints_about_one_device_list_its_ports_once(monkeypatch: pytest.MonkeyPatch) -> None:
    calls = counted(monkeypatch, "joined_ranges")
    names = register()
    device = names.devices["core"]
    told = [names.no_port(device, f"x{number}") for number in range(50)]
    told += [names.no_port_or_bond(device, f"x{number}") for number in range(50)]

    assert 1 == len(calls)
    assert 2 == len({id(each.known) for each in told if each is not None})


def test_a_device_without_ports_says_so() -> None:
    complaint = register().no_port(register().devices["empty"], "1")

    assert complaint is not None
    assert "device 'empty' has no port '1': it has no ports" == complaint.message


def test_a_port_of_a_range_is_written_under_the_range() -> None:
    assert ("devices", "core", "ports", "1-8") == register().port_location("core", "5")
    assert ("devices", "core", "ports", "9") == register().port_location("core", "9")


def test_the_ranges_of_a_device_are_expanded_once(monkeypatch: pytest.MonkeyPatch) -> None:
    calls = counted(monkeypatch, "port_range")
    names = register()
    for port in range(1, 10):
        names.port_location("core", str(port))

    assert ["1-8", "9"] == calls


def test_an_untagged_network_is_where_the_port_names_it() -> None:
    ports = ("devices", "core", "ports")

    assert (*ports, "1-8", "networks", "untagged") == register().untagged_location("core", "5")
    assert (*ports, "9", "network") == register().untagged_location("core", "9")


def counted(monkeypatch: pytest.MonkeyPatch, function: str) -> list[object]:
    """The arguments that a function of the register's module is called with from now on."""
    calls: list[object] = []
    real = getattr(module, function)
    monkeypatch.setattr(module, function, lambda argument: (calls.append(argument), real(argument))[1])
    return calls
