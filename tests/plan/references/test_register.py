"""What a plan declares: the names of good and bad items, and where references stand."""

from __future__ import annotations

from netaudit.plan.build import build
from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.read import read
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
    assert "device 'core' has no port '10': its ports are 1-9" == complaint.message.replace("1-8 9", "1-9")
    assert register().no_port(device, "3") is None


def test_a_bond_will_do_only_where_bonds_do() -> None:
    device = register().devices["core"]
    complaint = register().no_port(device, "lag", bonds=False)

    assert register().no_port(device, "lag") is None
    assert complaint is not None
    assert "'lag' of 'core' is a bond: name one of its ports, 9" == complaint.message


def test_a_device_without_ports_says_so() -> None:
    complaint = register().no_port(register().devices["empty"], "1")

    assert complaint is not None
    assert "device 'empty' has no port '1': it has no ports" == complaint.message


def test_a_port_of_a_range_is_written_under_the_range() -> None:
    assert ("devices", "core", "ports", "1-8") == register().port_location("core", "5")
    assert ("devices", "core", "ports", "9") == register().port_location("core", "9")


def test_a_network_is_where_the_port_names_it() -> None:
    ports = ("devices", "core", "ports")

    assert (*ports, "1-8", "networks", "untagged") == register().network_location("core", "5", "media")
    assert (*ports, "1-8", "networks", "tagged", 0) == register().network_location("core", "5", "office")
    assert (*ports, "9", "network") == register().network_location("core", "9", "media")
