"""Run: `python -m builders.old_photo` writes examples/drying-rack/old-rack.jpg and its twin; it takes some minutes."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from builders.old_photo.camera import CAMERA, SIZE
from builders.old_photo.developing import aged, bowed, lighted
from builders.old_photo.room import outside, things
from builders.old_photo.seeing import Eye, seen

ROOT = Path(__file__).parents[2]
PICTURE = ROOT / "examples" / "drying-rack" / "old-rack.jpg"
STARTER = ROOT / "src" / "fitwright" / "job" / "starters" / "old-rack.jpg"


def main(scale: float = 2.0, to: Path = PICTURE, quality: int = 72) -> None:
    """Draw it `scale` times as large, then through the lens."""
    bodies = things()
    wide = np.array(SIZE) * scale * 1.16
    eye = Eye(
        CAMERA.rotation,
        CAMERA.eye,
        CAMERA.focal * scale,
        ((wide[0] - 1) / 2, (wide[1] - 1) / 2),
        (int(wide[0]), int(wide[1])),
    )
    picture = seen([*bodies, outside()], eye)
    light = lighted(picture, bodies, eye)
    drawn = bowed(light, eye, SIZE, CAMERA.centre, CAMERA.barrel, CAMERA.focal)
    aged(drawn).save(to, quality=quality, optimize=True)
    if to == PICTURE:
        STARTER.write_bytes(to.read_bytes())


if __name__ == "__main__":
    main(float(sys.argv[1]) if sys.argv[1:] else 2.0, Path(sys.argv[2]) if sys.argv[2:] else PICTURE)
