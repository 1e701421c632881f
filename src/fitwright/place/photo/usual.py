"""What is expected of a camera before any mark is looked at: focal length, centre, bow, each with its spread."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.job.marks import Photo
from fitwright.place.photo.lens import half_diagonal

DIAGONAL_35MM = math.hypot(36, 24)
"""Diagonal of the 35 mm frame [mm], by which an equivalent focal length is defined (CIPA DCG-001, 2005)."""

FOCAL = math.log(32 / DIAGONAL_35MM)
FOCAL_SIGMA = 0.33
"""Common practice: phones see as a lens of 24 to 28 mm does on 35 mm film, compact cameras begin at 28 to 35 mm, old
film cameras have 35 to 50 mm. 32 mm times or by 1.39 (one sigma) holds them: 95 % from 17 to 61 mm."""
EXIF_SIGMA = 0.03
"""Common practice: the focal length in a file is rounded to a whole mm, and grows a little with near focus."""
TOLD_SIGMA = 0.01
"""A focal length from a calibration goes with its own description of the bow; with another it differs by about 1 %."""

CENTRE_SIGMA = 0.03
"""Common practice: the axis of the lens lies within a few per cent of the half diagonal of the middle of a whole
picture; within less for phones, more for cheap and old cameras."""
CROPPED_SIGMA = 0.35
"""A picture that was cropped may have lost up to about half of its half diagonal on one side."""
CUT_OFF = math.log(1.35)
CUT_OFF_SIGMA = 0.2
"""A focal length on 35 mm film is told of the whole picture, whose diagonal was from as long as that of what is left to
twice as long (95 %, common practice): against what is left the focal length is longer by that."""
TOLD_CENTRE_SIGMA = 0.005

BARREL = -0.05
BARREL_SIGMA = 0.1
EXIF_BARREL = -0.01
EXIF_BARREL_SIGMA = 0.04
"""Common practice: compact and old cameras at their wide end draw the corner in by 2 to 5 %, the widest cheap ones by
15 to 20 %; tele lenses push it out a little. Phones and later cameras, which write their focal length into the file,
straighten their pictures to about 1 % at the corner, or leave the 2 to 5 % in."""
TOLD_BARREL_SIGMA = 0.005

USUAL_FROM = "the usual spread of cameras"
CUT_FROM = "the lens told, of the picture before it was cropped"
LOOSE = (USUAL_FROM, CUT_FROM)
"""Where a focal length comes from that leaves it open."""

CLICK = 1.0
LARGE_PICTURE = 1600
"""Common practice: a click is right within a pixel (one sigma) on a picture as large as the screen, and in proportion
on a larger one."""


@dataclass(frozen=True)
class Expected:
    """What a camera is expected to be: focal length, centre and barrel, with spreads.

    log_focal: natural logarithm of the focal length [px]. centre: [px]. All sigmas are one standard deviation,
    that of the centre in px and the same in both directions.
    """

    log_focal: float
    log_focal_sigma: float
    centre: tuple[float, float]
    centre_sigma: float
    barrel: float
    barrel_sigma: float
    focal_from: str


def expected(photo: Photo, width: int, height: int, exif_35mm: float | None = None) -> Expected:
    """What is known of the camera beforehand.

    exif_35mm: focal length on 35 mm film with the same view [mm], from the picture's own data.
    """
    focal, sigma, source = _focal(photo, width, height, exif_35mm)
    centre = photo.lens.centre or ((width - 1) / 2, (height - 1) / 2)
    spread = TOLD_CENTRE_SIGMA if photo.lens.centre else CROPPED_SIGMA if photo.cropped else CENTRE_SIGMA
    barrel, barrel_sigma = _bow(photo, exif_35mm)
    return Expected(
        log_focal=math.log(focal),
        log_focal_sigma=sigma,
        centre=centre,
        centre_sigma=spread * half_diagonal(width, height),
        barrel=barrel,
        barrel_sigma=barrel_sigma,
        focal_from=source,
    )


def usual_click(width: int, height: int) -> float:
    """Spread of a click [px] where the maker says none."""
    return CLICK * max(1.0, max(width, height) / LARGE_PICTURE)


def _bow(photo: Photo, exif_35mm: float | None) -> tuple[float, float]:
    if photo.lens.barrel is not None:
        return photo.lens.barrel, TOLD_BARREL_SIGMA
    return (EXIF_BARREL, EXIF_BARREL_SIGMA) if exif_35mm else (BARREL, BARREL_SIGMA)


def _focal(photo: Photo, width: int, height: int, exif_35mm: float | None) -> tuple[float, float, str]:
    diagonal = 2 * half_diagonal(width, height)
    if photo.lens.focal:
        return photo.lens.focal, TOLD_SIGMA, "told"
    if photo.lens.focal_35mm and photo.cropped:
        whole = photo.lens.focal_35mm / DIAGONAL_35MM * diagonal
        return whole * math.exp(CUT_OFF), math.hypot(CUT_OFF_SIGMA, EXIF_SIGMA), CUT_FROM
    if photo.lens.focal_35mm:
        return photo.lens.focal_35mm / DIAGONAL_35MM * diagonal, EXIF_SIGMA, "told for 35 mm film"
    if exif_35mm and not photo.cropped:
        return exif_35mm / DIAGONAL_35MM * diagonal, EXIF_SIGMA, "the picture's own data"
    return math.exp(FOCAL) * diagonal, FOCAL_SIGMA, USUAL_FROM
