"""The far end as plain values."""

from __future__ import annotations

from typing import get_args

import pytest
from observations import FAR, VAULT, diagnosed, first_look, observed

from netaudit.model.machine_state import ClientFacts
from netaudit.model.observation import FarAddress, Knock, Origin, Outcome, SmbFacts
from netaudit.report.probe.data import document
from netaudit.report.probe.data_far import address_values, milliseconds, storage_values


def test_an_address_has_its_way_its_median_round_trip_and_its_largest_packet() -> None:
    values = address_values(FAR)

    assert {
        "address": "10.44.20.10",
        "from": "dns",
        "interface": "en5",
        "source": "10.44.20.11",
        "gateway": None,
        "round_trip_ms": 0.2,
        "path_mtu": 9000,
        "hardware_addresses": ["02:00:00:44:20:10"],
        "services": {"445": True, "2049": False},
    } == {key: values[key] for key in list(values)[:9]}


def test_what_nobody_asked_is_null_or_empty_and_never_zero() -> None:
    values = address_values(FarAddress(VAULT, "dns"))
    known = ("address", "from", "services", "knocks", "frames", "smb_silent")

    assert [None] == list({key: value for key, value in values.items() if key not in known}.values())[:1]
    assert {None} == {value for key, value in values.items() if key not in known}
    assert ({}, {}, []) == (values["services"], values["knocks"], values["frames"])


@pytest.mark.parametrize("origin", get_args(Origin))
def test_every_origin_has_its_word_in_the_format(origin: Origin) -> None:
    told = address_values(FarAddress(VAULT, origin))["from"]

    assert ("literal" if origin in ("mount", "plan") else origin) == told


@pytest.mark.parametrize(
    ("outcome", "answers"),
    [("open", True), ("refused", False), ("silent", False), ("unreachable", None), ("blocked", None)],
)
def test_a_service_that_nothing_got_through_to_is_not_known(outcome: Outcome, answers: bool | None) -> None:
    assert {"445": answers} == address_values(FAR._replace(knocks={445: Knock(outcome)}))["services"]


def test_the_living_session_speaks_before_a_new_one() -> None:
    client = ClientFacts(dialect="3.0", signing=True, encryption=False)
    values = storage_values(observed(client=client))

    assert ["3.0", True, False] == [values[key] for key in ("dialect", "signing", "encryption")]
    assert [{"address": "10.44.20.10", "rate_bit_per_s": 10_000_000_000}] == values["offers"]


@pytest.mark.parametrize(("demanded", "signed"), [(True, True), (False, None), (None, None)])
def test_a_server_that_demands_signing_signs_and_of_another_nothing_is_known(
    demanded: bool | None, signed: bool | None
) -> None:
    smb = SmbFacts(signing_required=demanded, encryption_required=demanded)
    values = storage_values(observed(addresses=(FAR._replace(smb=smb),)))

    assert [signed, signed] == [values["signing"], values["encryption"]]


def test_offers_that_the_storage_did_not_tell_are_null_and_none_are_none() -> None:
    assert None is storage_values(first_look())["offers"]
    assert [] == storage_values(first_look(offers=()))["offers"]


def test_times_are_told_in_milliseconds_to_the_microsecond() -> None:
    assert [0.2, 1.235, None] == [milliseconds(each) for each in (0.0002, 0.00123456, None)]


def test_the_order_of_the_addresses_is_kept() -> None:
    other = FAR._replace(address=FAR.address + 1)

    assert ["10.44.20.11", "10.44.20.10"] == [
        each["address"] for each in document(diagnosed(observed(addresses=(other, FAR))))["addresses"]
    ]
