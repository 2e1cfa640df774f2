"""Lines of insertion loss and length equations, as rows."""

import pytest

from netaudit.standards.channel_loss import cable_losses, channel_losses, length_equations


def test_every_channel_and_link_has_the_line_of_its_cable() -> None:
    assert {(regime, category) for _, regime, category in channel_losses()} <= cable_losses().keys()


@pytest.mark.parametrize(
    ("category", "to_mhz"),
    # The frequencies up to which the categories are characterised: blog.siemon.com/standards and belden.com, Get to
    # Know Category 8 Cabling
    [("5e", 100), ("6", 250), ("6A", 500), ("7", 600), ("7A", 1000), ("8.1", 2000), ("8.2", 2000)],
)
def test_a_category_is_characterised_up_to_its_own_frequency(category: str, to_mhz: float) -> None:
    assert to_mhz == cable_losses()["iso", category].to_mhz


@pytest.mark.parametrize(
    ("category", "channel_class"),
    [("5e", "D"), ("6", "E"), ("6A", "EA"), ("7", "F"), ("7A", "FA"), ("8.1", "I"), ("8.2", "II")],
)
def test_iso_builds_a_class_of_each_category(category: str, channel_class: str) -> None:
    """ISO/IEC 11801-1; TIA has no classes."""
    assert channel_class == cable_losses()["iso", category].channel_class
    assert all(row.channel_class is None for (regime, _), row in cable_losses().items() if regime == "tia")


def test_what_was_seen_nowhere_is_told_as_remembered() -> None:
    remembered = {key for key, row in cable_losses().items() if not row.source.may_fail}
    assert remembered == {(regime, category) for regime in ("iso", "tia") for category in ("8.1", "8.2")} | {
        ("iso", "7A")
    }
    weak = {(row.part, row.category) for row in channel_losses().values() if not row.source.may_fail}
    assert weak == {("link", "5e"), ("link", "6"), ("link", "6A")} | {("channel", one) for one in ("7A", "8.1", "8.2")}


def test_a_channel_of_category_8_has_two_connections_and_others_four() -> None:
    """Vaden, cablinginstall.com volume 24 issue 8: 24 m of cable, 6 m of cords, two connections."""
    connections = {row.category: row.connections for row in channel_losses().values() if row.part == "channel"}
    assert {"5e": 4, "6": 4, "6A": 4, "7": 4, "7A": 4, "8.1": 2, "8.2": 2} == connections
    assert {3} == {row.connections for row in channel_losses().values() if row.part == "link"}


@pytest.mark.parametrize("category", ["5e", "6"])
def test_more_connections_never_allow_more_cable(category: str) -> None:
    allowed_m = {
        layout: row.constant_m - row.deducted_m for (of, layout), row in length_equations().items() if of == category
    }
    assert allowed_m["interconnect"] == max(allowed_m.values())
    assert allowed_m["cross-connect with consolidation point"] == min(allowed_m.values())
