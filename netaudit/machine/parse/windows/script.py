"""One PowerShell call for several questions: the script that asks them, and its answer taken apart again.

The answer is one JSON object in base64, so that no code page, byte order mark or language can touch it. What went wrong
is told by its identifier and number, never by its text, which is translated.
"""

from __future__ import annotations

import base64
import binascii
import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from netaudit.errors import AnswerError, MachineError, PrivilegeError
from netaudit.machine.parse.windows.json_shape import Row, parsed, rows, text

ELEVATED = "an elevated prompt: Run as administrator"
ACCESS_DENIED = 5
"""Windows error of a question that only an administrator may ask (winerror.h)."""

_HEAD = """\
$ErrorActionPreference = 'Stop'; $ProgressPreference = 'SilentlyContinue'; $WarningPreference = 'SilentlyContinue'
[Threading.Thread]::CurrentThread.CurrentCulture = [cultureinfo]::InvariantCulture
$answers = @{}"""
_QUESTION = """\
try {{ $answers['{name}'] = @{{ rows = @({pipeline}) }} }}
catch {{ $answers['{name}'] = @{{ id = [string]$_.FullyQualifiedErrorId; hresult = [string]$_.Exception.HResult }} }}"""
_TAIL = """\
$json = ConvertTo-Json -Compress -Depth 4 -InputObject $answers
[Console]::Out.Write([Convert]::ToBase64String([Text.Encoding]::UTF8.GetBytes($json)))"""

_SYSTEM_ERROR = re.compile(r"Windows System Error ([0-9]{1,9})\b")
_WIN32 = 0x80070000
"""HRESULT of a Windows error, its number in the lower half."""
_WMI_ACCESS_DENIED = 0x80041003
"""HRESULT of the management service that refuses (WBEM_E_ACCESS_DENIED in wbemcli.h)."""


class Query(NamedTuple):
    """A question to PowerShell."""

    name: str
    """What its answer is called: letters only."""
    command: str
    """The cmdlet with its arguments; never a word of a stranger."""
    properties: tuple[str, ...]
    """The properties that are wanted; all of a CIM object takes minutes."""
    lists: tuple[str, ...] = ()
    """Properties that are arrays: joined by commas, which no version of PowerShell wraps."""


class Refusal(NamedTuple):
    """A question that PowerShell could not answer."""

    id: str
    """FullyQualifiedErrorId: never translated."""
    code: int | None
    """The Windows error behind it."""


def script_for(queries: Iterable[Query]) -> str:
    """The script that asks each question on its own, so that one that fails leaves the others their answers.

    The cmdlets are functions of modules, which do not see a caller's preferences: each is told to stop at an error.
    """
    asked = (_QUESTION.format(name=query.name, pipeline=_pipeline(query)) for query in queries)
    return "\n".join((_HEAD, *asked, _TAIL))


def encoded(script: str) -> str:
    """A script as `-EncodedCommand` takes it: base64 of UTF-16, low octet first."""
    return base64.b64encode(script.encode("utf-16-le")).decode()


def decoded(stdout: str) -> Mapping[str, object]:
    """The answers by the names of their questions; raises AnswerError where it is no answer of such a script."""
    plain = stdout.lstrip("\ufeff").strip()
    if not plain:
        raise AnswerError("PowerShell ended without an answer")
    try:
        inner = base64.b64decode(plain, validate=True).decode("utf-8-sig")
    except (binascii.Error, ValueError) as error:
        raise AnswerError("PowerShell answered in a form that cannot be read") from error
    value = parsed(inner)
    if not isinstance(value, Mapping):
        raise AnswerError("PowerShell answered in a form that cannot be read")
    return value


def refusal(answers: Mapping[str, object], name: str) -> Refusal | None:
    """Why a question was not answered; None where it was."""
    answer = _answer(answers, name)
    identifier = text(answer, "id")
    return None if "rows" in answer else Refusal(identifier or "", _code(identifier or "", text(answer, "hresult")))


def answered(answers: Mapping[str, object], name: str) -> tuple[Row, ...]:
    """The objects that a question was answered with; none where nothing matched.

    Raises PrivilegeError where only an administrator may ask, MachineError where this Windows has no such cmdlet,
    AnswerError where anything else went wrong.
    """
    refused = refusal(answers, name)
    if refused is None:
        return rows(_answer(answers, name)["rows"])
    if refused.id.startswith("CmdletizationQuery_NotFound"):
        return ()
    if refused.code == ACCESS_DENIED:
        raise PrivilegeError(ELEVATED)
    if refused.id.startswith("CommandNotFoundException"):
        raise MachineError(f"this Windows has no cmdlet to ask for {name}")
    raise AnswerError(f"PowerShell could not tell {name}: {refused.id or 'no reason given'}")


def answered_or_empty(answers: Mapping[str, object], name: str) -> tuple[Row, ...]:
    """The same for what may be missing beside another answer: empty where it was refused."""
    try:
        return answered(answers, name)
    except MachineError:
        return ()


def _pipeline(query: Query) -> str:
    plain = (f"'{name}'" for name in query.properties)
    joined = (f"@{{ n = '{name}'; e = {{ $_.{name} -join ',' }} }}" for name in query.lists)
    return f"{query.command} -ErrorAction Stop | Select-Object -Property @({', '.join((*plain, *joined))})"


def _answer(answers: Mapping[str, object], name: str) -> Row:
    answer = answers.get(name)
    if not isinstance(answer, Mapping):
        raise AnswerError(f"PowerShell left out the answer for {name}")
    return answer


def _code(identifier: str, hresult: str | None) -> int | None:
    """The Windows error that an identifier names, or that an HRESULT carries; it is written with a sign."""
    found = _SYSTEM_ERROR.match(identifier)
    if found is not None:
        return int(found[1])
    if hresult is None or not re.fullmatch(r"-?[0-9]{1,10}", hresult):
        return None
    unsigned = int(hresult) & 0xFFFFFFFF
    if unsigned == _WMI_ACCESS_DENIED:
        return ACCESS_DENIED
    return unsigned - _WIN32 if unsigned & 0xFFFF0000 == _WIN32 else None
