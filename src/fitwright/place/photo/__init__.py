"""Measuring from one photograph: the camera, lengths with their plus or minus, dims in the old proportions."""

from fitwright.place.photo.doubting import Doubt, doubts
from fitwright.place.photo.helping import Advice, advice
from fitwright.place.photo.mistakes import MarksError, PictureError
from fitwright.place.photo.of_job import solve_photo
from fitwright.place.photo.overlay import laid_over, piece_over_photo, standing
from fitwright.place.photo.picture import Picture, fits_in_memory, read_picture
from fitwright.place.photo.proposal import Proportion, Proposal, Reading, WishError, Wishes, propose
from fitwright.place.photo.readings import readings
from fitwright.place.photo.snapping import Snapped, snapped
from fitwright.place.photo.solving import Measured, Solved, solve

__all__ = [
    "Advice",
    "Doubt",
    "MarksError",
    "Measured",
    "Picture",
    "PictureError",
    "Proportion",
    "Proposal",
    "Reading",
    "Snapped",
    "Solved",
    "WishError",
    "Wishes",
    "advice",
    "doubts",
    "fits_in_memory",
    "laid_over",
    "piece_over_photo",
    "propose",
    "read_picture",
    "readings",
    "snapped",
    "solve",
    "solve_photo",
    "standing",
]
