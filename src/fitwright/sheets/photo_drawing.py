"""The photo with its marks, and with the piece laid over it, as pictures (SVG) of pixels."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from io import BytesIO

import numpy as np
from numpy.typing import NDArray

from fitwright.place.photo.showing import ShownMark

Floats = NDArray[np.float64]

PRINTED_PX = 1100
"""The longer side of a printed photo: 90 mm at 300 dots to the inch."""
QUALITY = 78
DASHES = {"x": "", "y": "9 5", "z": "2.5 4"}
LETTERING = "DejaVu Sans Mono"
HALO = "#ffffff"
INK = {"edge": "#0b3d91", "known": "#7a0019", "measure": "#000000", "piece": "#0b3d91"}


@dataclass(frozen=True)
class Shot:
    """A picture with lines over it: SVG, width and height [px]."""

    svg: str
    width: int
    height: int


def printed(data: bytes) -> bytes:
    """The picture upright, as many pixels as print, as JPEG."""
    from PIL import Image, ImageOps

    with Image.open(BytesIO(data)) as opened:
        opened.draft("RGB", (PRINTED_PX, PRINTED_PX))
        upright = ImageOps.exif_transpose(opened).convert("RGB")
    upright.thumbnail((PRINTED_PX, PRINTED_PX))
    out = BytesIO()
    upright.save(out, "JPEG", quality=QUALITY)
    return out.getvalue()


def marked_shot(marks: Sequence[ShownMark], labels: Mapping[str, str], size: tuple[int, int], jpeg: bytes) -> Shot:
    """The photo with every edge, known length and measure; labels: what is written beside known ones and measures."""
    unit = _unit(size)
    drawn = [_mark(mark, unit) for mark in marks]
    written = [_label(mark, labels[mark.name], unit, size) for mark in marks if mark.kind != "edge"]
    return _shot([*drawn, *written], size, jpeg)


def piece_shot(lines: Iterable[Floats], size: tuple[int, int], jpeg: bytes) -> Shot:
    """The photo, paled, with the piece over it."""
    unit = _unit(size)
    path = "".join(_path(line) for line in lines)
    veil = f'<rect width="{size[0]}" height="{size[1]}" fill="#ffffff" fill-opacity="0.35"/>'
    halo = _stroke(path, HALO, 4.0 * unit, "", 0.6)
    return _shot([veil, halo, _stroke(path, INK["piece"], 1.5 * unit)], size, jpeg)


def _unit(size: tuple[int, int]) -> float:
    """What is 1 on a picture of 1,000 pixels."""
    return max(size) / 1000


def _shot(parts: Iterable[str], size: tuple[int, int], jpeg: bytes) -> Shot:
    width, height = size
    data = b64encode(jpeg).decode()
    picture = f'<image width="{width}" height="{height}" href="data:image/jpeg;base64,{data}"/>'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}">'
    return Shot(f"{head}{picture}{''.join(parts)}</svg>", width, height)


def _mark(mark: ShownMark, unit: float) -> str:
    path, lead = "".join(map(_path, mark.lines)), "".join(map(_path, mark.lead))
    wide = {"edge": 1.6, "known": 3.2, "measure": 2.4}[mark.kind] * unit
    dashes = DASHES.get(mark.along, "") if mark.kind == "edge" else ""
    drawn = _stroke(path, HALO, wide + 2.4 * unit, "", 0.8)
    drawn += _stroke(path, INK[mark.kind], wide, " ".join(f"{float(d) * unit:.1f}" for d in dashes.split()))
    drawn += _stroke(lead, INK[mark.kind], 0.9 * unit, f"{3 * unit:.1f} {3 * unit:.1f}") if lead else ""
    ends = [mark.lines[0][0], mark.lines[0][-1]] if mark.kind != "edge" else list(mark.lines[0])
    return drawn + "".join(_ring(end, mark.kind, unit) for end in ends)


def _ring(at: Floats, kind: str, unit: float) -> str:
    return (
        f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{3.2 * unit:.1f}" fill="{HALO}" '
        f'stroke="{INK[kind]}" stroke-width="{1.4 * unit:.1f}"/>'
    )


def _label(mark: ShownMark, text: str, unit: float, size: tuple[int, int]) -> str:
    """The text in a white box beside the middle of a mark, kept inside the picture."""
    tall = 22 * unit
    wide = (0.62 * len(text) + 0.5) * tall
    u = float(np.clip(mark.at[0] + 8 * unit, 0, size[0] - wide))
    v = float(np.clip(mark.at[1] - tall / 2, 0, size[1] - 1.2 * tall))
    return (
        f'<rect x="{u:.1f}" y="{v:.1f}" width="{wide:.1f}" height="{1.2 * tall:.1f}" rx="{3 * unit:.1f}" fill="{HALO}" '
        f'stroke="{INK[mark.kind]}" stroke-width="{1.2 * unit:.1f}"/>'
        f'<text x="{u + 0.25 * tall:.1f}" y="{v + 0.92 * tall:.1f}" font-family="{LETTERING}" font-weight="bold" '
        f'font-size="{tall:.1f}" fill="#000000">{escape(text)}</text>'
    )


def _stroke(path: str, colour: str, width: float, dashes: str = "", opacity: float = 1.0) -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    seen = f' stroke-opacity="{opacity}"' if opacity < 1 else ""
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width:.2f}" stroke-linecap="round" '
        f'stroke-linejoin="round"{dashed}{seen}/>'
    )


def _path(line: Floats) -> str:
    return "M" + "L".join(f"{u:.1f} {v:.1f}" for u, v in line)


def overlay(lines: Iterable[Floats], size: tuple[int, int]) -> str:
    """The piece alone, to lie over a picture of that size (SVG)."""
    width, height = size
    path, unit = "".join(_path(line) for line in lines), _unit(size)
    drawn = _stroke(path, HALO, 4.0 * unit, "", 0.7) + _stroke(path, INK["piece"], 1.5 * unit)
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">{drawn if path else ""}</svg>'
