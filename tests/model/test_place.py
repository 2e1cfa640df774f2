"""Places as people write them."""

from __future__ import annotations

from netaudit.model.place import (
    PortRef,
    bus_place,
    cable_place,
    copy_places,
    link_place,
    path_place,
    pool_place,
    port_place,
)  # fmt: skip


def test_places_are_written_with_their_kind() -> None:
    core, vault = PortRef("core", "1/0/3"), PortRef("vault", "fast")

    assert [
        "cable W01", "port core/1/0/3", "link core/1/0/3 - vault/fast", "path cut-1 > vault", "bus vault/fast", "pool vault/main",
    ] == [
        str(place)
        for place in (
            cable_place("W01"), port_place(core), link_place(core, vault), path_place("cut-1", "vault"), bus_place(vault),
            pool_place("vault", "main"),
        )
    ]  # fmt: skip


def test_copies_of_one_name_are_told_apart_in_file_order() -> None:
    assert ["copy offload", "copy backup", "copy offload #2", "copy offload #3"] == [
        str(place) for place in copy_places(("offload", "backup", "offload", "offload"))
    ]
