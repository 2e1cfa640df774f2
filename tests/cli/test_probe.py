"""The command that asks this machine, on its own loopback or with a machine that only plays one."""

from __future__ import annotations

import json
import re
import socket
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from machines import CUT_1, VAULT, FakeMachine

import netaudit
from netaudit.cli import probe as command
from netaudit.cli.probe import say_otherwise
from netaudit.diagnosis import diagnose
from netaudit.errors import MachineError
from netaudit.probing import survey, target
from netaudit.report.schema import answer_schema
from netaudit.rules.live.desk import EXPECTED, MOVED, UNSEEN, with_growth

linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="asks Linux")
PLAN = """
netaudit: 1
devices:
  cut-1: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, address: 10.44.20.11, interface: en5}}}
  cut-2: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, address: 10.44.20.12}}}
  vault: {role: storage, ports: {fast: {connector: rj45, rates: up to 10G, address: 10.44.20.10}}}
"""


@pytest.fixture
def service() -> Iterator[str]:
    """A service on loopback: its port."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        yield str(listening.getsockname()[1])


@pytest.fixture
def closed() -> str:
    """A port of loopback at which nobody listens."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        return str(listening.getsockname()[1])


@pytest.fixture
def machine(monkeypatch: pytest.MonkeyPatch) -> FakeMachine:
    """A machine that plays cut-1; the vault has no route from it, so that nothing is sent."""
    machine = FakeMachine(routes={VAULT: "Network is unreachable"})
    monkeypatch.setattr(command, "this_machine", lambda: machine)
    monkeypatch.setattr(target, "addresses_of", lambda host, timeout_s: ((VAULT, "dns"),) if host == "vault" else ())
    return machine


@linux
def test_a_service_that_answers_is_told_in_one_sentence_with_exit_0(run, service: str) -> None:
    done = run("probe", "127.0.0.1", "--port", service, "--seconds", "0.2")

    assert (0, "") == (done.code, done.err)
    assert done.out.startswith("127.0.0.1 is this machine itself: its traffic leaves by no port")
    assert "0 fail, 0 warn, 0 note" in done.out


@linux
def test_a_service_that_refuses_is_a_finding_with_exit_1(run, closed: str) -> None:
    done = run("probe", "127.0.0.1", "--port", closed, "--seconds", "0.2")

    assert 1 == done.code
    assert "fail: service-refused at address 127.0.0.1" in done.out


def test_an_address_without_a_route_is_a_finding_with_exit_1(run, machine: FakeMachine) -> None:
    done = run("probe", "vault", "--seconds", "0.2")

    assert 1 == done.code
    assert "fail: no-route at address 10.44.20.10" in done.out


def test_an_unknown_name_is_wrong_input_with_exit_2(run, machine: FakeMachine) -> None:
    done = run("probe", "vualt")

    assert (2, "") == (done.code, done.out)
    assert done.err.startswith("vualt: no such host")


def test_a_machine_that_cannot_be_asked_gives_exit_3(run, monkeypatch: pytest.MonkeyPatch) -> None:
    def dumb() -> None:
        raise MachineError("this machine runs a system that a probe does not know")

    monkeypatch.setattr(command, "this_machine", dumb)
    done = run("probe", "vault")

    assert (3, "", "this machine runs a system that a probe does not know\n") == done


@linux
def test_the_json_answer_keeps_to_its_schema(run, service: str) -> None:
    done = run("probe", "127.0.0.1", "--port", service, "--seconds", "0.2", "--format", "json")
    answer = json.loads(done.out)

    Draft202012Validator(json.loads(answer_schema("probe"))).validate(answer)
    assert ("netaudit.probe/1", "127.0.0.1", {service: True}) == (
        answer["format"],
        answer["target"],
        answer["addresses"][0]["services"],
    )


def test_the_answer_goes_to_a_file_whole(run, machine: FakeMachine, tmp_path: Path) -> None:
    done = run("probe", "vault", "--seconds", "0.2", "--output", "answer.txt")
    text = (tmp_path / "answer.txt").read_text(encoding="utf-8")

    assert (1, "") == (done.code, done.out)
    assert text.startswith("No route leads from this machine to vault (10.44.20.10)")
    assert "fail: no-route" in text


@pytest.mark.parametrize(
    ("words", "error"),
    [
        ((), "Missing argument 'TARGET'"),
        (("",), "Missing argument 'TARGET'"),
        (("vault", "--station", "cut-1"), "--station names a seat of a plan"),
        (("vault", "--read"), "vault: --read needs a folder"),
        (("vault", "--read", "--write"), "--read and --write need a folder"),
        (("vault", "--seconds", "0"), "Invalid value for '--seconds'"),
        (("vault", "--port", "70000"), "Invalid value for '--port'"),
        (("vault", "--plan", "nowhere.yaml"), "nowhere.yaml"),
        (("vault", "--self", "--read"), "--self goes without --read"),
        (("vault", "--self", "--format", "json", "--user", "edit"), "--self goes without --user and --format"),
        (("vault", "--watch", "5", "--format", "json"), "--watch goes without --format"),
        (("/mnt", "--watch", "5", "--write", "--output", "x"), "--watch goes without --write and --output"),
    ],
)
def test_a_wrong_call_is_told_with_exit_2(run, machine: FakeMachine, words: tuple[str, ...], error: str) -> None:
    done = run("probe", *words)

    assert (2, "") == (done.code, done.out)
    assert error in done.err


