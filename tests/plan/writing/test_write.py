"""Writing: a tidy text that reads back as the same plan."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from strategies import plans

from netaudit.model.plan import Plan
from netaudit.plan.load import load, loads
from netaudit.plan.writing.write import write

TOPOLOGIES = sorted((Path(__file__).parents[3] / "topologies").glob("*.yaml"))

TIDY = """\
netaudit: 1
name: Boathouse cutting rooms
headroom: 30%
regime: iso
ambient: 24 °C

networks:
  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}
  office: {subnet: 192.168.44.0/24, gateway: 192.168.44.1, leases: 192.168.44.100-192.168.44.199}

racks:
  bay: {units: 12, depth: 600 mm, room: boat bay}

devices:
  cut-1:
    role: station
    room: loft
    ports:
      wire: {connector: rj45, rates: up to 10G, bus: thunderbolt 3, network: media, address: 10.44.20.11, mtu: 9000}
      air: {connector: radio, rates: 1.2G, network: office, address: lease}
    system: macos
    wants: 10G
    edits_from: [vault]
    plays:
      - {what: four-camera interview, streams: 4, rate: 183.5 Mb/s}
      - {what: master, format: {codec: vc-3, profile: hq, raster: 3840x2160, fps: 25}}
  loft-plate: {role: outlet, room: loft, ports: {1-4: {connector: rj45}}}
  bay-panel: {role: panel, rack: {name: bay, unit: 10}, ports: {1-24: {connector: rj45}}}
  core:
    role: switch
    rack: {name: bay, unit: 8}
    watts: 41 W
    ports:
      1-8: {connector: rj45, rates: up to 10G}
      9-12: {connector: sfp+, rates: [10G, 1G]}
  vault:
    role: storage
    rack: {name: bay, unit: 4, height: 2}
    ports:
      fast: {connector: sfp+, rates: 10G, bus: pcie 3 x4, network: media, address: 10.44.20.10, mtu: 9000}
      slow: {connector: rj45, rates: up to 1G, network: office, address: 192.168.44.10, serves: false}
    pools: {main: {drives: 5, size: 20 TB, read: 240 MB/s, write: 230 MB/s, layout: single-parity}}

cables:
  C01: {from: cut-1/wire, to: loft-plate/1, category: 6A, length: 3 m, cord: 26 AWG}
  W01: {from: loft-plate/1, to: bay-panel/1, category: 6A, length: 38 m, installed: true}
  C02: {from: bay-panel/1, to: core/1, category: 6A, length: 1 m, cord: 26 AWG}
  D01: {from: core/9, to: vault/fast, category: twinax, length: 1 m}

copies:
  - {what: card offload, from: cut-1, to: vault, size: 2 TB, within: 4 h}
"""


def test_the_example_is_written_tidily(example: str) -> None:
    assert TIDY == write(loads(example))


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans())
def test_a_plan_that_is_written_reads_back_as_itself(plan: Plan) -> None:
    assert plan == loads(write(plan))


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans())
def test_writing_again_changes_nothing(plan: Plan) -> None:
    text = write(plan)

    assert text == write(loads(text))


@pytest.mark.parametrize("file", TOPOLOGIES, ids=lambda file: file.stem)
def test_every_example_plan_reads_back_as_itself(file: Path) -> None:
    plan = load(file)

    assert plan == loads(write(plan))


def test_what_is_assumed_is_not_written() -> None:
    assert "netaudit: 1\n" == write(loads("netaudit: 1\n"))
    assert "netaudit: 1\nheadroom: 30%\n" == write(loads("netaudit: 1\nheadroom: 30%\n"))


def test_other_readers_find_booleans_numbers_and_names_as_they_are_meant() -> None:
    text = "netaudit: 1\nname: 'yes'\ndevices: {'true': {role: switch, spanning_tree: true}}\n"
    found = yaml.safe_load(write(loads(text)))

    assert ("yes", True) == (found["name"], found["devices"]["true"]["spanning_tree"])
