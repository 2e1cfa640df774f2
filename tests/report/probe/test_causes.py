"""The likeliest cause in plain words."""

from __future__ import annotations

from observations import COLD_READ, FAR, diagnosed, first_look, observed

from netaudit.citation import OBSERVED
from netaudit.model.diagnosis import Cause
from netaudit.model.finding import Finding, Severity
from netaudit.model.machine_state import Mount
from netaudit.model.observation import Knock
from netaudit.model.place import Place
from netaudit.report.probe.causes import cause_lines, expected_line, other_causes, told_above
from netaudit.report.probe.plain import whole


def struck(rule: str, severity: Severity = "fail") -> Finding:
    return Finding(rule, severity, (Place("interface", "en5"),), f"message of {rule}", f"Cure {rule}.", OBSERVED)


WARM = COLD_READ._replace(cold=False, seconds=0.34)
WRITE = COLD_READ._replace(direction="write", cold=None, seconds=0.4, received_bytes=None)


def test_the_cause_comes_first_then_the_rates_then_what_to_do() -> None:
    diagnosis = diagnosed(findings=(struck("link-full"),), causes=(Cause("link-full", ("one", "two")),))

    assert cause_lines(diagnosis) == (
        "Likeliest cause: message of link-full.",
        "This chain should carry 9.9 Gb/s (1238 MB/s) for one reader, bounded by link core/9 - vault/fast; "
        "the read from the disks ran at 3.3 Gb/s (412 MB/s), 33 % of it.",
        "To do: Cure link-full.",
    )


def test_where_nothing_is_to_blame_only_the_rates_are_told() -> None:
    well = "Nothing is wrong with this road as far as it was looked at."
    more = f"{well} If playback stutters even so, probe a folder on the share with --read while it does."

    assert (expected_line(diagnosed()), well) == cause_lines(diagnosed())
    assert (more,) == cause_lines(diagnosed(observed(timings=(), mount=None), expected_bit_per_s=None))
    mounted = observed(timings=(), mount=Mount("/mnt/media", "cifs", "//vault/media"))
    assert more.replace("a folder on the share", "this folder") == cause_lines(diagnosed(mounted))[-1]


def test_where_something_was_found_or_not_all_was_looked_at_nobody_says_that_all_is_well() -> None:
    noted = diagnosed(findings=(struck("not-the-network", "note"),))
    silent = FAR._replace(knocks={445: Knock("silent")})

    for diagnosis in (noted, diagnosed(first_look()), diagnosed(observed(addresses=(silent,)))):
        assert not [line for line in cause_lines(diagnosis) if line.startswith("Nothing is wrong")]


def test_what_goes_with_the_likeliest_cause_is_not_told_twice_nor_with_a_remedy_of_its_own() -> None:
    lead, follower, other = struck("carrier-lost"), struck("no-answer"), struck("link-full", "warn")
    causes = (Cause("carrier-lost", (lead.message, follower.message)), Cause("link-full", (other.message,)))
    diagnosis = diagnosed(findings=(lead, follower, other), causes=causes)

    assert [", told above", ", goes with the likeliest cause", ""] == [
        told_above(diagnosis, finding) for finding in diagnosis.findings
    ]
    assert "Cure no-answer." not in whole(diagnosis)
    assert 1 == whole(diagnosis).count("message of no-answer")


def test_a_cause_without_a_finding_is_told_by_its_name() -> None:
    diagnosis = diagnosed(observed(timings=()), causes=(Cause("not-the-network", ()),), expected_bit_per_s=None)

    assert ("Likeliest cause: not the network.",) == cause_lines(diagnosis)


def test_the_other_causes_are_numbered_behind_the_first() -> None:
    causes = (Cause("link-full", ()), Cause("storage-stalls", ()), Cause("link-flapping", ()))

    assert (
        "2. storage-stalls: storage stalls",
        "3. link-flapping: message of link-flapping",
    ) == other_causes(diagnosed(findings=(struck("link-flapping", "warn"),), causes=causes))


def test_two_reads_and_a_write_are_told_apart() -> None:
    line = expected_line(diagnosed(observed(timings=(COLD_READ, WARM, WRITE)), expected_by=None))

    assert line == (
        "This chain should carry 9.9 Gb/s (1238 MB/s) for one reader; "
        "the read from the disks ran at 3.3 Gb/s (412 MB/s), 33 % of it; "
        "the read from the storage's memory ran at 9.41 Gb/s (1176 MB/s), 95 % of it; "
        "the write ran at 8 Gb/s (1000 MB/s), 81 % of it."
    )


def test_a_file_that_this_machine_had_in_memory_is_not_held_against_the_chain() -> None:
    cached = COLD_READ._replace(received_bytes=1000, cold=None)
    line = expected_line(diagnosed(observed(timings=(cached,))))

    assert line is not None
    assert line.endswith("; the read ran at 3.3 Gb/s (412 MB/s), in part from this machine's own memory.")


def test_without_an_expected_rate_only_what_was_seen_is_told() -> None:
    assert "The read from the disks ran at 3.3 Gb/s (412 MB/s)." == expected_line(diagnosed(expected_bit_per_s=None))


def test_without_a_timed_file_only_what_is_expected_is_told() -> None:
    nothing_read = COLD_READ._replace(bytes=0)

    assert (
        "This chain should carry 9.9 Gb/s (1238 MB/s) for one reader, bounded by link core/9 - vault/fast."
        == expected_line(diagnosed(observed(timings=(nothing_read,))))
    )


def test_what_a_chain_should_carry_is_no_news_where_nothing_is_served() -> None:
    refused = FAR._replace(knocks={445: Knock("refused"), 2049: Knock("silent")})

    assert None is expected_line(diagnosed(observed(timings=(), addresses=(refused,))))
    assert expected_line(diagnosed(observed(timings=(), addresses=(FAR._replace(knocks={}),)))) is not None
