"""The plan of the lab's room: what the station was meant to have."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from room import (
    EDIT_AIR,
    EDIT_AIR_FLAT,
    EDIT_SPARE,
    EDIT_SPARE_FLAT,
    EDIT_WIRE,
    STORE_FAST,
    STORE_SLOW,
    STORE_SLOW_FLAT,
)

PLAN = """\
netaudit: 1
name: Boathouse lab
networks:
  media:  {{subnet: [{media}], mtu: {mtu}, purpose: storage}}
  office: {{subnet: 192.168.44.0/24, gateway: 192.168.44.1}}
devices:
  edit:
    role: station
    system: linux
    wants: {wants}
    ports:
      wire:  {{connector: rj45, rates: {rates}, network: media, address: [{wire}], mtu: {mtu}, interface: en5}}
      air:   {{connector: radio, rates: 300M, network: {air_network}, address: {air}, interface: wlan0}}
      spare: {{connector: rj45, rates: up to 1G, network: {air_network}, address: {spare}, interface: en6}}
  sw:
    role: switch
    ports: {{1-8: {{connector: rj45, rates: up to 10G}}}}
  ap:
    role: access-point
    ports:
      lan:   {{connector: rj45, rates: up to 1G, network: {air_network}}}
      radio: {{connector: radio, rates: 300M, network: {air_network}}}
  store:
    role: storage
    ports:
      fast: {{connector: rj45, rates: up to 10G, network: media, address: [{fast}], mtu: {mtu}}}
      slow: {{connector: rj45, rates: up to 1G, network: {slow_network}, address: {slow}{slow_keys}}}
cables:
  C01: {{from: edit/wire, to: sw/1, category: 6A, length: 3 m}}
  C02: {{from: edit/spare, to: sw/2, category: 6A, length: 3 m}}
  C03: {{from: ap/lan, to: sw/3, category: 6A, length: 3 m}}
  C04: {{from: store/fast, to: sw/4, category: 6A, length: 3 m}}
  C05: {{from: store/slow, to: sw/5, category: 6A, length: 3 m}}
"""


class RoomPlan(NamedTuple):
    """What a plan of the room may say otherwise."""

    media: Sequence[str] = ("10.44.20.0/24",)
    wire: Sequence[str] = (EDIT_WIRE,)
    fast: Sequence[str] = (STORE_FAST,)
    air: str = EDIT_AIR
    spare: str = EDIT_SPARE
    air_network: str = "office"
    slow: str = STORE_SLOW
    slow_network: str = "office"
    slow_keys: str = ""
    mtu: int = 9000
    rates: str = "up to 10G"
    wants: str = "10G"

    @property
    def text(self) -> str:
        """The plan as people write it."""
        lists = {name: ", ".join(getattr(self, name)) for name in ("media", "wire", "fast")}
        return PLAN.format(**{**self._asdict(), **lists})


FLAT_SEAT = RoomPlan(air=EDIT_AIR_FLAT, spare=EDIT_SPARE_FLAT, air_network="media")
"""Every port of the station stands in the storage's subnet."""
FLAT = FLAT_SEAT._replace(slow=STORE_SLOW_FLAT, slow_network="media")
"""The storage's slow port as well."""
