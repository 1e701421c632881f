"""The piece as a line picture, for lists, for pages without scripts and for screens without 3-D."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.piece.mesh import Mesh
from fitwright.sheets.drawing.arrangement import picture
from fitwright.sheets.drawing.directions import ISOMETRIC
from fitwright.sheets.drawing.solids import gather

MARGIN = 0.02


def still_picture(meshes: Sequence[Mesh]) -> str:
    """The piece seen from above one corner, hidden edges removed, as SVG whose lines take the page's own colour."""
    if not meshes:
        return '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>'
    seen = picture(gather(meshes), ISOMETRIC)
    left, bottom, right, top = seen.box
    edge = MARGIN * max(right - left, top - bottom)
    width, height = right - left + 2 * edge, top - bottom + 2 * edge
    path = "".join(
        "M" + "L".join(f"{x - left + edge:.1f} {top - y + edge:.1f}" for x, y in stroke.points.tolist())
        for stroke in seen.strokes
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.1f} {height:.1f}">'
        f"<style>path{{stroke:#111}}@media(prefers-color-scheme:dark){{path{{stroke:#eee}}}}</style>"
        f'<path d="{path}" fill="none" stroke-width="1.1" vector-effect="non-scaling-stroke" '
        'stroke-linecap="round" stroke-linejoin="round"/></svg>'
    )
