"""Modules for twisted pair, against sheets and guides that others print."""

from netaudit.standards.modules import copper_modules


def test_a_10gbase_t_module_reaches_30_m() -> None:
    """Data sheet ES-T5-R.1 (NetFPGA-public, files/6161691): 10GBASE-T over CAT6A, 30 m."""
    module = copper_modules()["10GBASE-T"]
    assert (30, "common practice") == (module.reach_m, module.source.standing)


def test_it_draws_more_than_a_cage_gives() -> None:
    """industrialmonitordirect.com: about 3 W each; SFF-8419 level III as quoted by wavesplitter.jp: up to 2.0 W."""
    module = copper_modules()["10GBASE-T"]
    assert (2.5, 3.0) == (module.power.typical_w, module.power.most_w)
    assert ("level III", 2.0) == (module.cage.name, module.cage.most_w)
    assert ("sfp+", "sfp+") == (module.power.form, module.cage.form)
