"""What tests of the plan room share: the example plan, and the problems of a text."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.errors import InputError, Problem
from netaudit.plan.load import loads

EXAMPLE = """\
netaudit: 1
name: Boathouse cutting rooms
headroom: 30%                  # of goodput, kept free
regime: iso                    # iso | tia: whose cabling rules judge copper and fibre
ambient: 24 °C                 # air along the cable routes

networks:
  media:  {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}
  office: {subnet: 192.168.44.0/24, gateway: 192.168.44.1, leases: 192.168.44.100-192.168.44.199}

racks:
  bay: {units: 12, depth: 600 mm, room: boat bay}

devices:
  cut-1:
    role: station
    system: macos
    room: loft
    wants: 10G
    edits_from: [vault]
    ports:
      wire: {connector: rj45, rates: up to 10G, bus: thunderbolt 3, network: media, address: 10.44.20.11, mtu: 9000}
      air:  {connector: radio, rates: 1200M, network: office, address: lease}
    plays:
      - {what: four-camera interview, streams: 4, rate: 183.5 Mb/s}
      - {what: master, streams: 1, format: {codec: vc-3, profile: hq, raster: 3840x2160, fps: 25}}
  loft-plate: {role: outlet, room: loft, ports: {1-4: {connector: rj45}}}
  bay-panel:  {role: panel, rack: {name: bay, unit: 10, height: 1}, ports: {1-24: {connector: rj45}}}
  core:
    role: switch
    rack: {name: bay, unit: 8, height: 1}
    watts: 41 W
    ports:
      1-8:  {connector: rj45, rates: up to 10G}
      9-12: {connector: sfp+, rates: [10G, 1G]}
  vault:
    role: storage
    rack: {name: bay, unit: 4, height: 2}
    ports:
      fast: {connector: sfp+, rates: [10G], bus: pcie 3 x4, network: media, address: 10.44.20.10, mtu: 9000}
      slow: {connector: rj45, rates: up to 1G, network: office, address: 192.168.44.10, serves: false}
    pools:
      main: {drives: 5, size: 20 TB, read: 240 MB/s, write: 230 MB/s, layout: single-parity}

cables:
  C01: {from: cut-1/wire, to: loft-plate/1, category: 6A, length: 3 m, cord: 26 AWG}
  W01: {from: loft-plate/1, to: bay-panel/1, category: 6A, length: 38 m, installed: true}
  C02: {from: bay-panel/1, to: core/1, category: 6A, length: 1 m, cord: 26 AWG}
  D01: {from: core/9, to: vault/fast, category: twinax, length: 1 m}

copies:
  - {what: card offload, from: cut-1, to: vault, size: 2 TB, within: 4 h}
"""


@pytest.fixture
def example() -> str:
    """A whole plan: the Boathouse, a few lines for each section."""
    return EXAMPLE


@pytest.fixture
def problems() -> Callable[[str | bytes], tuple[Problem, ...]]:
    """Every problem of a text that is no plan."""

    def told(text: str | bytes) -> tuple[Problem, ...]:
        with pytest.raises(InputError) as caught:
            loads(text, "plan.yaml")
        return caught.value.problems

    return told


@pytest.fixture
def lines(problems: Callable[[str | bytes], tuple[Problem, ...]]) -> Callable[[str | bytes], list[str]]:
    """The same as they are printed."""
    return lambda text: [str(problem) for problem in problems(text)]


@pytest.fixture(scope="session")
def refusal() -> Callable[[Callable[[str], object], str], str]:
    """What a reader of one kind of value says of a text that it refuses."""

    def told(parse: Callable[[str], object], text: str) -> str:
        try:
            parse(text)
        except ValueError as error:
            return str(error)
        pytest.fail(f"{text!r} was let in")

    return told


@pytest.fixture(scope="session")
def marked() -> Callable[[str], tuple[str, str]]:
    """A text without the mark § in it, and the line and column where the mark stood."""

    def unmarked(text: str) -> tuple[str, str]:
        before, _, after = text.partition("§")
        return before + after, f"{before.count(chr(10)) + 1}:{len(before.rpartition(chr(10))[2]) + 1}"

    return unmarked
