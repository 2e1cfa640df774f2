"""Users by their numbers."""

import os
import pwd

import pytest

from netaudit.machine.linux import owners
from netaudit.machine.linux.owners import owner, parse_users

USERS = "root:x:0:0:root:/root:/bin/sh\ncutter:x:1000:1000:,,,:/home/cutter:/bin/sh\ntoor:x:0:0::/:/bin/sh\n"
"""Format of passwd(5); not taken from a machine."""


def test_the_first_user_of_a_number_is_its_name() -> None:
    assert {0: "root", 1000: "cutter"} == parse_users(USERS)


@pytest.mark.parametrize(
    "line",
    ["", "root", ":x:0:0:::", "a:x:one:0:::", "a:x:-1:0:::", "a:x:²:0:::", "a:x:99999999999999:0:::", "+::::::", "#"],
)
def test_a_line_that_is_no_user_is_passed_by(line: str) -> None:
    assert {} == parse_users(line)


def test_users_are_those_of_the_system_library(linux: None) -> None:
    assert pwd.getpwuid(0).pw_name == owner(0)
    assert os.path.exists(owners.PASSWD)


def test_a_number_without_a_name_is_told_as_one(linux: None) -> None:
    assert "uid 3999999999" == owner(3_999_999_999)


def test_without_a_list_users_are_numbers(tmp_path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(owners, "PASSWD", tmp_path / "passwd")
    owners._users.cache_clear()
    try:
        assert "uid 0" == owner(0)
    finally:
        owners._users.cache_clear()
