"""The photo of a job: marks from its file, pixels from the picture beside it."""

from __future__ import annotations

from fitwright.job.marks import Photo
from fitwright.place.photo.looking import looked_up
from fitwright.place.photo.mistakes import MarksError
from fitwright.place.photo.picture import Picture, read_picture
from fitwright.place.photo.solving import Solved, solve


def solve_photo(photo: Photo | None, data: bytes | None) -> tuple[Solved, tuple[str, ...]]:
    """Work out a job's photo, and what was not found in it.

    data: the content of the picture's file; None when it is not at hand, where the marks have to say its size.
    Raises MarksError and PictureError.
    """
    if photo is None:
        raise MarksError("this job has no photo section: mark edges and one known length on a picture")
    return solve_on(photo, None if data is None else read_picture(data, photo.picture or "the picture"))


def solve_on(photo: Photo, picture: Picture | None, before: Solved | None = None) -> tuple[Solved, tuple[str, ...]]:
    """The same with the picture already read; before: the answer before a mark was moved, to begin from.

    Raises MarksError.
    """
    if picture is None:
        return solve(photo, _size(photo), before=before), _not_snapped(photo)
    if photo.size is not None and photo.size != picture.size:
        wide, high = picture.size
        raise MarksError(
            f"{photo.picture} is {wide} x {high} pixels upright, and the marks were made on {photo.size[0]} x "
            f"{photo.size[1]}: use the picture that was marked, or leave size out"
        )
    marks, lost = looked_up(photo, picture)
    return solve(marks, picture.size, picture.focal_35mm, before), lost


def _size(photo: Photo) -> tuple[int, int]:
    if photo.size is None:
        raise MarksError(f"{photo.picture or 'the picture'} is not at hand: put it beside the job, or give its size")
    return photo.size


def _not_snapped(photo: Photo) -> tuple[str, ...]:
    return ("edges were not snapped: the picture is not at hand",) if any(edge.snap for edge in photo.edges) else ()
