"""Nothing of Windows runs here: the calls go through ctypes into functions that serve bytes built by hand, so that what
is handed over, taken back and freed is seen; how Windows itself answers is not."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface

import pytest
from windowscalls import WindowsCalls
from windowsroom import (
    ON_LINK,
    connection,
    interface,
    ip_settings,
    neighbour,
    own_address,
    record,
    route_row,
    table,
)

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.parse.windows.facts import IpInterface, RouteFound
from netaudit.machine.windows.native import Native

VAULT, SEAT = ip_address("10.44.20.10"), ip_address("10.44.20.12")


def native(**tables: object) -> tuple[Native, WindowsCalls]:
    calls = WindowsCalls(**tables)
    return Native(calls.load), calls


def test_every_table_that_windows_allocates_is_freed() -> None:
    asked, calls = native(
        interfaces=table(interface(7, "Ethernet 2")),
        addresses=table(own_address(7, "10.44.20.12", 24)),
        neighbours=table(neighbour(7, "10.44.20.10", "02:00:5e:00:53:10")),
        stack=table(record("MIB_IFSTACK_ROW", HigherLayerInterfaceIndex=15, LowerLayerInterfaceIndex=7), first=4),
    )

    assert [7] == [each.number for each in asked.adapters()]
    assert [ip_interface("10.44.20.12/24")] == [each.address for each in asked.addresses()]
    assert ["02:00:5e:00:53:10"] == [each.mac for each in asked.neighbours()]
    assert ((15, 7),) == asked.stack()
    assert sorted(calls.allocated) == sorted(calls.freed)


def test_a_table_that_cannot_be_true_is_freed_too() -> None:
    asked, calls = native(interfaces=b"\xff\xff\xff\xff" + bytes(1400))

    with pytest.raises(AnswerError, match="4294967295 rows"):
        asked.adapters()
    assert sorted(calls.allocated) == sorted(calls.freed)


def test_a_table_without_any_row_to_find_is_empty() -> None:
    """Windows error 1168 is ERROR_NOT_FOUND; GetIpNetTable2 returns it where there is no neighbour."""
    assert () == native(neighbours=1168)[0].neighbours()


def test_a_number_instead_of_a_table_raises_an_answer_error() -> None:
    with pytest.raises(AnswerError, match="GetIfTable2 failed with Windows error 8"):
        native(interfaces=8)[0].adapters()


def test_connections_of_both_versions_are_fetched_in_the_size_that_windows_asks_for() -> None:
    asked, _ = native(
        tcp_2=table(connection(("10.44.20.12", 50123), ("10.44.20.10", 445)), first=4),
        tcp_23=table(connection(("fe80::12%7", 50124), ("fe80::10%7", 445)), first=4),
    )

    assert [50123, 50124] == [each.local.port for each in asked.connections()]


def test_a_table_that_keeps_growing_ends_in_an_answer_error() -> None:
    """Windows error 122 is ERROR_INSUFFICIENT_BUFFER."""
    with pytest.raises(AnswerError, match="grows faster"):
        native(tcp_2=122)[0].connections()


def test_another_error_of_the_table_raises_an_answer_error() -> None:
    with pytest.raises(AnswerError, match="Windows error 87"):
        native(tcp_2=87)[0].connections()


def test_the_best_route_is_asked_with_and_without_the_local_end() -> None:
    asked_for = []

    def routes(remote: str, local: str | None) -> tuple[bytes, str]:
        asked_for.append((remote, local))
        return route_row(7, "10.44.20.0/24", ON_LINK, 256), "10.44.20.12"

    asked, _ = native(routes=routes)
    found = asked.best_route(VAULT).route
    asked.best_route(VAULT, SEAT)

    assert found is not None
    assert (7, SEAT, 256) == (found.number, found.source, found.metric)
    assert [("10.44.20.10", None), ("10.44.20.10", "10.44.20.12")] == asked_for


@pytest.mark.parametrize("code", [1231, 1232, 1168, 50])
def test_no_route_is_an_answer_with_its_reason(code: int) -> None:
    found = native(routes=lambda remote, local: code)[0].best_route(VAULT)

    assert found.route is None
    assert f"Windows error {code}" in (found.why_not or "")


def test_a_call_that_was_wrong_is_no_answer_about_routes() -> None:
    with pytest.raises(AnswerError, match="Windows error 87"):
        native(routes=lambda remote, local: 87)[0].best_route(VAULT)


def test_each_version_of_ip_is_asked_for_by_its_own_family() -> None:
    asked, _ = native(ip_interfaces={(7, 2): ip_settings(7, 15, 9000), (7, 23): ip_settings(7, 20, 1500)})

    assert IpInterface(15, 9000, weak=False) == asked.ip_interface(7, 4)
    assert IpInterface(20, 1500, weak=False) == asked.ip_interface(7, 6)
    assert asked.ip_interface(8, 4) is None


def test_what_is_learnt_of_a_way_is_asked_for_by_both_ends_and_may_be_unknown() -> None:
    asked, _ = native(path_mtus={(7, "10.44.20.10"): 1500})

    assert 1500 == asked.path_mtu(7, SEAT, VAULT)
    assert asked.path_mtu(7, SEAT, ip_address("10.44.20.99")) is None


def test_the_name_behind_a_drive_is_read_from_inside_the_answer() -> None:
    asked, _ = native(names=lambda path: {"X:\\day 1": "\\\\vault\\media\\day 1"}.get(path, 2250))

    assert (0, "\\\\vault\\media\\day 1") == asked.universal_name("X:\\day 1")
    assert (2250, "") == asked.universal_name("C:\\Users")


def test_a_library_without_the_call_is_a_machine_that_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match="GetIfTable2"):
        Native(lambda name: object()).adapters()  # type: ignore[arg-type, return-value]


def test_an_ipv6_route_goes_over_whole() -> None:
    asked, _ = native(routes=lambda remote, local: (route_row(7, "fd00:44:20::/64", "::", 256), "fd00:44:20::12"))
    found = asked.best_route(ip_address("fd00:44:20::10"))

    assert isinstance(found, RouteFound)
    assert found.route is not None
    assert ip_address("fd00:44:20::12") == found.route.source


def test_folders_are_named_and_seen_as_the_system_does(tmp_path: object) -> None:
    asked, _ = native()

    assert asked.is_folder(str(tmp_path))
    assert not asked.is_folder(f"{tmp_path}/none")
    assert asked.absolute(str(tmp_path)) == str(tmp_path)
