"""The answer of a probe in one sentence."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from observations import (
    AIR_HOST,
    BY_AIR,
    BY_WIRE,
    CHANNEL,
    ELSEWHERE,
    EN5,
    EXPECTED,
    FAR,
    GBIT,
    OPEN,
    SESSION,
    SLOW_VAULT,
    VAULT,
    WLAN0,
    first_look,
    interfaces,
    observed,
    port,
    situated,
)

from netaudit.model.machine_state import ClientFacts, Endpoint, Interface, Mount, Route
from netaudit.model.observation import FarAddress, Knock, Outcome
from netaudit.report.probe.words import sentence

BY_AIR_ON_LINK = BY_AIR._replace(gateway=None)


def test_a_planned_port_is_told_with_its_rate_in_both_units() -> None:
    expected = "vault (10.44.20.10) is reached by en5 at 10 Gb/s (1250 MB/s), as planned (cut-1/wire)."

    assert expected == sentence(situated())


def test_wifi_is_told_as_such_beside_the_port_that_was_planned() -> None:
    seen = observed(sessions=(SESSION._replace(interface="wlan0"),))
    expected = (
        "vault (10.44.20.10) is reached by wlan0, Wi-Fi at 300 Mb/s (37.5 MB/s), not by en5 (cut-1/wire) as planned."
    )

    assert expected == sentence(situated(seen))


def test_a_port_that_only_the_plan_calls_radio_is_told_as_wifi() -> None:
    seen = observed(interfaces=interfaces(WLAN0._replace(medium="unknown")), sessions=(ELSEWHERE,))

    assert "by wlan0, Wi-Fi at 300 Mb/s (37.5 MB/s), not by" in sentence(situated(seen))


def test_a_first_look_without_a_session_is_only_a_prediction() -> None:
    expected = "New connections to vault (10.44.20.10) would go by en5 at 10 Gb/s (1250 MB/s), as planned (cut-1/wire)."

    assert expected == sentence(situated(first_look()))


def test_a_first_look_with_a_session_gives_the_same_sentence_as_the_whole_probe() -> None:
    assert sentence(situated(first_look(sessions=(SESSION,)))) == sentence(situated())


def test_what_the_file_client_reports_is_told_as_a_fact() -> None:
    seen = observed(sessions=(), client=ClientFacts((CHANNEL,)))

    assert "vault (10.44.20.10) is reached by en5 at 10 Gb/s" in sentence(situated(seen))


def test_without_a_plan_nothing_is_said_of_one() -> None:
    expected = "vault (10.44.20.10) is reached by en5 at 10 Gb/s (1250 MB/s)."

    assert expected == sentence(situated(expected=None))


def test_a_storage_that_was_asked_about_by_its_address_is_called_by_it_once() -> None:
    expected = "10.44.20.10 is reached by en5 at 10 Gb/s (1250 MB/s)."

    assert expected == sentence(situated(observed(host="10.44.20.10"), None))


def test_a_folder_is_told_with_the_storage_that_holds_it() -> None:
    seen = observed(mount=Mount("/mnt/media", "cifs", "//vault/media"))

    assert sentence(situated(seen)).startswith("/mnt/media on vault (10.44.20.10) is reached by en5 ")


def test_the_planned_port_to_another_address_than_the_planned_one_is_told_with_that() -> None:
    to_slow = SESSION._replace(remote=SESSION.remote._replace(address=SLOW_VAULT))

    assert (
        "vault (192.168.44.10) is reached by en5 at 10 Gb/s (1250 MB/s), as planned (cut-1/wire), though the plan has "
        "vault at 10.44.20.10." == sentence(situated(observed(sessions=(to_slow,))))
    )


def test_a_link_below_the_planned_rate_is_told_with_both_rates() -> None:
    seen = observed(interfaces=interfaces(EN5._replace(rate_bit_per_s=GBIT)))
    expected = (
        "vault (10.44.20.10) is reached by en5, as planned (cut-1/wire), "
        "but at 1 Gb/s (125 MB/s) instead of 10 Gb/s (1250 MB/s)."
    )

    assert expected == sentence(situated(seen))


def test_what_stands_on_the_planned_port_is_told_with_the_rate_that_the_port_misses() -> None:
    vlan = port("en5.20", parent="en5", rate_bit_per_s=GBIT)
    below = interfaces(EN5._replace(rate_bit_per_s=GBIT), vlan)
    seen = observed(interfaces=below, sessions=(SESSION._replace(interface="en5.20"),))

    assert "at 1 Gb/s (125 MB/s) instead of 10 Gb/s (1250 MB/s)" in sentence(situated(seen))


def test_several_ports_at_once_are_each_told_and_the_planned_one_is_marked() -> None:
    expected = (
        "vault (10.44.20.10 and 192.168.44.10) is reached by 2 ports at once: "
        "en5 (cut-1/wire) at 10 Gb/s (1250 MB/s), as planned; wlan0 (cut-1/air), Wi-Fi at 300 Mb/s (37.5 MB/s)."
    )

    assert expected == sentence(situated(observed(sessions=(SESSION, ELSEWHERE))))


def test_several_ports_none_of_them_planned_are_told_with_the_planned_one() -> None:
    other = SESSION._replace(interface="en7")
    seen = observed(interfaces=interfaces(port("en7", rate_bit_per_s=GBIT)), sessions=(other, ELSEWHERE))

    assert sentence(situated(seen)).endswith(
        "by 2 ports at once: en7 at 1 Gb/s (125 MB/s); wlan0 (cut-1/air), Wi-Fi at 300 Mb/s (37.5 MB/s); "
        "none of them is en5 (cut-1/wire) as planned."
    )


def test_several_sessions_over_one_port_are_one_road() -> None:
    more = SESSION._replace(local=SESSION.local._replace(port=51821))

    assert sentence(situated(observed(sessions=(SESSION, more)))) == sentence(situated())


@pytest.mark.parametrize(
    ("state", "why"),
    [(EN5._replace(carrier=False), "has no link"), (EN5._replace(up=False, carrier=None), "is switched off")],
)
def test_traffic_into_a_dead_port_reaches_nothing(state: Interface, why: str) -> None:
    expected = f"Nothing reaches vault (10.44.20.10): its traffic goes into en5 (cut-1/wire), which {why}."

    assert expected == sentence(situated(observed(interfaces=interfaces(state))))


def test_a_dead_port_that_was_not_planned_is_told_with_the_planned_one() -> None:
    dead = WLAN0._replace(carrier=False)

    assert (
        "Nothing reaches vault (192.168.44.10): its traffic goes into wlan0 (cut-1/air), which has no link, "
        "not by en5 (cut-1/wire) as planned."
    ) == sentence(situated(observed(interfaces=interfaces(dead), sessions=(ELSEWHERE,))))


def test_of_several_ports_a_dead_one_is_told_as_dead() -> None:
    seen = observed(interfaces=interfaces(EN5._replace(carrier=False)), sessions=(SESSION, ELSEWHERE))

    assert "at once: en5 (cut-1/wire), which has no link, as planned; wlan0 (cut-1/air), Wi-Fi at " in sentence(
        situated(seen)
    )


def test_a_carrier_that_is_not_known_is_not_taken_for_dead() -> None:
    seen = observed(interfaces=interfaces(EN5._replace(carrier=None, up=None)))

    assert sentence(situated(seen)) == sentence(situated())


def test_an_address_without_a_route_is_told_with_the_systems_words() -> None:
    seen = first_look(addresses=(FarAddress(VAULT, "literal", no_route="Network is unreachable"),))
    expected = "No route leads from this machine to vault (10.44.20.10): Network is unreachable."

    assert expected == sentence(situated(seen))


def test_a_way_that_the_system_does_not_tell_is_not_taken_for_none() -> None:
    seen = first_look(addresses=(FarAddress(VAULT, "literal"),))

    assert "This system does not tell which way packets to vault (10.44.20.10) leave." == sentence(situated(seen))


def test_a_name_without_an_address_is_told_as_such() -> None:
    assert "vault has no address that this machine can find." == sentence(situated(first_look(addresses=())))


def test_this_machine_itself_is_reached_by_no_port() -> None:
    home = ip_address("127.0.0.1")
    route = Route("lo", source=home, local=True)
    seen = first_look(host="127.0.0.1", addresses=(FarAddress(home, "literal", route=route),))

    assert "127.0.0.1 is this machine itself: its traffic leaves by no port." == sentence(situated(seen, None))


def test_a_storage_that_only_one_session_of_finds_on_this_machine_is_reached_by_a_port() -> None:
    here = SESSION._replace(remote=Endpoint(AIR_HOST, 445), local=Endpoint(AIR_HOST, 51999), interface="lo")
    addresses = (FAR, FarAddress(AIR_HOST, "dns", route=Route("lo", source=AIR_HOST, local=True)))

    assert "is this machine itself" not in sentence(situated(observed(sessions=(SESSION, here), addresses=addresses)))


def test_a_service_that_this_machine_itself_refuses_is_told() -> None:
    home = ip_address("127.0.0.1")
    route = Route("lo", source=home, local=True)
    knocked = FarAddress(home, "literal", route=route, knocks={445: Knock("refused")})

    assert sentence(situated(observed(host="127.0.0.1", addresses=(knocked,), sessions=()), None)).endswith(
        "leaves by no port; 127.0.0.1 refuses SMB (445)."
    )


def test_a_rate_that_is_not_known_is_told_as_such() -> None:
    seen = observed(interfaces=interfaces(EN5._replace(rate_bit_per_s=None)))

    assert "by en5 at a rate that this system does not tell, as planned (cut-1/wire)." in sentence(situated(seen))


def test_an_interface_that_the_system_does_not_list_has_no_known_rate() -> None:
    seen = observed(sessions=(SESSION._replace(interface="en9"),))

    assert "by en9 at a rate that this system does not tell, not by en5 (cut-1/wire)" in sentence(situated(seen))


def test_a_rate_that_a_virtual_pair_makes_up_is_told_as_such_and_not_held_against_the_plan() -> None:
    pair = EN5._replace(medium="virtual", rate_bit_per_s=GBIT, made_up_rate=True)

    assert "by en5 at a made-up 1 Gb/s (125 MB/s), as planned (cut-1/wire)." in sentence(
        situated(observed(interfaces=interfaces(pair)))
    )


@pytest.mark.parametrize(
    ("rate", "text"), [(None, "by utun3, a tunnel, not by"), (GBIT, "by utun3, a tunnel at 1 Gb/s (125 MB/s), not by")]
)
def test_a_tunnel_is_told_as_one_with_its_rate_where_it_has_one(rate: int | None, text: str) -> None:
    tunnel = port("utun3", "tunnel", rate_bit_per_s=rate)
    seen = observed(interfaces=interfaces(tunnel), sessions=(SESSION._replace(interface="utun3"),))

    assert text in sentence(situated(seen))


def test_a_plan_without_the_storage_or_without_a_road_is_told_as_such() -> None:
    strange = EXPECTED._replace(storage=None, road=None)
    cut_off = EXPECTED._replace(road=None)

    assert sentence(situated(expected=strange)).endswith(
        "(1250 MB/s); boathouse.yaml has no storage of that name or address."
    )
    assert sentence(situated(expected=cut_off)).endswith("; boathouse.yaml has no road from cut-1 to vault.")


def unnamed_wire() -> Interface:
    """The wire under a name and an address that the plan does not give."""
    return EN5._replace(name="en9", addresses=())


def test_a_port_that_nothing_in_the_plan_recognises_may_be_the_planned_one() -> None:
    seen = observed(interfaces={"en9": unnamed_wire()}, sessions=(SESSION._replace(interface="en9"),))

    assert sentence(situated(seen)).endswith("; whether that is cut-1/wire, as planned, is not known.")


def test_a_radio_that_nothing_recognises_is_surely_not_the_planned_wire() -> None:
    seen = observed(interfaces={"ath0": WLAN0._replace(name="ath0")}, sessions=(ELSEWHERE._replace(interface="ath0"),))

    assert sentence(situated(seen)).endswith("(37.5 MB/s), not by cut-1/wire as planned.")


@pytest.mark.parametrize(
    ("outcomes", "ending"),
    [
        (("open", "refused"), "(cut-1/wire)."),
        (("refused", "silent"), "(cut-1/wire); vault refuses SMB (445)."),
        (("refused", "refused"), "(cut-1/wire); vault refuses SMB (445) and NFS (2049)."),
        (("silent", "silent"), "(cut-1/wire); but nothing answers there."),
        (("unreachable", "silent"), "(cut-1/wire); but nothing answers there."),
        (("blocked", "blocked"), "forbids this program to ask there, so that nothing is known of the storage."),
    ],
)
def test_what_does_not_answer_is_told_at_the_end(outcomes: tuple[Outcome, Outcome], ending: str) -> None:
    knocks = {service: Knock(outcome) for service, outcome in zip((445, 2049), outcomes, strict=True)}
    seen = observed(addresses=(FAR._replace(knocks=knocks),))

    assert sentence(situated(seen)).endswith(ending)


def test_a_service_that_answers_at_another_address_does_not_speak_for_the_one_in_use() -> None:
    deaf = FAR._replace(knocks={445: Knock("silent")})
    spare = FarAddress(SLOW_VAULT, "dns", route=BY_AIR, knocks={445: OPEN})

    assert sentence(situated(observed(addresses=(deaf, spare)))).endswith("; but nothing answers there.")


def test_a_prediction_goes_by_the_first_address_that_has_a_route() -> None:
    slow = FarAddress(SLOW_VAULT, "dns", route=BY_AIR_ON_LINK._replace(source=AIR_HOST))
    seen = first_look(addresses=(slow, FarAddress(VAULT, "dns", route=BY_WIRE)))

    assert sentence(situated(seen)).startswith("New connections to vault (192.168.44.10) would go by wlan0, Wi-Fi at ")


def test_names_that_a_terminal_would_obey_are_written_out() -> None:
    seen = observed(host="va\x1b[31mult\n\u202e", mount=Mount("/mnt/\x07[bold]", "cifs", "//vault/media"))

    assert sentence(situated(seen, None)).startswith(r"/mnt/\x07[bold] on va\x1b[31mult\n\u202e (10.44.20.10) is ")
