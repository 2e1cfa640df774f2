"""This end as plain values."""

from __future__ import annotations

from observations import (
    CHANNEL,
    COLD_READ,
    EN5,
    LOOPBACK,
    MOVED,
    SESSION,
    WLAN0,
    diagnosed,
    interfaces,
    observed,
    situated,
)

from netaudit.model.machine_state import ClientFacts, Counters, Interface, Mount
from netaudit.model.observation import Growth, SwitchPort
from netaudit.report.probe import data_near
from netaudit.report.probe.data import document


def test_a_link_has_its_rate_in_bits_its_counters_and_the_port_of_the_plan() -> None:
    values = data_near.link_values(situated(), EN5)

    assert {
        "interface": "en5",
        "medium": "wired",
        "carrier": True,
        "rate_bit_per_s": 10_000_000_000,
        "duplex": "full",
        "mtu": 9000,
        "offered": [10_000_000_000, 5_000_000_000, 2_500_000_000, 1_000_000_000],
        "bus": "pcie 3 x4",
        "carrier_changes": 1,
        "errors": {"rx_crc_errors": 0, "rx_dropped": 12},
        "plan_port": "cut-1/wire",
    } == {key: values[key] for key in list(values)[:11]}


def test_what_a_link_does_not_tell_is_null() -> None:
    values = data_near.link_values(situated(), Interface("en9"))

    assert [None] * 8 == [
        values[key]
        for key in ("carrier", "rate_bit_per_s", "duplex", "mtu", "offered", "bus", "carrier_changes", "plan_port")
    ]
    assert ("unknown", {}) == (values["medium"], values["errors"])


def test_a_port_that_the_plan_calls_radio_counts_as_such() -> None:
    seen = observed(interfaces=interfaces(WLAN0._replace(medium="wired")))
    values = document(diagnosed(seen))

    assert ["wired", "radio"] == [link["medium"] for link in values["links"]]


def test_only_links_that_matter_are_listed() -> None:
    seen = observed(interfaces={**interfaces(Interface("en8")), "lo": LOOPBACK})

    assert ["en5", "wlan0"] == [link["interface"] for link in document(diagnosed(seen))["links"]]


def test_a_session_has_its_ends_as_text_and_its_amounts_as_integers() -> None:
    values = data_near.session_values(SESSION)

    assert {
        "local": "10.44.20.11:51820",
        "remote": "10.44.20.10:445",
        "service": "445",
        "interface": "en5",
        "round_trip_ms": 0.2,
        "sent_bytes": 4_000_000,
        "received_bytes": 81_000_000_000,
        "retransmitted": 0,
    } == {key: values[key] for key in list(values)[:8]}


def test_a_timed_file_has_its_rate_as_an_integer_and_its_slowest_step() -> None:
    values = data_near.read_values(COLD_READ)

    assert (3_298_969_072, 3.3, True, 0.31) == tuple(
        values[key] for key in ("rate_bit_per_s", "slowest_step_ms", "cold", "cpu_share")
    )
    nothing = data_near.read_values(COLD_READ._replace(bytes=0, steps_s=(), cpu_share=None))
    assert [None] * 3 == [nothing[key] for key in ("rate_bit_per_s", "slowest_step_ms", "cpu_share")]


def test_every_interface_that_was_watched_stands_in_what_moved() -> None:
    more = {**MOVED.interfaces, "docker0": Growth(Counters(None, 3))}
    values = data_near.moved_values(MOVED._replace(interfaces=more))

    assert values is not None
    assert {"sent_bytes": None, "received_bytes": 3, "errors": {}, "carrier_changes": None} == (
        values["interfaces"]["docker0"]
    )
    assert 2.0 == values["seconds"]


def test_a_channel_of_the_client_has_all_that_it_reports() -> None:
    (channel,) = data_near.client_values(ClientFacts((CHANNEL,)))["channels"]

    assert CHANNEL._asdict() == {
        **channel, "local": CHANNEL.local, "remote": CHANNEL.remote,
    }  # fmt: skip


def test_a_mount_and_a_switch_port_are_null_where_there_is_none() -> None:
    assert None is data_near.mount_values(None)
    assert None is data_near.moved_values(None)
    assert None is data_near.switch_port_values(None)
    assert SwitchPort("en5", "core", "1")._asdict() == data_near.switch_port_values(SwitchPort("en5", "core", "1"))
    mounted = data_near.mount_values(Mount("/m", "nfs4", "vault:/x", "vault", options=("ro",)))
    assert mounted is not None
    assert ("/m", "nfs4", "vault", None, ["ro"]) == tuple(
        mounted[key] for key in ("folder", "kind", "host", "remote", "options")
    )
