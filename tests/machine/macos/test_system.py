"""The whole of a Mac, asked through the questions of `Machine`; its commands are captures, not a machine."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from pathlib import Path

import pytest
from mac_captures import capture
from mac_desk import VAULT, Answer, said, sit_down

from netaudit.errors import AnswerError, InputError, MachineError, PrivilegeError
from netaudit.machine import lldp
from netaudit.machine.macos import folders
from netaudit.machine.macos.system import MacOS
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import ClientFacts, Endpoint, Interface, Route
from netaudit.model.observation import SwitchPort

SMB = Endpoint(VAULT, 445)
QUESTIONS: dict[str, Callable[[Machine], object]] = {
    "interfaces": lambda machine: machine.interfaces(),
    "detailed": lambda machine: machine.detailed(Interface("en7", medium="wired")),
    "counts": lambda machine: machine.counts(),
    "route": lambda machine: machine.route(SMB),
    "sessions": lambda machine: machine.sessions([VAULT], [445, 2049]),
    "mount_of": lambda machine: machine.mount_of("/Volumes/Projects/day 4"),
    "client": lambda machine: machine.client(None, "vault.local", [VAULT]),
    "neighbours": lambda machine: machine.neighbours(VAULT),
    "frame": lambda machine: machine.frame(VAULT, 1500, Route("en7"), 0.3),
    "routers": lambda machine: machine.routers(VAULT, 4, 1.0),
    "manager": lambda machine: machine.manager(),
    "service_order": lambda machine: machine.service_order(),
}


@pytest.fixture(autouse=True)
def _volumes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(folders, "_link", lambda step, folder: None)


def test_it_answers_every_question_there_is() -> None:
    asked = {name for name, _ in inspect.getmembers(Machine, inspect.isfunction) if not name.startswith("_")}

    assert not {name for name in asked if not callable(getattr(MacOS, name, None))}
    assert "macos" == MacOS().system


def test_the_card_comes_first_in_the_order_ranks_last_and_the_radio_takes_the_road(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Wi-Fi and a 10 Gb/s card in one subnet: a service without a router is demoted (Apple, configd, ip_plugin.c)."""
    sit_down(monkeypatch)
    machine = MacOS()
    found, route = machine.interfaces(), machine.route(SMB).route

    assert ("en7", "en0", "en10") == machine.service_order()
    assert (True, False) == (found["en7"].ranked_last, found["en0"].ranked_last)
    assert route is not None
    assert ("en0", "radio") == (route.interface, found[route.interface].medium)


def test_the_client_is_on_the_card_though_the_look_up_says_radio(monkeypatch: pytest.MonkeyPatch) -> None:
    """The look-up only predicts a new connection; the share's own channels are bound to the card."""
    sit_down(monkeypatch)
    machine = MacOS()
    mount = machine.mount_of("/Volumes/Projects")
    facts = machine.client(mount, "10.44.20.10", [VAULT])

    assert ["en7"] == [channel.interface for channel in facts.channels if channel.active]
    assert "en7" == machine.sessions([VAULT], [445])[0].interface


def test_a_vpn_that_takes_the_road_is_seen_as_a_tunnel(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"route -n get -host 10.44.20.10": said(capture("route-get-vpn.txt"))})
    machine = MacOS()
    route = machine.route(SMB).route

    assert route is not None
    tunnel = machine.interfaces()[route.interface]
    assert ("tunnel", "en0", "Example Mesh (office) tunnel") == (tunnel.medium, tunnel.parent, tunnel.title)


def test_with_nothing_mounted_a_folder_is_local_and_the_client_is_silent(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"mount": said("/dev/disk3s1s1 on / (apfs, sealed, local, read-only, journaled)\n")})

    assert MacOS().mount_of("/Users/edit/Projects") is None
    assert ClientFacts() == MacOS().client(None, "vault.local", [VAULT])


def test_disabled_services_and_those_without_a_device_have_no_place_in_the_order(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sit_down(monkeypatch)

    assert not {"en9", ""} & set(MacOS().service_order())


def test_without_networksetup_the_order_is_the_systems_own(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"networksetup -listnetworkserviceorder": said("** Error\n", code=4)})

    assert ("en0", "utun4", "en7") == MacOS().service_order()


def test_a_mac_has_no_choice_of_managers() -> None:
    assert MacOS().manager() is None  # type: ignore[func-returns-value]


@pytest.mark.parametrize("question", QUESTIONS)
@pytest.mark.parametrize(
    "answer",
    [
        None,
        AnswerError("it did not answer within 3 s"),
        MachineError("it cannot be run: Operation not permitted"),
        said(),
        said("\0" * 1000 + "garbage <Link#9> tcp4 (", "garbage", 71),
        said("[]"),
        said("x" * 100_000),
    ],
    ids=["missing", "late", "forbidden", "silent", "garbage", "json", "huge"],
)
def test_commands_that_fail_leave_errors_with_words_or_empty_answers(
    monkeypatch: pytest.MonkeyPatch, question: str, answer: Answer | None
) -> None:
    desk = sit_down(monkeypatch)
    desk.answers = dict.fromkeys(desk.answers, answer) if answer is not None else {}  # type: ignore[assignment]
    try:
        found = QUESTIONS[question](MacOS())
    except MachineError as error:
        assert str(error)  # noqa: PT017 - either is right
    else:
        assert not _claims(found)


@pytest.mark.parametrize("question", QUESTIONS)
def test_captures_in_the_wrong_place_raise_nothing_but_errors_of_the_house(
    monkeypatch: pytest.MonkeyPatch, question: str
) -> None:
    desk = sit_down(monkeypatch)
    right = list(desk.answers.values())
    for turn in range(1, len(right)):
        desk.answers = dict(zip(desk.answers, right[turn:] + right[:turn], strict=True))
        try:
            QUESTIONS[question](MacOS())
        except (MachineError, InputError) as error:
            assert str(error)  # noqa: PT017 - either is right


def test_commands_that_lie_by_zeros_or_never_end_are_not_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """`dscacheutil` ends with 0 for an unknown name, `netstat -s` counts zeros for whoever is not root."""
    desk = sit_down(monkeypatch)
    for question in QUESTIONS.values():
        question(MacOS())

    assert desk.asked
    assert not [line for line in desk.asked if line.startswith(("dscacheutil", "netstat -s"))]


def test_listening_is_handed_to_whoever_can_listen(monkeypatch: pytest.MonkeyPatch) -> None:
    port = SwitchPort("en7", "core", "9")
    monkeypatch.setattr(lldp, "listen", lambda interface, seconds: port if seconds == 2 else None)

    assert port == MacOS().listen(Interface("en7"), 2)


def test_listening_without_the_privilege_names_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(interface: Interface, seconds: float) -> None:
        raise PrivilegeError("root")

    monkeypatch.setattr(lldp, "listen", refused)
    with pytest.raises(PrivilegeError, match="root"):
        MacOS().listen(Interface("en7"), 2)


def test_a_folder_that_is_not_there_is_wrong_input(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.undo()
    sit_down(monkeypatch)

    with pytest.raises(InputError, match="there is no such folder"):
        MacOS().mount_of(str(tmp_path / "gone"))


def _claims(found: object) -> bool:
    """Whether an answer claims anything: more than emptiness, or an interface as it was given."""
    return bool(found) and found not in (ClientFacts(), Interface("en7", medium="wired"))
