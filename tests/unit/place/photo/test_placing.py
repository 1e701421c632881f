from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import Arc, EdgeMark, Length, PlaneMark, Spacing
from fitwright.place.photo.gathering import gathered
from fitwright.place.photo.placing import placed
from tests.unit.place.photo.samples import Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


def test_points_from_exact_rays_are_exact_but_for_size() -> None:
    one = camera()
    clicks = Clicks(one, np.random.default_rng(0))
    photo = box_photo(clicks, BOX, 1)
    angles = np.radians(np.linspace(0, 150, 6))
    arc = [np.array([400 + 200 * np.cos(a), 0, 400 + 200 * np.sin(a)]) for a in angles]
    row = [np.array([700.0, 0, 100 + 120.0 * k]) for k in range(4)]
    brace = [np.array([100.0 + 200 * k, 0, 100 + 300.0 * k]) for k in range(2)]
    more = {f"a{k}": clicks(p) for k, p in enumerate(arc)} | {f"r{k}": clicks(p) for k, p in enumerate(row)}
    more |= {f"b{k}": clicks(p) for k, p in enumerate(brace)}
    photo = replace(
        photo,
        spots={**photo.spots, **more},
        edges=(*photo.edges, EdgeMark("brace", ("b0", "b1"))),
        planes={"front": PlaneMark("y", ("c0", "c1", "r0", "b0"))},
        measures={
            "bend": Arc(tuple(f"a{k}" for k in range(6)), "front"),
            "pitch": Spacing(tuple(f"r{k}" for k in range(4)), "z"),
            "width": Length("c0", "c1"),
        },
    )
    scene = gathered(photo, 1.0)
    rays = one.lens.rays(scene.pixels) @ one.rotation
    rays /= np.linalg.norm(rays, axis=1, keepdims=True)
    slant = (brace[1] - brace[0]) / np.linalg.norm(brace[1] - brace[0])
    found = placed(scene, rays, {"brace": slant})
    width = found[scene.index[scene.at("c1"), 0]] - found[scene.index[scene.at("c0"), 0]]
    assert found[scene.rounds["bend"].radius] / width == pytest.approx(200 / 800, rel=1e-6)
    assert found[scene.rows["pitch"].step] / width == pytest.approx(120 / 800, rel=1e-6)
    for name, true in [*zip(more, [*arc, *row, *brace], strict=True)]:
        seen = found[scene.index[scene.at(name)]] * 800 / width
        assert seen == pytest.approx(true - one.eye, abs=1e-3)
