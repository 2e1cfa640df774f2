"""The audit: every rule on each of its subjects, counted and gathered into one report."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.calculations.pools import pool_read_bit_per_s
from netaudit.calculations.run_lengths import with_run_lengths
from netaudit.listing import first_few
from netaudit.model.finding import GRAVITY, Finding, NotChecked
from netaudit.model.path import Hop, Path
from netaudit.model.place import Place, device_place
from netaudit.model.plan import Plan, Storage
from netaudit.model.ports import LEAST_MTU
from netaudit.model.report import JudgedPath, Report, Summary, Verdict
from netaudit.network.forwarding import port_mtu
from netaudit.network.paths import pools_read
from netaudit.rules.addresses.packets import taken_for_granted
from netaudit.rules.catalogue import RULES
from netaudit.rules.facts import Facts, build_facts


def audit(plan: Plan) -> Report:
    """Judge a plan by every rule; lengths that it does not give are worked out where the room gives them.

    Returns the report; a bad plan is never an error but a report full of findings.
    """
    plan = with_run_lengths(plan)
    facts = build_facts(plan)
    findings: list[Finding] = []
    not_checked: list[NotChecked] = []
    doubts: list[tuple[Place, ...]] = []
    """Where faults are not certain: a fact is missing, or a limit that would fail something is only remembered."""
    checked = 0
    for rule in RULES:
        for subject in rule.subjects(facts):
            judgement = rule.judge(subject, facts)
            if isinstance(judgement, NotChecked):
                not_checked.append(judgement)
                if rule.severity == "fail":
                    doubts.append(judgement.where)
                continue
            checked += 1
            if judgement is not None:
                findings.append(_located(judgement, plan))
                if judgement.severity != rule.severity:
                    doubts.append(judgement.where[:1])
    findings.sort(key=lambda finding: GRAVITY[finding.severity])
    paths = tuple(_judged(facts.topology.paths, findings, doubts))
    return Report(
        file=plan.file,
        name=plan.name,
        headroom=plan.headroom,
        assumed=(*plan.assumed, *_assumed(facts)),
        summary=summarise(paths, findings, not_checked, checked),
        paths=paths,
        findings=tuple(findings),
        not_checked=tuple(not_checked),
    )


def summarise(
    paths: Iterable[JudgedPath], findings: Iterable[Finding], not_checked: Iterable[NotChecked], checked: int
) -> Summary:
    """The counts and the verdict. A plan without a planned path is incomplete: nothing was proven."""
    severities = [finding.severity for finding in findings]
    planned = [judged.verdict for judged in paths if judged.path.planned]
    verdict: Verdict = "incomplete" if "incomplete" in planned or not planned else "pass"
    return Summary(
        verdict="fail" if "fail" in severities else verdict,
        fail=severities.count("fail"),
        warn=severities.count("warn"),
        note=severities.count("note"),
        not_checked=len({gap.where[0] for gap in not_checked}),
        checked=checked,
    )


def narrowed(report: Report, stations: Iterable[str]) -> Report:
    """The part of a report that touches some stations or their paths; the count of judgements stays the plan's."""
    names = set(stations)
    paths = tuple(judged for judged in report.paths if judged.path.station in names)
    places = {place for judged in paths for place in judged.path.places}

    def touches(where: tuple[Place, ...]) -> bool:
        speaks_of = where[:1] if where[0].kind == "path" else where
        return any(place in places or _owner(place) in names for place in speaks_of)

    findings = tuple(finding for finding in report.findings if touches(finding.where))
    not_checked = tuple(gap for gap in report.not_checked if touches(gap.where))
    return report._replace(
        paths=paths,
        findings=findings,
        not_checked=not_checked,
        summary=summarise(paths, findings, not_checked, report.summary.checked),
    )


def _owner(place: Place) -> str:
    """The device that a place belongs to, where it belongs to one."""
    return place.name.split(" > ")[0] if place.kind == "path" else place.name.split("/")[0]


def _located(finding: Finding, plan: Plan) -> Finding:
    """A finding with the line of its first place; a path is written where its station is."""
    first = finding.where[0]
    written = device_place(first.name.split(" > ")[0]) if first.kind == "path" else first
    position = plan.lines.get(written)
    return finding if position is None else finding._replace(line=position.line)


def _judged(
    paths: Iterable[Path], findings: Iterable[Finding], doubts: Iterable[tuple[Place, ...]]
) -> Iterator[JudgedPath]:
    """Each path with what the findings on it and the doubts about it come to.

    It stays open while something that could fail it is not settled, or its promise is not; what could only earn it a
    warning leaves it good.
    """
    failing = _Spots(finding.where for finding in findings if finding.severity == "fail")
    doubted = _Spots(doubts)
    for path in paths:
        fails = not path.hops or failing.touch(path)
        is_open = path.planned and (path.promised_bit_per_s is None or doubted.touch(path))
        yield JudgedPath(path, "fail" if fails else "incomplete" if is_open else "pass")


class _Spots:
    """Places that judgements speak of.

    One about a path says nothing about others over the same things, one about a rack nothing about the network in it,
    and one that names networks nothing about paths in others.
    """

    def __init__(self, wheres: Iterable[tuple[Place, ...]]) -> None:
        self._in: dict[str | None, set[Place]] = {None: set()}
        self._hops: dict[tuple[int, str | None], bool] = {}
        for where in wheres:
            networks = [place.name for place in where if place.kind == "network"]
            spoken_of = where[:1] if where[0].kind in ("path", "rack") else where
            for network in networks or (None,):
                self._in.setdefault(network, set()).update(spoken_of)

    def touch(self, path: Path) -> bool:
        """Whether any of them is a planned path or on one, or on another one's links."""
        own = path.planned and path.place in self._in[None]
        network = path.network if path.network in self._in else None
        return own or any(self._touches(hop, network) for hop in path.hops)

    def _touches(self, hop: Hop, network: str | None) -> bool:
        key = (id(hop), network)
        if key not in self._hops:
            places = hop.places
            self._hops[key] = any(not self._in[each].isdisjoint(places) for each in (None, network))
        return self._hops[key]


def _assumed(facts: Facts) -> Iterator[str]:
    """What the figures of the paths take for granted."""
    planned = [path for path in facts.planned if path.hops]
    ends = tuple(dict.fromkeys(end for path in planned for end in (path.from_port, path.to_port) if end is not None))
    devices = facts.plan.devices
    ports = {end: devices[end.device].ports[end.port] for end in ends}
    if any(port_mtu(devices[end.device], end.port) is None for end in ends):
        yield f"packets of {LEAST_MTU} octets where a port gives no MTU"
    yield from taken_for_granted(facts)
    wired = [(end, port) for end, port in ports.items() if port.connector != "radio"]
    bare = [end for end, port in wired if port.bus is None]
    if bare:
        yield f"a bus that keeps up behind {first_few(bare)}: not given"
    disks = tuple(dict.fromkeys(name for path in planned for name in _silent_disks(path, facts)))
    if disks:
        yield f"disks that keep up in {first_few(disks)}: how fast they read does not follow from the plan"


def _silent_disks(path: Path, facts: Facts) -> Iterator[str]:
    """The pools at the end of a path whose reading rate does not follow from the plan; the storage if it has none."""
    storage = facts.plan.devices[path.storage]
    if not isinstance(storage, Storage):
        return
    if not storage.pools:
        yield storage.name
    for name in pools_read(facts.station(path), storage):
        if pool_read_bit_per_s(storage.pools[name]) is None:
            yield f"{storage.name}/{name}"
