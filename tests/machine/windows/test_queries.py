"""Nothing of Windows runs here: the cmdlets and their parameters are those of Microsoft's documentation."""

from __future__ import annotations

from ipaddress import ip_address

from netaudit.machine.parse.windows.script import Query
from netaudit.machine.windows import queries

QUERIES = [each for each in vars(queries).values() if isinstance(each, Query)]


def test_every_answer_has_a_name_of_its_own() -> None:
    names = [query.name for query in QUERIES]

    assert len(set(names)) == len(names)
    assert all(name.isascii() and name.isalpha() for name in names)


def test_hidden_adapters_are_listed_since_tunnels_hide() -> None:
    assert "Get-NetAdapter -IncludeHidden" == queries.ADAPTERS.command


def test_what_multichannel_did_not_choose_is_asked_for_too() -> None:
    assert "Get-SmbMultichannelConnection -IncludeNotSelected" == queries.MULTICHANNEL.command


def test_a_route_is_asked_for_by_address() -> None:
    query = queries.route_to(ip_address("10.44.20.10"))

    assert "Find-NetRoute -RemoteIPAddress '10.44.20.10'" == query.command
