"""What is likely to blame, in plain words: the cause, what was expected beside what was seen, and what to do."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.diagnosis import Cause, Diagnosis
from netaudit.model.finding import Finding
from netaudit.model.observation import Timing
from netaudit.units import both_rates_text, share_text

TEMPERATURES = {True: "from the disks", False: "from the storage's memory", None: ""}
"""Where a file came from, by whether it was read for the first time."""


def cause_lines(diagnosis: Diagnosis) -> tuple[str, ...]:
    """The likeliest cause, expected against seen, and the remedy: a line each; empty where nothing is to blame."""
    rates = [line] if (line := expected_line(diagnosis)) else []
    if not diagnosis.causes:
        return (*rates, *_all_well(diagnosis))
    cause = diagnosis.causes[0]
    finding = finding_of(diagnosis, cause)
    to_do = [] if finding is None else [f"To do: {finding.remedy}"]
    return (f"Likeliest cause: {plain_words(diagnosis, cause)}.", *rates, *to_do)


def _all_well(diagnosis: Diagnosis) -> Iterator[str]:
    """What to do next where nothing is wrong as far as it was looked at."""
    seen = diagnosis.observation
    if not seen.complete or diagnosis.findings or not _serves(diagnosis):
        return
    well = "Nothing is wrong with this road as far as it was looked at"
    if seen.timings:
        yield f"{well}."
    else:
        folder = "a folder on the share" if seen.mount is None else "this folder"
        yield f"{well}. If playback stutters even so, probe {folder} with --read while it does."


def other_causes(diagnosis: Diagnosis) -> tuple[str, ...]:
    """What else may be to blame, the likelier first."""
    return tuple(
        f"{place}. {cause.cause}: {plain_words(diagnosis, cause)}"
        for place, cause in enumerate(diagnosis.causes[1:], 2)
    )


def plain_words(diagnosis: Diagnosis, cause: Cause) -> str:
    """A cause as its finding tells it; by its name alone where no finding stands behind it."""
    finding = finding_of(diagnosis, cause)
    return cause.cause.replace("-", " ") if finding is None else finding.message


def finding_of(diagnosis: Diagnosis, cause: Cause) -> Finding | None:
    """The gravest finding that a cause rests on."""
    return next((finding for finding in diagnosis.findings if finding.rule == cause.cause), None)


def leading(diagnosis: Diagnosis) -> Finding | None:
    """The finding behind the likeliest cause, which stands above all others and is not told twice."""
    return finding_of(diagnosis, diagnosis.causes[0]) if diagnosis.causes else None


def told_above(diagnosis: Diagnosis, finding: Finding) -> str:
    """Where a finding was told already, as an addition to its heading; empty where it stands for itself.

    What goes with the likeliest cause has its own remedy only once that cause is gone: until then it would mislead.
    """
    if finding is leading(diagnosis):
        return ", told above"
    goes_with = diagnosis.causes and finding.message in diagnosis.causes[0].because
    return ", goes with the likeliest cause" if goes_with else ""


def expected_line(diagnosis: Diagnosis) -> str | None:
    """What this chain should carry beside what files ran at; None where neither is known, or nothing is served."""
    runs = "; ".join(_runs(diagnosis))
    expected = diagnosis.expected_bit_per_s
    if expected is None or not (runs or _serves(diagnosis)):
        return f"{runs[0].upper()}{runs[1:]}." if runs else None
    by = f", bounded by {diagnosis.expected_by}" if diagnosis.expected_by else ""
    chain = f"This chain should carry {both_rates_text(expected)} for one reader{by}"
    return f"{chain}; {runs}." if runs else f"{chain}."


def _serves(diagnosis: Diagnosis) -> bool:
    """Whether some service of the storage answers, or nobody has asked yet."""
    outcomes = {knock.outcome for far in diagnosis.observation.addresses for knock in far.knocks.values()}
    return not outcomes or "open" in outcomes


def _runs(diagnosis: Diagnosis) -> Iterator[str]:
    """Each timed file with its rate, and its part of what was expected."""
    for timing in diagnosis.observation.timings:
        rate = timing.rate_bit_per_s
        if rate is None:
            continue
        where = TEMPERATURES[timing.cold] if timing.direction == "read" else ""
        what = f"the {timing.direction}{f' {where}' if where else ''}"
        yield f"{what} ran at {both_rates_text(rate)}{_part(diagnosis, timing, rate)}"


def _part(diagnosis: Diagnosis, timing: Timing, rate_bit_per_s: float) -> str:
    """What part of the expected rate a file ran at; not of one that this machine had in memory itself."""
    if is_local(timing):
        return ", in part from this machine's own memory"
    expected = diagnosis.expected_bit_per_s
    return "" if not expected else f", {share_text(round(rate_bit_per_s / expected, 2))} of it"


def is_local(timing: Timing) -> bool:
    """Whether a file that was read came in part from this machine's own memory: fewer bytes came in than it holds."""
    return timing.direction == "read" and timing.received_bytes is not None and timing.received_bytes < timing.bytes
