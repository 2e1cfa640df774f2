"""What a plan may use of aliases, and where that ends."""

from __future__ import annotations

from collections.abc import Callable

from netaudit.plan.reading.anchors import MOST_ALIASES, MOST_REPEATED

Lines = Callable[[str | bytes], list[str]]


def aliases(count: int) -> str:
    return "netaudit: 1\nname: &n x\nracks: {bay: {units: [" + "*n, " * count + "]}}\n"


def test_a_hundred_aliases_are_read(lines: Lines) -> None:
    (told,) = lines(aliases(MOST_ALIASES))

    assert "aliases" not in told


def test_one_more_is_refused_where_it_stands(lines: Lines) -> None:
    column = len("racks: {bay: {units: [") + 4 * MOST_ALIASES + 1

    assert [f"plan.yaml:3:{column}: racks.bay.units: more than 100 aliases: write the values out"] == lines(
        aliases(MOST_ALIASES + 1)
    )


def test_aliases_that_multiply_are_refused_before_they_are_followed(lines: Lines) -> None:
    bomb = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    bomb += [f"a{n + 1}: &a{n + 1} [{', '.join([f'*a{n}'] * 9)}]" for n in range(9)]
    (told,) = lines("netaudit: 1\n" + "\n".join(bomb))

    assert told.startswith("plan.yaml:7:")
    assert told.endswith(f"the aliases repeat more than {MOST_REPEATED} values: write fewer")


def test_an_alias_within_its_own_value_is_refused(lines: Lines) -> None:
    assert ["plan.yaml:2:17: racks.bay: '*a' stands within what it names: write the value out"] == lines(
        "netaudit: 1\nracks: &a {bay: *a}\n"
    )


def test_an_alias_of_nothing_is_told_how_to_name_a_value(lines: Lines) -> None:
    assert ["plan.yaml:2:7: name: '*n' names nothing: write '&n' before its value"] == lines("netaudit: 1\nname: *n\n")


def test_levels_are_counted_through_aliases(lines: Lines) -> None:
    deep = "[" * 40 + "]" * 40
    (told,) = lines(f"netaudit: 1\na: &a {deep}\nb: {'[' * 30}*a{']' * 30}\n")

    assert told == "plan.yaml:3:34: " + ".".join(["b", *["1"] * 29]) + (
        ": with '*a' more than 64 mappings and lists stand within each other"
    )


def test_a_device_may_share_what_another_has(lines: Lines) -> None:
    text = (
        "netaudit: 1\ndevices:\n  a: {role: panel, ports: &p {1-4: {connector: rj54}}}\n  b: {role: panel, ports: *p}\n"
    )

    assert [
        "plan.yaml:3:48: devices.a.ports.1-4.connector: 'rj54' is not a connector; did you mean 'rj45'?",
        "plan.yaml:3:48: devices.b.ports.1-4.connector: 'rj54' is not a connector; did you mean 'rj45'?",
    ] == [told.partition(" It is")[0] for told in lines(text)]
