"""Nothing of Windows runs here: the script is held against PowerShell's documented ways, its answers are written here.

Identifiers and numbers of errors are those of PowerShell's CIM cmdlets (`Windows System Error N,Cmdlet`,
`CmdletizationQuery_NotFound…,Cmdlet`), of winerror.h and of wbemcli.h.
"""

from __future__ import annotations

import base64
import re
from ipaddress import ip_address

import pytest
import tree_sitter
import tree_sitter_powershell
from windowsroom import capture, spoken

from netaudit.errors import AnswerError, MachineError, PrivilegeError
from netaudit.machine.parse.windows.script import (
    Query,
    Refusal,
    answered,
    answered_or_empty,
    decoded,
    encoded,
    refusal,
    script_for,
)
from netaudit.machine.windows import queries

QUERIES = [each for each in vars(queries).values() if isinstance(each, Query)]
SCRIPT = script_for(QUERIES)


def test_each_question_fails_on_its_own() -> None:
    assert len(QUERIES) == SCRIPT.count("try {") == SCRIPT.count("catch {")


def test_every_question_names_the_properties_that_it_wants() -> None:
    assert len(QUERIES) == SCRIPT.count("Select-Object -Property @('")


def test_every_cmdlet_is_told_to_stop_since_a_module_does_not_see_the_callers_preference() -> None:
    cmdlets = re.findall(r"@\((Get-\w+[^|]*)", SCRIPT)

    assert len(QUERIES) == len(cmdlets)
    assert all(cmdlet.endswith("-ErrorAction Stop ") for cmdlet in cmdlets)


def test_only_cmdlets_that_read_are_ever_called() -> None:
    verbs = set(
        re.findall(r"\b([A-Z][a-z]+)-[A-Z]\w+", SCRIPT + script_for([queries.route_to(ip_address("10.44.20.10"))]))
    )

    assert {"Get", "Find", "Select", "Convert"} >= {verb.replace("ConvertTo", "Convert") for verb in verbs}


def test_arrays_are_joined_since_version_5_1_wraps_them() -> None:
    assert "@{ n = 'RegistryValue'; e = { $_.RegistryValue -join ',' } }" in SCRIPT


def test_the_answer_is_plain_letters_whatever_the_code_page() -> None:
    assert SCRIPT.endswith("[Console]::Out.Write([Convert]::ToBase64String([Text.Encoding]::UTF8.GetBytes($json)))")


def test_a_script_is_encoded_as_utf_16_low_octet_first() -> None:
    """Documentation of powershell.exe, -EncodedCommand: `[Convert]::ToBase64String([Text.Encoding]::Unicode…)`."""
    assert "ZABpAHIA" == encoded("dir")


def test_all_questions_together_fit_on_a_command_line() -> None:
    """CreateProcessW, Windows documentation: at most 32,767 characters."""
    assert len(encoded(SCRIPT)) < 32_000


def test_a_hostile_zone_of_an_address_never_reaches_the_script() -> None:
    asked = [queries.route_to(ip_address(address)).command for address in ("fe80::10%1'; calc; '", "fe80::10%7")]

    assert [f"Find-NetRoute -RemoteIPAddress '{plain}'" for plain in ("fe80::10", "fe80::10%7")] == asked


def test_the_script_is_powershell_to_a_grammar_of_it() -> None:
    """tree-sitter-powershell, a grammar apart from this project, finds no error in it."""
    parser = tree_sitter.Parser(tree_sitter.Language(tree_sitter_powershell.language()))

    assert not parser.parse(SCRIPT.encode()).root_node.has_error
    assert parser.parse(SCRIPT.replace("}", "", 1).encode()).root_node.has_error


def test_an_answer_comes_out_as_it_went_in_whatever_its_language() -> None:
    answers = {"adapters": {"rows": [{"Name": "이더넷 ü"}]}}

    assert answers == decoded(spoken(answers))
    assert answers == decoded("\ufeff" + spoken(answers) + "\r\n")
    assert answers == decoded(base64.b64encode(b"\xef\xbb\xbf" + base64.b64decode(spoken(answers))).decode())


@pytest.mark.parametrize(
    "stdout", ["", "\ufeff\r\n", "Zugriff verweigert", "AAA", "gICA", spoken([1]), spoken("text"), spoken(None)]
)
def test_what_is_no_answer_raises_an_answer_error(stdout: str) -> None:
    with pytest.raises(AnswerError):
        decoded(stdout)


def answer(identifier: str, hresult: str = "-2146233088") -> dict[str, object]:
    return {"x": {"id": identifier, "hresult": hresult}}


@pytest.mark.parametrize(
    "identifier",
    [
        "CmdletizationQuery_NotFound_DestinationPrefix,Get-NetRoute",
        "CmdletizationQuery_NotFound,Get-NetAdapterHardwareInfo",
    ],
)
def test_nothing_matched_is_an_empty_answer(identifier: str) -> None:
    assert () == answered(answer(identifier), "x")


@pytest.mark.parametrize(
    ("identifier", "hresult"),
    [
        ("Windows System Error 5,Get-SmbConnection", "-2146233088"),
        ("HRESULT 0x80041003,Get-SmbMultichannelConnection", "-2147217405"),
        ("Something,Else", "-2147024891"),
    ],
)
def test_a_refusal_for_want_of_elevation_names_the_elevated_prompt(identifier: str, hresult: str) -> None:
    """-2147024891 is 0x80070005, access denied; -2147217405 is 0x80041003, refused by the management service."""
    with pytest.raises(PrivilegeError, match="Run as administrator"):
        answered(answer(identifier, hresult), "x")


def test_error_5_is_not_taken_for_error_50_and_the_like() -> None:
    assert Refusal("Windows System Error 50,Get-X", 50) == refusal(answer("Windows System Error 50,Get-X"), "x")
    with pytest.raises(AnswerError):
        answered(answer("Windows System Error 50,Get-X"), "x")


def test_a_cmdlet_that_is_not_there_is_a_machine_that_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match="no cmdlet"):
        answered(capture("client-missing"), "multichannel")


@pytest.mark.parametrize(
    "answers", [{}, {"x": None}, {"x": []}, {"x": {"id": 7, "hresult": {}}}, {"x": {"rows": "text"}}]
)
def test_an_answer_of_the_wrong_shape_raises_an_answer_error(answers: dict[str, object]) -> None:
    with pytest.raises(AnswerError):
        answered(answers, "x")


def test_what_may_be_missing_is_empty_where_it_was_refused() -> None:
    assert () == answered_or_empty(answer("Windows System Error 5,Get-X"), "x")
    assert ({"a": 1},) == answered_or_empty({"x": {"rows": {"a": 1}}}, "x")
