"""A leg of the way as a sequence of pictures for the screen, all in one frame of view, in the page's own colours."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route import Passage
from fitwright.place.route.legs import Leg
from fitwright.place.route.model import Bulk
from fitwright.sheets.way.scene import NO_HANDS, Scene, Shown, Wall, nosings, scene_of

Floats = NDArray[np.float64]

COUNT = 13
HAND = 32.0  # of a hand's mark [mm]
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height:.0f}">'
LOOK = (
    "<style>path{fill:none;stroke:#111;stroke-width:1.5;vector-effect:non-scaling-stroke;stroke-linejoin:round}"
    ".wall{fill:#bbb}.seen,.part{stroke-width:.7}.ghost{stroke-dasharray:6 5}.outline{stroke-width:3}"
    ".hand{fill:#fff;stroke:#111;stroke-width:2;vector-effect:non-scaling-stroke}"
    ".floor,.gap{stroke-width:3}.gap{stroke:#b00020;stroke-width:5}"
    "@media(prefers-color-scheme:dark){path{stroke:#eee}.wall{fill:#555}.gap{stroke:#ff8a80}.hand{fill:#111;stroke:#eee}}</style>"
)


@dataclass(frozen=True)
class Frames:
    """One leg's sequence: SVG of each step, and which is the tightest."""

    svgs: tuple[str, ...]
    spot: int


def frames_of(leg: Leg, passage: Passage, bulk: Bulk, hands: Floats = NO_HANDS, count: int = COUNT) -> Frames | None:
    """The sequence; None where there is no way to show."""
    scene = scene_of(leg, passage, bulk, count, hands=hands)
    if scene is None:
        return None
    around = _around(leg, scene)
    ghosts = "".join(_path([step.outline], scene, "ghost") for step in (scene.steps[0], scene.steps[-1]))
    drawn = tuple(
        around + ghosts + _piece(step, scene, at == scene.spot) + "</svg>" for at, step in enumerate(scene.steps)
    )
    return Frames(drawn, scene.spot)


def _around(leg: Leg, scene: Scene) -> str:
    width, height = scene.window[1] - scene.window[0]
    walls = "".join(_wall(wall, scene) for wall in scene.walls)
    floor = ""
    if scene.view == "side":
        floor = f'<path class="floor" d="{_line(nosings(leg, scene.window), scene)}"/>'
    return HEAD.format(width=width, height=height) + LOOK + walls + floor


def _wall(wall: Wall, scene: Scene) -> str:
    return _path([wall.outline], scene, "wall" if wall.cut else "seen", wall.what)


def _piece(step: Shown, scene: Scene, tightest: bool) -> str:
    parts = _path([part for part in step.parts if len(part) > 2], scene, "part")
    gap = ""
    if tightest and scene.gap is not None:
        gap = f'<path class="gap" d="{_line(scene.gap, scene)}"/>'
    return parts + _path([step.outline], scene, "outline") + "".join(_hand(one, scene) for one in step.hands) + gap


def _hand(place: Floats, scene: Scene) -> str:
    x, y = place[0] - scene.window[0, 0], scene.window[1, 1] - place[1]
    return f'<circle class="hand" cx="{x:.0f}" cy="{y:.0f}" r="{HAND:.0f}"><title>a hand</title></circle>'


def _path(outlines: list[Floats], scene: Scene, kind: str, title: str = "") -> str:
    lines = "".join(_line(outline, scene) + "Z" for outline in outlines)
    told = f"<title>{title}</title>" if title else ""
    return f'<path class="{kind}" d="{lines}">{told}</path>'


def _line(points: Floats, scene: Scene) -> str:
    low, high = scene.window
    places = [f"{x - low[0]:.0f} {high[1] - y:.0f}" for x, y in points.tolist()]
    return "M" + "L".join(places)
