"""Without root everything works but raw ARP, the switch's announcement and raw ICMP, and what is left out says why."""

from __future__ import annotations

import pytest
from healthy import HEALTHY
from room import EDIT_WIRE, MACS, STORE_FAST
from scenarios import SCENARIOS
from stage import Answer, Stage

SOMEBODY = 1000


def far(answer: Answer) -> dict[str, object]:
    """What was learnt about the storage's fast address."""
    (found,) = [each for each in answer.data["addresses"] if each["address"] == STORE_FAST]
    return dict(found)


def test_a_user_learns_the_road_the_link_and_the_services(stage: Stage) -> None:
    target, *_ = HEALTHY["idle"].stage(stage)
    answer = stage.probe(target, "--seconds", "0.5", uid=SOMEBODY)
    seen = far(answer)
    assert ("en5", EDIT_WIRE, None) == (seen["interface"], seen["source"], seen["gateway"])
    assert {"445": True, "2049": False} == seen["services"]
    assert 9000 == seen["path_mtu"]
    assert [MACS["s10g"]] == seen["hardware_addresses"]
    (link,) = [each for each in answer.data["links"] if each["interface"] == "en5"]
    assert (True, 9000, "edit/wire") == (link["carrier"], link["mtu"], link["plan_port"])
    assert answer.data["storage"]["dialect"].startswith("3.")


def test_what_needs_a_privilege_names_it(stage: Stage) -> None:
    """ARP and LLDP need CAP_NET_RAW (capabilities(7)); the frame test asks nothing where ping is open to users."""
    target, *_ = HEALTHY["idle"].stage(stage)
    answer = stage.probe(target, "--seconds", "0.5", "--listen", "1", uid=SOMEBODY)
    skipped = answer.skipped
    assert "CAP_NET_RAW" in skipped["two-answers-for-address"]
    assert any("CAP_NET_RAW" in why for rule, why in skipped.items() if rule != "two-answers-for-address")
    assert "large-frames-lost" not in skipped


def test_where_users_may_not_ping_the_frame_test_names_the_privilege_or_finds_another_way(stage: Stage) -> None:
    """icmp(7): ping_group_range; a new network namespace, and some systems, let nobody in."""
    target, *_ = HEALTHY["idle"].stage(stage)
    stage.edit.sysctl("ipv4/ping_group_range", "1 0")
    answer = stage.probe(target, "--seconds", "0.5", uid=SOMEBODY)
    assert [] == answer.causes
    if far(answer)["path_mtu"] is None:
        assert "CAP_NET_RAW" in answer.skipped["large-frames-lost"]


def test_root_leaves_nothing_out_for_want_of_a_privilege(stage: Stage) -> None:
    target, *_ = HEALTHY["idle"].stage(stage)
    answer = stage.probe(target, "--seconds", "0.5", "--listen", "1")
    assert not [why for why in answer.skipped.values() if "CAP_" in why]


@pytest.mark.parametrize(
    "name",
    [
        "wlan0_wins_by_rule_on_port",
        "session_is_older_than_the_cable",
        "replies_come_in_by_wifi",
        "wire_lost_its_carrier_and_kept_its_address",
        "trunk_passes_1500_under_ends_of_9000",
        "storage_offers_its_slow_port_in_this_subnet",
    ],
)
def test_a_user_is_told_the_same_cause(stage: Stage, name: str) -> None:
    scenario = SCENARIOS[name]
    target, *options = scenario.stage(stage)
    answer = stage.probe(target, "--seconds", "0.5", *options, uid=SOMEBODY)
    assert answer.causes
    assert answer.causes[0] in scenario.causes
