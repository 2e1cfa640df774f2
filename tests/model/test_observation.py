"""What a probe saw, as a value."""

from __future__ import annotations

from ipaddress import ip_address

import pytest

from netaudit.model.machine_state import Channel, ClientFacts, Endpoint, Route, Session, SessionCount
from netaudit.model.observation import FarAddress, FrameTest, Knock, Moved, Observation, Outcome, Timing, most_likely

VAULT = ip_address("10.44.20.10")


def test_the_largest_packet_that_passed_is_the_paths() -> None:
    tests = tuple(FrameTest(size, passed, "icmp") for size, passed in ((1500, True), (4000, True), (9000, False)))

    assert 4000 == FarAddress(VAULT, "dns", frames=tests).path_mtu
    assert FarAddress(VAULT, "dns", frames=tests[2:]).path_mtu is None
    assert FarAddress(VAULT, "dns", frames=(FrameTest(9000, None, "udp"),)).path_mtu is None


def test_what_a_session_did_is_found_by_its_two_ends() -> None:
    session = Session(Endpoint(ip_address("10.44.20.11"), 51820), Endpoint(VAULT, 445))
    count = SessionCount(received_bytes=7)
    moved = Moved(2.0, {}, {("10.44.20.11:51820", "10.44.20.10:445"): count})

    assert count == moved.of_session(session)
    assert moved.of_session(session._replace(local=session.remote)) is None


@pytest.mark.parametrize(
    ("outcome", "answers"),
    [("open", True), ("refused", True), ("silent", False), ("unreachable", False), ("blocked", False)],
)
def test_an_address_answers_where_anything_does_a_refusal_included(outcome: Outcome, answers: bool) -> None:
    far = FarAddress(VAULT, "dns", knocks={445: Knock("silent"), 2049: Knock(outcome)})

    assert answers == far.answers


def test_whether_an_address_answers_is_not_known_before_anybody_asked() -> None:
    assert FarAddress(VAULT, "dns").answers is None


OWN = FarAddress(ip_address("172.17.0.1"), "mdns", Route("lo", local=True))
FAR = FarAddress(VAULT, "mdns", Route("en5"))
OPEN, REFUSED, SILENT = ({445: Knock(outcome)} for outcome in ("open", "refused", "silent"))


def test_an_address_is_here_where_its_route_stays_on_this_machine() -> None:
    assert [True, False, False] == [each.is_here for each in (OWN, FAR, FarAddress(VAULT, "dns"))]


@pytest.mark.parametrize(
    ("own", "far", "first"),
    [
        ({}, {}, VAULT),
        (REFUSED, OPEN, VAULT),
        (REFUSED, REFUSED, VAULT),
        (OPEN, REFUSED, OWN.address),
        (OPEN, OPEN, OWN.address),
        (REFUSED, SILENT, OWN.address),
        (SILENT, SILENT, VAULT),
    ],
)
def test_a_new_connection_goes_where_a_service_takes_it_and_to_this_machine_itself_last(
    own: dict[int, Knock], far: dict[int, Knock], first: object
) -> None:
    """RFC 6724 section 6, rule 1 and 8, puts this machine's own address first, which containers give to many machines."""
    assert first == most_likely((OWN._replace(knocks=own), FAR._replace(knocks=far)))[0].address


def test_the_only_address_is_taken_wherever_it_is() -> None:
    assert (OWN,) == most_likely((OWN,))
    assert () == most_likely(())


def test_only_channels_that_carry_data_count() -> None:
    idle, busy = Channel("media", "wlan0", active=False), Channel("media", "en5")

    assert (busy,) == Observation("vault", "linux", "vault", (445,), client=ClientFacts((idle, busy))).channels


@pytest.mark.parametrize(("octets", "seconds", "rate"), [(10**6, 2.0, 4 * 10**6), (0, 2.0, None), (10**6, 0.0, None)])
def test_a_file_runs_at_its_bits_each_second_where_anything_moved(
    octets: int, seconds: float, rate: float | None
) -> None:
    assert rate == Timing("/mnt/a", "read", octets, seconds, (), 4, cold=None).rate_bit_per_s


def test_a_session_of_the_secure_shell_carries_files_only_where_it_was_asked_about() -> None:
    """Port 22 is that of the secure shell: IANA, Service Name and Transport Protocol Port Number Registry."""
    here = Endpoint(ip_address("10.44.20.11"), 50_001)
    shell, files = Session(here, Endpoint(VAULT, 22)), Session(here, Endpoint(VAULT, 445))
    seen = Observation("vault", "linux", "vault", (445,), sessions=(shell, files))

    assert (files,) == seen.file_sessions
    assert (shell, files) == seen._replace(ports=(22,)).file_sessions