def _planned(tmp_path: Path, text: str = PLAN) -> None:
    (tmp_path / "room.yaml").write_text(text, encoding="utf-8")


def test_the_seat_is_recognised_by_its_address(run, machine: FakeMachine, tmp_path: Path) -> None:
    _planned(tmp_path)
    done = run("probe", "vault", "--plan", "room.yaml", "--seconds", "0.2", "--format", "json")

    assert ["cut-1/wire"] == [link["plan_port"] for link in json.loads(done.out)["links"] if link["plan_port"]]
    assert "detailed en5" not in machine.asked  # the plan has no road to the vault that would name it


@pytest.mark.parametrize(
    ("plan", "error"),
    [
        (PLAN.replace("20.11", "20.99"), "none of them is recognised by address: give --station, one of cut-1, cut-2"),
        (PLAN.replace("20.12", "20.11"), "which seat is this machine? it may be cut-1 or cut-2"),
    ],
)
def test_a_seat_that_is_open_must_be_named(run, machine: FakeMachine, tmp_path: Path, plan: str, error: str) -> None:
    _planned(tmp_path, plan.replace("address: 10.44.20.11}}}\n  vault", "address: 10.44.20.11}}}\n  vault"))
    done = run("probe", "vault", "--plan", "room.yaml")

    assert 2 == done.code
    assert error in done.err


@pytest.mark.parametrize(
    ("name", "hint"),
    [("cut1", "did you mean 'cut-1'?"), ("zzz", "the stations are cut-1, cut-2"), ("vault", "is no station")],
)
def test_a_station_that_is_not_in_the_plan_is_told(
    run, machine: FakeMachine, tmp_path: Path, name: str, hint: str
) -> None:
    _planned(tmp_path)
    done = run("probe", "vault", "--plan", "room.yaml", "--station", name)

    assert 2 == done.code
    assert hint in done.err


def test_a_name_that_only_the_plan_knows_means_its_planned_address(
    run, machine: FakeMachine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(target, "addresses_of", lambda host, timeout_s: ())
    _planned(tmp_path)
    done = run("probe", "vault", "--plan", "room.yaml", "--station", "cut-1", "--seconds", "0.2", "--format", "json")

    assert [("10.44.20.10", "literal")] == [
        (each["address"], each["from"]) for each in json.loads(done.out)["addresses"]
    ]


def test_a_plan_is_never_written_over(run, machine: FakeMachine, tmp_path: Path) -> None:
    _planned(tmp_path)
    done = run("probe", "vault", "--plan", "room.yaml", "--output", "room.yaml")

    assert 2 == done.code
    assert PLAN == (tmp_path / "room.yaml").read_text(encoding="utf-8")


def test_watching_tells_the_time_and_ends_with_ctrl_c(
    run, machine: FakeMachine, monkeypatch: pytest.MonkeyPatch
) -> None:
    rounds = iter(range(2))

    def pause(seconds: float) -> None:
        machine.routes = {}
        if next(rounds) == 1:
            raise KeyboardInterrupt

    monkeypatch.setattr("netaudit.machine.clock.pause", pause)
    done = run("probe", "vault", "--watch", "1", "--seconds", "0.2")

    assert 130 == done.code
    assert [True] == [
        bool(re.match(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d  No route", line)) for line in done.out.splitlines()
    ]


def test_a_first_plan_is_written_from_this_machine(run, machine: FakeMachine, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(survey, "addresses_of", lambda host, timeout_s: ((VAULT, "dns"),))
    monkeypatch.setattr(survey, "default_gateways", tuple)
    done = run("probe", "vault", "--self")
    plan = netaudit.loads(done.out, "first.yaml")

    assert 0 == done.code
    assert (CUT_1,) == next(iter(plan.devices.values())).ports["en5"].addresses
    assert (VAULT,) == plan.devices["vault"].ports["port-1"].addresses


def test_a_password_is_taken_from_the_environment_or_asked_for_and_never_guessed(
    run, machine: FakeMachine, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(command.PASSWORD, raising=False)
    missing = run("probe", "vault", "--user", "edit")
    monkeypatch.setenv(command.PASSWORD, "secret")
    given = run("probe", "vault", "--user", "edit", "--seconds", "0.2")

    assert (2, 1) == (missing.code, given.code)
    assert "NETAUDIT_PASSWORD" in missing.err
    assert "secret" not in given.out + given.err


def test_what_the_counters_prove_against_the_first_sentence_is_said_next(capsys: pytest.CaptureFixture[str]) -> None:
    """The look-up names the wire, which sent 3 of 40 packets; the port at the back sent the others."""
    idle = with_growth("en5", UNSEEN._replace(moved=MOVED._replace(sessions={})), sent_packets=3)
    say_otherwise(diagnose(idle, EXPECTED))
    say_otherwise(diagnose(UNSEEN, EXPECTED))

    (line,) = capsys.readouterr().out.splitlines()
    assert line.startswith("The counters say otherwise: vault (10.44.20.10) is reached by ")
