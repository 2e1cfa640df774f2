"""Limits of delay and skew, as rows."""

from netaudit.standards.delay import delays


def test_a_link_has_less_cable_and_one_connection_less_than_a_channel() -> None:
    for (quantity, categories, part), row in delays().items():
        if part == "link":
            channel = delays()[quantity, categories, "channel"]
            assert (channel.cable_m - row.cable_m, channel.connections - row.connections) == (10, 1)
            assert row[4:6] == channel[4:6]


def test_only_links_and_screened_classes_have_a_remembered_skew() -> None:
    remembered = {key for key, row in delays().items() if not row.source.may_fail}
    assert remembered == {
        ("skew", "5e to 6A", "link"),
        ("skew", "7 and 7A", "channel"),
        ("skew", "7 and 7A", "link"),
    }
