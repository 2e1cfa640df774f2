"""`smbutil statshares`. Format: Apple's SMBClient; the captures are written from it and not taken from a machine."""

from __future__ import annotations

import json

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.smbutil import ShareFacts, parse_statshares, parse_statshares_json


def test_the_text_form_lists_only_what_is_true() -> None:
    """What is not listed there is false; being able to sign is not signing."""
    one, other = parse_statshares(capture("smbutil-statshares-12.txt"))

    assert ShareFacts("Cards (A) on set", "SMB 2.0.2", signing=False, encryption=True) == one
    assert ShareFacts("Projects", "SMB 3.1.1", signing=True, encryption=False) == other


def test_a_value_of_several_words_is_no_heading() -> None:
    text = "Projects\n  SMB_VERSION  SMB_3.1.1\n  SERVER_NAME  the vault in the bay\n  SIGNING_ON  TRUE\n"

    assert (ShareFacts("Projects", "SMB 3.1.1", signing=True, encryption=False),) == parse_statshares(text)


def test_the_json_form_says_both() -> None:
    expected = ShareFacts("Projects", "SMB 3.1.1", signing=True, encryption=False)

    assert (expected,) == parse_statshares_json(capture("smbutil-statshares-15.json"))


def test_a_flag_is_written_in_any_case_and_may_be_false() -> None:
    rows = [
        {"share_name": "a", "SIGNING_ON": "True", "ENCRYPTION_REQUIRED": "FALSE"},
        {"share_name": "b", "SIGNING_ON": False, "ENCRYPTION_REQUIRED": True},
    ]

    assert [(True, False), (False, True)] == [
        (each.signing, each.encryption) for each in parse_statshares_json(json.dumps(rows))
    ]


def test_headings_rules_and_empty_blocks_are_no_shares() -> None:
    rule = "=" * 20
    value = "  SMB_VERSION  SMB_3.1.1\n"
    text = (
        f"{value}{rule}\nSHARE ATTRIBUTE VALUE\n{value}Empty\nProjects\n\n{value}\n  SIGNING_ON  TRUE\n{rule}\nLast\n"
    )

    assert (ShareFacts("Projects", "SMB 3.1.1", signing=True, encryption=False),) == parse_statshares(text)


def test_an_algorithm_that_is_off_outweighs_an_ability() -> None:
    row = {"share_name": "Projects", "SMB_VERSION": "SMB_3.1.1", "SIGNING_SUPPORTED": True, "SIGNING_ON": False,
           "SMB_CURR_SIGN_ALGORITHM": "OFF"}  # fmt: skip
    (facts,) = parse_statshares_json(json.dumps([row]))

    assert facts.signing is False


def test_a_block_that_does_not_even_name_its_dialect_tells_nothing() -> None:
    (facts,) = parse_statshares("Projects\n      SERVER_NAME      vault.local\n")

    assert (None, None, None) == (facts.signing, facts.encryption, facts.dialect)


@pytest.mark.parametrize("text", ["", "smbutil: Invalid parameter", "[{]"])
def test_text_where_json_was_asked_for_cannot_be_read(text: str) -> None:
    with pytest.raises(AnswerError):
        parse_statshares_json(text)


@pytest.mark.parametrize("text", ["[]", "{}", "5", "null", '[[], 3, {"share_name": 7}]'])
def test_json_of_another_shape_holds_no_share(text: str) -> None:
    assert () == parse_statshares_json(text)


def test_no_share_at_all_is_an_empty_answer() -> None:
    assert () == parse_statshares("")
