"""What modules and ports draw, and what cages give."""

import pytest

from netaudit.standards.phys import phys
from netaudit.standards.power import module_power, powers


def test_levels_of_sfp_plus_cages() -> None:
    """Documentation/devicetree/bindings/net/sff,sfp.yaml, kernel.org: 1.0, 1.5 and 2.0 W."""
    assert [1.0, 1.5, 2.0] == [row.most_w for row in powers() if row.kind == "level" and row.form == "sfp+"]


def test_classes_of_qsfp_cages() -> None:
    """qsfp.c of ethtool, lines 213 to 247: classes 1 to 7."""
    classes = [row.most_w for row in powers() if row.kind == "level" and row.form == "qsfp"]
    assert [1.5, 2.0, 2.5, 3.5, 4.0, 4.5, 5.0] == classes


@pytest.mark.parametrize(
    ("form", "phy", "most_w"),
    [
        # ascentcomtec.com, solution pages 432 and 435; whandar.ru
        ("qsfp28", "100GBASE-LR1", 4.5),
        ("qsfp28", "100GBASE-DR", 4.0),
        ("qsfp28", "100GBASE-LR4", 4.0),
    ],
)
def test_what_a_module_draws(form: str, phy: str, most_w: float) -> None:
    row = module_power(form, phy)
    assert row is not None
    assert most_w == row.most_w


def test_a_10gbase_t_module_draws_more_than_any_sfp_plus_cage_gives() -> None:
    """A switch maker's transceiver guide and the NetFPGA sheet ES-T5-R.1: 2.5 W at 30 m, 3 W the most printed."""
    row = module_power("sfp+", "10GBASE-T")
    assert row is not None
    assert (2.5, 3.0) == (row.typical_w, row.most_w)
    assert row.most_w > max(level.most_w for level in powers() if level.kind == "level" and level.form == "sfp+")


def test_a_module_without_a_published_figure_has_none() -> None:
    assert module_power("sfp+", "25GBASE-SR") is None
    assert module_power("sfp", "1000BASE-SX") is None


def test_every_module_but_direct_attach_and_40_km_optics_is_a_known_physical_layer() -> None:
    strangers = {row.name for row in powers() if row.kind == "module"} - phys().keys()
    assert strangers <= {"passive twinax", "100GBASE-ER4"}


def test_what_is_usual_never_exceeds_what_to_plan_with() -> None:
    assert all(row.typical_w is None or row.typical_w < row.most_w for row in powers())


def test_smaller_chips_draw_less() -> None:
    """EE Times, 2012: about 10 W at 130 nm, under 4 W at 40 nm, under 2.5 W at 28 nm."""
    by_process = {row.process_nm: row.most_w for row in powers() if row.kind == "port"}
    assert (10, 4, 2.5) == (by_process[130], by_process[40], by_process[28])
    assert sorted(by_process.values(), reverse=True) == [by_process[one] for one in sorted(by_process, reverse=True)]


def test_the_remembered_figures_are_told_so() -> None:
    remembered = {(row.name, row.process_nm) for row in powers() if not row.source.may_fail}
    assert remembered == {("passive twinax", None), ("10GBASE-T", 65)}
