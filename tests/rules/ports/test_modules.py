"""The rule on modules: every form in every cage, and the rates that a cage runs."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import found, gaps, places
from wiring import G, cage, rates, switch, wired

from netaudit.audit import audit
from netaudit.model.finding import Finding
from netaudit.model.plan import Connector, Port
from netaudit.model.report import Report
from netaudit.rules.ports.modules import MODULE_DOES_NOT_FIT, module_for
from netaudit.standards.cages import cages, form_of
from netaudit.standards.phys import phys

OF_FORM = {
    "sfp": "1000BASE-SX",
    "sfp+": "10GBASE-SR",
    "sfp28": "25GBASE-SR",
    "sfp56": "50GBASE-SR",
    "qsfp+": "40GBASE-SR4",
    "qsfp28": "100GBASE-SR4",
    "cfp": "100GBASE-SR10",
}
"""A module of each form, by the data sheets named in tests/standards/test_cages.py."""


def holding(module: str, connector: Connector | None, *gigabits: float, **others: Port) -> Report:
    """The report on a switch with that module in port 1."""
    port = Port(connector=connector, rates=rates(*gigabits) if gigabits else None, module=module)
    return audit(wired(switch("core", {"1": port, **others})))


def misfits(*args: Any, **others: Port) -> list[Finding]:
    return found(holding(*args, **others), "module-does-not-fit")


@pytest.mark.parametrize(("cage_of", "form"), sorted(cages()))
def test_every_form_is_judged_in_every_cage_as_the_table_has_it(cage_of: Connector, form: str) -> None:
    row, module = cages()[cage_of, form], OF_FORM[form]
    found_there = misfits(module, cage_of, phys()[module].rate_bit_per_s / G)

    if row.works:
        assert [] == found_there
    else:
        (finding,) = found_there
        severity = "fail" if row.source.may_fail else "warn"
        assert (severity, row.source, ["port core/1"]) == (finding.severity, finding.source, places(finding))
        assert finding.message.startswith(f"The {module} module in core/1 is made as {form}, which ")
        assert (None, None) == (finding.measured, finding.limit)


@pytest.mark.parametrize("phy", sorted(phys()))
def test_no_module_is_refused_by_a_cage_of_its_own_form_that_runs_its_rate(phy: str) -> None:
    form = form_of(phy).form
    own = next((each for each, its in cages() if its == form and cages()[each, its].fits == "yes"), None)

    if own is not None:
        assert [] == misfits(phy, own, phys()[phy].rate_bit_per_s / G)


@pytest.mark.parametrize("connector", ["rj45", "lc", "sc", "mpo", "radio", "usb-a", "usb-c", "thunderbolt"])
def test_no_module_goes_into_anything_but_a_cage(connector: Connector) -> None:
    (finding,) = misfits("10GBASE-SR", connector)

    assert ("fail", "plan") == (finding.severity, finding.source.standing)
    assert f"core/1 is {connector}: no module goes into it" == finding.message
    assert "Leave `module` out of core/1, or write the cage that is there as `connector`." == finding.remedy
    assert (None, None) == (finding.measured, finding.limit)


def test_a_module_whose_rate_the_cage_does_not_run_stays_dark() -> None:
    (finding,) = misfits("1000BASE-SX", "sfp+", 25, 10)

    assert (
        "The 1000BASE-SX module in core/1 runs 1 Gb/s (125 MB/s), and the port runs 25 Gb/s (3125 MB/s) and "
        "10 Gb/s (1250 MB/s): it stays dark" == finding.message
    )
    assert ("fail", "plan") == (finding.severity, finding.source.standing)
    assert (None, None) == (finding.measured, finding.limit)
    assert "Use a 10GBASE-SR module in core/1 and at the far end." == finding.remedy
    assert [] == misfits("1000BASE-SX", "sfp+", 10, 1)


def test_rates_decide_even_where_the_connector_is_not_given() -> None:
    assert 1 == len(misfits("25GBASE-SR", None, 10, 1))
    assert [] == misfits("10GBASE-SR", None, 10, 1)
    assert [] == misfits("10GBASE-SR", None)


def test_a_cage_of_unknown_rates_leaves_a_slower_module_open_and_takes_its_own() -> None:
    report = holding("1000BASE-SX", "sfp+")

    (gap,) = gaps(report, "module-does-not-fit")

    assert ["port core/1"] == places(gap)
    assert "Whether the sfp+ cage of core/1 can be set to 1 Gb/s (125 MB/s) is not given" == gap.reason
    assert "write down `rates` of core/1, as its data sheet has them" == gap.decides
    assert [] == found(report, "module-does-not-fit")
    assert [] == gaps(holding("10GBASE-SR", "sfp+"), "module-does-not-fit")
    assert [] == gaps(holding("1000BASE-SX", "sfp+", 10, 1), "module-does-not-fit")
    assert 1 == len(misfits("25GBASE-SR", "sfp+"))


def test_a_port_without_a_module_or_without_anything_else_is_not_asked_about() -> None:
    plan = wired(switch("core", {"1": cage(10), "2": Port(module="10GBASE-SR")}))

    assert 0 == len(list(MODULE_DOES_NOT_FIT.subjects(_facts(plan))))


def _facts(plan: Any) -> Any:
    from netaudit.rules.facts import build_facts

    return build_facts(plan)


def test_ports_that_are_written_together_are_told_together() -> None:
    alike, other = cage(10, 1, module="25GBASE-SR"), cage(10, 1, module="25GBASE-LR")
    report = audit(wired(switch("core", {"1": alike, "2": alike, "3": other}), switch("far", {"1": alike})))

    first, second, third = found(report, "module-does-not-fit")

    assert ["port core/1", "port core/2"] == places(first)
    assert first.message.startswith("The 25GBASE-SR module in core/1 and core/2 is made as sfp28")
    assert (["port core/3"], ["port far/1"]) == (places(second), places(third))


@pytest.mark.parametrize(
    ("module", "connector", "gigabits", "message", "remedy"),
    [
        (
            "25GBASE-SR",
            "sfp+",
            (10, 1),
            "is made as sfp28, which does not work in an sfp+ cage",
            "Use a 10GBASE-SR module in core/1 and at the far end.",
        ),
        (
            "10GBASE-LR",
            "sfp",
            (1,),
            "is made as sfp+, which does not work in an sfp cage",
            "Use a 1000BASE-LX10 module in core/1 and at the far end.",
        ),
        (
            "10GBASE-T",
            "sfp",
            (1,),
            "is made as sfp+, which does not work in an sfp cage",
            "Use a 1000BASE-T module in core/1 and at the far end.",
        ),
        (
            "10GBASE-SR",
            "qsfp28",
            (10,),
            "is made as sfp+, which a qsfp28 cage takes only in an adapter",
            "Put it into an adapter with an sfp+ cage, and write that as `connector`.",
        ),
        (
            "50GBASE-SR",
            "sfp28",
            (50,),
            "is made as sfp56, which fits none of the cages sfp, sfp+, sfp28, qsfp+, qsfp28",
            "Use a port whose cage takes it and runs its rate.",
        ),
        (
            "100GBASE-SR4",
            "qsfp+",
            (40,),
            "is made as qsfp28, which does not work in a qsfp+ cage",
            "Use a 40GBASE-SR4 module in core/1 and at the far end.",
        ),
    ],
)
def test_the_message_names_form_and_cage_and_the_remedy_what_goes_in(
    module: str, connector: Connector, gigabits: tuple[float, ...], message: str, remedy: str
) -> None:
    (finding,) = misfits(module, connector, *gigabits)

    assert f"The {module} module in core/1 {message}" == finding.message
    assert remedy == finding.remedy


def test_a_free_port_that_takes_the_module_comes_first() -> None:
    others = {
        "2": Port(connector="rj45", rates=rates(25)),
        "3": cage(25),
        "4": Port(connector="sfp28", rates=rates(10)),
        "5": Port(connector="sfp28", rates=rates(25)),
    }

    (finding,) = misfits("25GBASE-SR", "sfp+", 10, **others)

    assert (
        "Put it into core/5, which is free and takes it, or use a 10GBASE-SR module in core/1 and at the far end."
        == finding.remedy
    )


def test_a_form_that_is_only_remembered_lowers_the_finding_to_a_warning() -> None:
    (finding,) = misfits("5GBASE-T", "sfp", 5)

    assert ("warn", "memory") == (finding.severity, finding.source.standing)


@pytest.mark.parametrize(
    ("connector", "medium", "gigabits", "module"),
    [
        ("sfp+", "copper", (10, 1), "10GBASE-T"),
        ("sfp+", "copper", (1,), "1000BASE-T"),
        ("sfp28", "copper", (25, 10), "10GBASE-T"),
        ("sfp", "copper", (10, 1), "1000BASE-T"),
        ("qsfp+", "copper", (40, 10), None),
        ("rj45", "copper", (10,), None),
        (None, "copper", (10,), None),
        ("sfp28", "multimode", (25, 10), "25GBASE-SR"),
        ("sfp28", "multimode", (10,), "10GBASE-SR"),
        ("qsfp28", "twinax", (40,), "40GBASE-CR4"),
        ("sfp+", "multimode", (40,), None),
    ],
)
def test_the_fastest_module_that_works_in_a_cage_is_offered(
    connector: Connector | None, medium: str, gigabits: tuple[float, ...], module: str | None
) -> None:
    wanted = [round(each * G) for each in gigabits]

    assert module == module_for(Port(connector=connector), medium, wanted)


def test_without_rates_any_module_that_works_will_do() -> None:
    assert "10GBASE-T" == module_for(Port(connector="sfp+"), "copper", None)
    assert "25GBASE-SR" == module_for(Port(connector="sfp28"), "multimode", None)


def test_the_sources_are_all_that_a_finding_may_cite() -> None:
    sources = set(MODULE_DOES_NOT_FIT.sources())

    assert {row.source for row in cages().values()} < sources
    assert {form_of(phy).source for phy in phys()} < sources
    assert "plan" in {source.standing for source in sources}
