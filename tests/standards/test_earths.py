"""Which cables join earths: those with copper in them."""

from netaudit.standards.earths import earth_paths


def test_copper_joins_earths_and_fibre_does_not() -> None:
    """Tech Tip 15 at duke-energy.com: fibre isolates the two buildings."""
    joining = {kind for kind, path in earth_paths().items() if path.joins_earths}
    assert {"twisted pair", "twinax", "active-twinax", "thunderbolt", "usb"} == joining
    assert {"fibre", "active-optical"} == set(earth_paths()) - joining


def test_it_is_advice_and_not_a_limit_that_may_fail_a_plan() -> None:
    assert not any(path.source.may_fail for path in earth_paths().values())
