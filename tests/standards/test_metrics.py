"""Metrics by which systems choose among their ports, against the published figures typed a second time."""

from __future__ import annotations

import pytest

from netaudit.standards.metrics import manager_metric, manager_metrics, service_ranks, speed_metric, speed_metrics
from netaudit.standards.reading import sources

G, M, K = 1_000_000_000, 1_000_000, 1_000

# Microsoft KB 299540, support.microsoft.com/kb/299540, the two tables for Windows 10: least speed and metric
WINDOWS = {
    "wired": [
        (100 * G, 5), (40 * G, 10), (10 * G, 15), (2 * G, 20), (200 * M, 25),
        (80 * M, 35), (20 * M, 45), (4 * M, 55), (500 * K, 65),
    ],
    "wi-fi": [
        (2 * G, 25), (500 * M, 30), (200 * M, 35), (150 * M, 40), (80 * M, 45), (50 * M, 50),
        (20 * M, 55), (10 * M, 60), (4 * M, 65), (2 * M, 70), (500 * K, 75), (200 * K, 80),
    ],
}  # fmt: skip
STEPS = [(kind, rate, metric) for kind, rows in WINDOWS.items() for rate, metric in rows]


@pytest.mark.parametrize(("kind", "rate_bit_per_s", "metric"), STEPS)
def test_windows_counts_a_link_from_each_printed_speed_up(kind: str, rate_bit_per_s: int, metric: int) -> None:
    assert metric == speed_metric(kind, rate_bit_per_s).metric
    assert metric + 5 <= speed_metric(kind, rate_bit_per_s - 1).metric


@pytest.mark.parametrize(("kind", "metric"), [("wired", 75), ("wi-fi", 85)])
def test_windows_counts_whatever_is_slower_by_the_last_row(kind: str, metric: int) -> None:
    assert metric == speed_metric(kind, 1).metric == speed_metric(kind, 0).metric


def test_the_rows_of_windows_are_the_printed_ones_and_no_others() -> None:
    rows = {kind: [(row.from_bit_per_s, row.metric) for row in rows] for kind, rows in speed_metrics().items()}

    assert {kind: [*steps, (0, 75 if kind == "wired" else 85)] for kind, steps in WINDOWS.items()} == rows


@pytest.mark.parametrize(
    ("wired_bit_per_s", "air_bit_per_s", "wire", "air"),
    [
        # computed from the same tables with the speed of Wi-Fi halved, as their page asks of half-duplex media
        (1 * G, 866 * M, 25, 35),
        (1 * G, 2402 * M, 25, 30),
        (1 * G, 5765 * M, 25, 25),
        (100 * M, 2402 * M, 35, 30),
        (100 * M, 866 * M, 35, 35),
        (10 * G, 46_000 * M, 15, 25),
    ],
)
def test_windows_between_a_wire_and_wifi_at_half_its_speed(
    wired_bit_per_s: int, air_bit_per_s: int, wire: int, air: int
) -> None:
    assert (wire, air) == (
        speed_metric("wired", wired_bit_per_s).metric,
        speed_metric("wi-fi", air_bit_per_s / 2).metric,
    )


# NetworkManager, src/core/devices/nm-device.c at commit 355bc90
@pytest.mark.parametrize(
    ("kind", "metric"), [("ethernet", 100), ("bond", 300), ("vlan", 400), ("bridge", 425), ("wi-fi", 600)]
)
def test_networkmanager_counts_by_the_kind_of_link(kind: str, metric: int) -> None:
    found = manager_metric("networkmanager", kind)

    assert found is not None
    assert metric == found.metric


# systemd, src/network/networkd-dhcp-common.h at commit 09db850: DHCP_ROUTE_METRIC
@pytest.mark.parametrize("kind", ["ethernet", "bond", "vlan", "bridge", "wi-fi"])
def test_networkd_counts_every_link_alike(kind: str) -> None:
    found = manager_metric("Systemd-Networkd", kind)

    assert found is not None
    assert 1024 == found.metric


def test_what_stands_in_no_table_counts_nothing_that_is_known() -> None:
    assert manager_metric("by hand", "ethernet") is None
    assert manager_metric("NetworkManager", "modem") is None


def test_macos_ranks_a_service_without_a_gateway_after_every_one_with() -> None:
    """configd, Plugins/IPMonitor/ip_plugin.c at commit 585b7f2: kRankAssertionDefault is 1, kRankAssertionLast 2."""
    assert {True: 1, False: 2} == {gateway: rank.metric for gateway, rank in service_ranks().items()}


def test_each_system_has_a_source_of_its_own() -> None:
    named = {
        "windows-metrics": {row.source for rows in speed_metrics().values() for row in rows},
        "networkmanager-metrics": {row.source for (who, _), row in manager_metrics().items() if who.startswith("n")},
        "networkd-metrics": {row.source for (who, _), row in manager_metrics().items() if who.startswith("s")},
        "macos-ranks": {row.source for row in service_ranks().values()},
    }

    assert {key: {sources()[key]} for key in named} == named
    assert speed_metric("wired", G).source == sources()["windows-metrics"]
