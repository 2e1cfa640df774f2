"""What a pool of disks streams: as measured, or else from its drives and layout."""

from __future__ import annotations

from netaudit.model.plan import Layout, Pool

PARITY_DRIVES: dict[Layout, int] = {"single-parity": 1, "double-parity": 2, "triple-parity": 3}
"""Drives' worth of parity in each group."""


def pool_read_bit_per_s(pool: Pool) -> int | None:
    """Large sequential reads from the pool [bit/s]; None if the plan does not say enough."""
    if pool.measured_read_bit_per_s is not None:
        return pool.measured_read_bit_per_s
    drives = streaming_drives(pool)
    return None if drives is None or pool.read_bit_per_s is None else drives * pool.read_bit_per_s


def pool_write_bit_per_s(pool: Pool) -> int | None:
    """Large sequential writes to the pool [bit/s]; None if the plan does not say enough.

    A mirror writes everything twice, so it counts as half its drives.
    """
    if pool.measured_write_bit_per_s is not None:
        return pool.measured_write_bit_per_s
    drives = streaming_drives(pool)
    if drives is None or pool.write_bit_per_s is None:
        return None
    copies = 2 if pool.layout == "mirror" else 1
    return drives * pool.write_bit_per_s // copies


def streaming_drives(pool: Pool) -> int | None:
    """Drives that add to a stream: all but the spares and the parity of each group.

    None if the plan does not say enough, or if no drive would be left.
    """
    if pool.drives is None or pool.layout is None:
        return None
    drives = pool.drives - pool.spares - PARITY_DRIVES.get(pool.layout, 0) * pool.groups
    return drives if drives > 0 else None
