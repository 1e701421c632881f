"""Small pieces for virtual builds."""

from __future__ import annotations

from functools import cache

from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed, framed
from fitwright.mechanics.variation import Making, Variation, variation
from fitwright.piece import build

RACK = """
job: {name: Small rack, unit: mm}
space:
  opening: {width: [{at: 0, is: 680}, {at: 1000, is: 676}], depth: 480, height: 1500}
  clear: {left: 10, right: 10, back: 5, top: 50}
stock: {tube: round tube 30 x 2, ledge: angle 30 x 30 x 3, slat: board 20 x 95 oak}
parts:
  hoop:
    stock: tube
    outside: [[0, 0, 60], [0, 0, 1100], [600, 0, 1100], [600, 0, 60]]
    radius: 100
    repeat: {y: [0, 400]}
  ledge:
    stock: ledge
    path: [[15, 0, 400], [15, 400, 400]]
    legs: [right, down]
    mirror: {x: 300}
  tie:
    stock: tube
    path: [[15, 0, 800], [15, 400, 800]]
    mirror: {x: 300}
  rail:
    stock: tube
    path: [[15, 200, 800], [585, 200, 800]]
  shelf:
    slats: slat
    from: [30.6, 10, 400]
    to: [569.4, 390, 400]
    along: x
    gap: 10
    removable: front
  box:
    opening: {from: [100, 5, 450], to: [500, 395, 700]}
  caster:
    caster: {label: caster, wheel: 50, width: 20, height: 60, lead: 20, rated: 40 kg, swivel: true}
    at: [15, 15, 60]
    mirror: {x: 300, y: 200}
"""

TABLE = """
job: {name: Low table, unit: mm}
stock: {tube: square tube 30 x 30 x 2}
parts:
  top:
    stock: tube
    outside: [[0, 0, 385], [800, 0, 385], [800, 400, 385], [0, 400, 385]]
    closed: true
    corners: mitred
  leg:
    stock: tube
    path: [[15, 15, 20], [15, 15, 370]]
    mirror: {x: 400, y: 200}
  foot:
    foot: {label: levelling foot M8, height: 20, diameter: 30, thread: M8}
    at: [15, 15, 20]
    mirror: {x: 400, y: 200}
"""


@cache
def job_of(text: str) -> Job:
    return parse_job(text)


@cache
def frame_of(text: str) -> Framed:
    return framed(build(job_of(text)), job_of(text))


@cache
def setting_of(text: str) -> Variation:
    """Made in a shop whose saw has a stop to 1 m."""
    return variation(frame_of(text), job_of(text), making=Making(stop_reach=1000.0))
