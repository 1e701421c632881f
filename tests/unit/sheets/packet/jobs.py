"""Small jobs for the packet's tests, and pages read back from a PDF."""

from __future__ import annotations

import io
import re
from copy import copy
from functools import cache

from fitwright.assess import Assessment, assess
from fitwright.job import parse_job
from fitwright.shop import default_shop

STAND = """
job: {name: Boot stand, client: A rowing club, unit: mm, due: 2027-01-05}
brief: {use: wet boots, cautions: [Keep a hand's breadth from the boiler]}
space:
  opening: {width: [702, 700, 704], depth: 420, height: 2100, lean: {right: 3}}
  clear: {left: 10, right: 10, back: 5}
  neighbours: {boiler: {side: right, height: 1200, depth: 300}}
stock:
  tube: round tube 32 x 2
  slat: board 20 x 95 oak
  batten: board 20 x 45 oak
parts:
  hoop:
    stock: tube
    outside: [[0, 0, 80], [0, 0, 900], [600, 0, 900], [600, 0, 80]]
    radius: 100
    repeat: {y: [0, 350]}
  tie:
    stock: tube
    path: [[16, 0, 300], [16, 350, 300]]
    mirror: {x: 300}
  shelf:
    slats: slat
    from: [40, 10, 316]
    to: [560, 340, 316]
    along: x
    gap: 20
    battens: {stock: batten, count: 2, inset: 60}
    removable: front
  caster:
    caster: {label: swivel caster, wheel: 50, width: 20, height: 80, lead: 20, rated: 40 kg, swivel: true}
    at: [16, 16, 80]
    mass: 0.3 kg
    price: 5.50
    mirror: {x: 300, y: 175}
finish:
  steel: two coats of enamel
  timber: boiled linseed oil
"""

PLAIN = """
job: {name: Rail, unit: inch}
stock: {tube: square tube 1 1/2 x 11 ga}
parts:
  rail: {stock: tube, path: [[0, 0, 0], [30, 0, 0]], ends: free}
"""

BENT = """
job: {name: Bent parts, unit: mm}
stock: {bar: round bar 12, tube: round tube 32 x 2}
parts:
  ring:
    stock: bar
    ring: {centre: [0, 0, 500], radius: 200}
  loop:
    stock: tube
    path: [[0, 500, 0], [600, 500, 0], [600, 900, 0], [0, 900, 0]]
    closed: true
    radius: 100
  hairpin:
    stock: tube
    path: [[1000, 0, 0], [1000, 800, 0], [1400, 800, 0], [1400, 0, 0]]
    radius: 200
    ends: free
  hand:
    stock: tube
    path: [[2000, 0, 0], [2000, 0, 600], [2400, 0, 800], [2400, 400, 900]]
    radius: 100
    ends: free
    mirror: {x: 2600}
"""


def of_text(text: str) -> Assessment:
    """A job assessed in the shipped shop of its unit."""
    job = parse_job(text, "test")
    return assess(job, default_shop(job.style.unit))


@cache
def _assessed(text: str) -> Assessment:
    """A job with what takes longest computed once, for copies that tests may change."""
    assessment = of_text(text)
    _ = assessment.all_findings
    return assessment


def stand() -> Assessment:
    """Bent hoops, ties, a slatted shelf and casters, in an opening."""
    return copy(_assessed(STAND))


def plain() -> Assessment:
    """One straight piece of tube, and nothing known about its place."""
    return copy(_assessed(PLAIN))


def bent() -> Assessment:
    """A ring, a closed loop, half a turn, and a pair of hands bent out of one plane."""
    return copy(_assessed(BENT))


def texts(pdf: bytes) -> list[str]:
    """What each page says, runs of blanks as one."""
    from pypdf import PdfReader

    pages = PdfReader(io.BytesIO(pdf)).pages
    return [re.sub(r"\s+", " ", page.extract_text().replace("\u200b", "").replace("\xa0", " ")) for page in pages]
