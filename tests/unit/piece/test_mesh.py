"""Meshes are closed, face outward and hold the volume of the part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from math import pi, sin

import numpy as np
import pytest

from fitwright.piece import Piece
from fitwright.piece.mesh import SIDES, Mesh, meshes

Built = Callable[[str], Piece]


def volume(mesh: Mesh) -> float:
    """Signed volume of a closed mesh [mm3]; positive when its faces are wound outward (divergence theorem)."""
    a, b, c = (mesh.vertices[mesh.faces[:, k]] for k in range(3))
    return float((a * np.cross(b, c)).sum() / 6)


def is_closed(mesh: Mesh) -> bool:
    """Every side of every triangle is walked once each way."""
    walked = Counter((int(a), int(b)) for face in mesh.faces for a, b in zip(face, np.roll(face, -1), strict=True))
    return all(count == 1 and walked[b, a] == 1 for (a, b), count in walked.items())


def test_bodies_of_all_kinds(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm, ledge: angle 30 x 30 x 3, post: square tube 40 x 40 x 2, ply: plywood 18 birch}
parts:
  arm: {stock: tube, path: [[0, 0, 0], [0, 0, 300], [200, 0, 300]], radius: 60, ends: free, mirror: {x: -50}}
  ledge: {stock: ledge, path: [[0, 500, 200], [300, 500, 200]], legs: [back, up], ends: free, mirror: {y: 700}}
  post: {stock: post, path: [[600, 0, 0], [600, 0, 500]], ends: {finish: free}}
  loop: {stock: tube, path: [[0, 0, 900], [300, 0, 900], [300, 300, 900], [0, 300, 900]], radius: 60, closed: true}
  top: {sheet: ply, from: [400, 400, 600], to: [600, 600, 600]}
  caster: {caster: {wheel: 75, width: 25, height: 100, lead: 30}, at: [800, 800, 100]}
  foot: {foot: {height: 20, diameter: 30}, at: [900, 900, 20]}
  hook: {fitting: {size_x: 10, size_y: 20, size_z: 30, label: hook}, at: [0, 0, 1200]}
  screw: {screw: 4 x 40, count: 10}
""")
    made = meshes(piece)
    assert Counter(mesh.kind for mesh in made) == {"member": 6, "panel": 1, "hardware": 4}
    assert all(is_closed(mesh) for mesh in made)
    assert {mesh.mark for mesh in made} <= {mark.mark for mark in piece.marks}
    by_name = {mesh.name: volume(mesh) for mesh in made if mesh.kind == "member"}
    sides = SIDES * 12.5**2 / 2 * sin(2 * pi / SIDES)
    arm = 240 + 140 + 30 * pi
    assert by_name["arm 1"] == pytest.approx(sides * arm, rel=2e-3)
    assert by_name["arm 2"] == pytest.approx(by_name["arm 1"])
    assert by_name["loop"] == pytest.approx(sides * (4 * 180 + 120 * pi), rel=2e-3)
    ledge = piece.members[2].stock.section
    assert by_name["ledge 1"] == pytest.approx(ledge.area * 300, rel=2e-3)
    assert by_name["ledge 2"] == pytest.approx(by_name["ledge 1"])
    assert volume(next(mesh for mesh in made if mesh.kind == "panel")) == pytest.approx(
        200 * 200 * piece.panels[0].boards[0].thickness
    )


def test_cut_ends_lie_on_their_cuts(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm, post: round tube 40 x 2 mm}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 600]], ends: {finish: free}}
  rail: {stock: tube, path: [[0, 0, 300], [400, 0, 300]], ends: [auto, free]}
  leg: {stock: tube, path: [[500, 0, 0], [400, 100, 400]], ends: {finish: free}}
""")
    rail, leg = (next(mesh for mesh in meshes(piece) if mesh.name == name) for name in ("rail", "leg"))
    start = rail.vertices[:SIDES]
    assert np.hypot(start[:, 0], start[:, 1]) == pytest.approx(np.full(SIDES, 20.0))
    assert leg.vertices[:SIDES, 2] == pytest.approx(np.zeros(SIDES), abs=1e-9)
