"""The far end from here."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from machines import BY_WIRE, CUT_1, SLOW_VAULT, VAULT, WIRE, FakeMachine, session

from netaudit.errors import AnswerError, PrivilegeError, SilenceError
from netaudit.machine.clock import Deadline
from netaudit.model.machine_state import Channel, ClientFacts, Route
from netaudit.model.observation import FarAddress, Knock, Neighbours, Observation, Offer, SmbFacts
from netaudit.probing import far_end
from netaudit.probing.asking import Notebook
from netaudit.probing.request import Request

ON_LINK = FarAddress(VAULT, "dns", BY_WIRE, knocks={445: Knock("open", (0.001,))})
ROUTED = FarAddress(VAULT, "dns", Route("wlan0", CUT_1, ip_address("192.168.44.1")), knocks=ON_LINK.knocks)
LOCAL = FarAddress(VAULT, "dns", Route("lo", CUT_1, local=True))
ONE, OTHER = "02:44:20:00:00:10", "02:44:20:00:00:99"


def _notes() -> Notebook:
    return Notebook(Deadline(5))


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """What each far question is answered; an exception is raised."""
    given: list[object] = []

    def answer(*_: object, **__: object) -> object:
        value = given.pop(0)
        if isinstance(value, Exception):
            raise value
        return value

    for module, name in ((far_end.arp, "ask"), (far_end.smb, "negotiate"), (far_end.smb, "offers")):
        monkeypatch.setattr(module, name, answer)
    return given


def test_every_hardware_address_that_answers_is_told_once(answers: list[object]) -> None:
    answers.append((ONE, OTHER, ONE))

    assert Neighbours((ONE, OTHER), asked=True) == far_end.neighbours_of(FakeMachine(), ON_LINK, _notes())


def test_without_the_right_to_ask_the_table_is_read_and_the_privilege_named(answers: list[object]) -> None:
    answers.append(PrivilegeError("CAP_NET_RAW"))
    notes = _notes()

    assert Neighbours((ONE,), asked=False) == far_end.neighbours_of(FakeMachine(), ON_LINK, notes)
    assert "CAP_NET_RAW" in notes.skipped[0].why


def test_no_answer_at_all_leaves_it_open(answers: list[object]) -> None:
    answers.append(())

    assert far_end.neighbours_of(FakeMachine(held=()), ON_LINK, _notes()) is None


def test_an_address_of_version_6_is_read_from_the_table() -> None:
    six = ON_LINK._replace(address=ip_address("fd44::10"))

    assert Neighbours((ONE,), asked=False) == far_end.neighbours_of(FakeMachine(), six, _notes())


@pytest.mark.parametrize("each", [ROUTED, LOCAL, ON_LINK._replace(route=None)])
def test_hardware_addresses_are_asked_only_on_the_link(each: FarAddress) -> None:
    machine = FakeMachine()

    assert far_end.neighbours_of(machine, each, _notes()) is None
    assert [] == machine.asked


def test_the_ports_own_size_the_planned_one_and_the_standards_are_tried_from_the_least() -> None:
    machine = FakeMachine()
    tests = far_end.frames_of(machine, ON_LINK, WIRE, 4000, _notes())

    assert [(1500, True), (4000, True), (9000, True)] == [(test.size_octets, test.passed) for test in tests]


def test_a_size_above_the_ports_own_is_not_tried() -> None:
    tests = far_end.frames_of(FakeMachine(), ON_LINK, WIRE._replace(mtu=1500), 9000, _notes())

    assert [1500] == [test.size_octets for test in tests]


def test_a_large_size_may_be_lost_where_a_small_one_passes() -> None:
    machine = FakeMachine(passes=1500)
    tests = far_end.frames_of(machine, ON_LINK, WIRE, None, _notes())

    assert [(1500, True), (9000, False)] == [(test.size_octets, test.passed) for test in tests]


def test_what_this_machine_cannot_send_ends_the_trial() -> None:
    tests = far_end.frames_of(FakeMachine(passes=None), ON_LINK, WIRE, None, _notes())

    assert [None] == [test.passed for test in tests]


@pytest.mark.parametrize("each", [LOCAL, ON_LINK._replace(route=None)])
def test_no_frame_is_sent_to_this_machine_itself_or_nowhere(each: FarAddress) -> None:
    assert () == far_end.frames_of(FakeMachine(), each, None, None, _notes())


def test_the_routes_own_size_counts_where_the_ports_is_not_told() -> None:
    routed = ON_LINK._replace(route=BY_WIRE._replace(mtu=1400))

    assert [1400] == [test.size_octets for test in far_end.frames_of(FakeMachine(), routed, None, 9000, _notes())]


def test_routers_are_asked_for_only_where_there_is_one() -> None:
    gateway, second = ip_address("192.168.44.1"), ip_address("198.51.100.1")

    assert () == far_end.routers_of(FakeMachine(), ON_LINK, _notes())
    assert far_end.routers_of(FakeMachine(), LOCAL, _notes()) is None
    assert (gateway, second) == far_end.routers_of(FakeMachine(way=(gateway, second)), ROUTED, _notes())
    assert (gateway,) == far_end.routers_of(FakeMachine(way=()), ROUTED, _notes())


def test_an_smb_server_says_what_it_is(answers: list[object]) -> None:
    answers.append(SmbFacts("3.1.1"))

    assert SmbFacts("3.1.1") == far_end.with_smb(ON_LINK, _notes()).smb


@pytest.mark.parametrize(("error", "silent"), [(SilenceError("late"), True), (AnswerError("no SMB"), False)])
def test_a_service_that_takes_the_question_and_is_silent_is_told_from_another(
    answers: list[object], error: Exception, silent: bool
) -> None:
    answers.append(error)
    notes = _notes()
    found = far_end.with_smb(ON_LINK, notes)

    assert (None, silent, [str(error)]) == (found.smb, found.smb_silent, [each.why for each in notes.skipped])


@pytest.mark.parametrize("knocks", [{445: Knock("refused"), 2049: Knock("open")}, {2049: Knock("open")}, {}])
def test_a_service_that_is_not_open_is_not_asked(answers: list[object], knocks: dict[int, Knock]) -> None:
    answers.append(SmbFacts("3.1.1"))
    shut = ON_LINK._replace(knocks=knocks)

    assert shut == far_end.with_smb(shut, _notes())


def test_the_first_address_that_tells_gives_the_storages_list(answers: list[object]) -> None:
    answers += [PrivilegeError("an account"), (SmbFacts("3.1.1", signed_in=True), (Offer(VAULT, 10**10),))]
    known = [ON_LINK._replace(smb=SmbFacts("3.1.1"), address=SLOW_VAULT), ON_LINK._replace(smb=SmbFacts("3.1.1"))]
    notes = _notes()
    offers, teller = far_end.offers_of([ROUTED, *known], None, Request("vault"), notes)

    assert (Offer(VAULT, 10**10),) == offers
    assert known[1]._replace(smb=SmbFacts("3.1.1", signed_in=True)) == teller
    assert ["an account"] == [each.why.split("with ")[1] for each in notes.skipped]


def test_a_share_is_entered_only_by_somebody_who_signs_in(monkeypatch: pytest.MonkeyPatch) -> None:
    def offers(address: object, port: int, timeout_s: float, *who: object, share: str | None) -> object:
        asked.append((address, port, *who, share))
        return SmbFacts("3.1.1"), None

    asked: list[object] = []
    monkeypatch.setattr(far_end.smb, "offers", offers)
    known = [ON_LINK._replace(smb=SmbFacts("3.1.1"))]
    far_end.offers_of(known, "media", Request("vault"), _notes())
    somebody = {"user": "edit", "password": "oars"}
    far_end.offers_of(known, "media", Request("vault", **somebody), _notes())

    assert [(VAULT, 445, None, None, None), (VAULT, 445, "edit", "oars", "media")] == asked


def test_the_least_packet_is_the_one_that_every_host_takes_whole() -> None:
    """RFC 791, section 3.1: "All hosts must be prepared to accept datagrams of up to 576 octets"."""
    assert far_end.LEAST_OCTETS == 576


def test_without_smb_nobody_tells_a_list() -> None:
    assert (None, None) == far_end.offers_of([ON_LINK], None, Request("vault"), _notes())


def test_in_use_are_the_addresses_of_living_connections_else_the_first_that_answers_else_the_first() -> None:
    slow = FarAddress(SLOW_VAULT, "dns", BY_WIRE, knocks={445: Knock("silent")})
    seen = Observation("vault", "linux", "vault", (445,), addresses=(slow, ON_LINK))
    channel = ClientFacts((Channel("media", "wlan0", remote=SLOW_VAULT),))

    assert (ON_LINK,) == tuple(far_end.in_use(seen))
    assert (slow,) == tuple(far_end.in_use(seen._replace(client=channel)))
    assert (ON_LINK,) == tuple(far_end.in_use(seen._replace(sessions=(session(),))))
    assert (slow,) == tuple(far_end.in_use(seen._replace(addresses=(slow,))))
