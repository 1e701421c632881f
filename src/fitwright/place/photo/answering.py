"""All that a job's photo says: the solved camera and measures, the dims that follow, or why there is no answer."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fitwright.job.beside import Beside, BesideError
from fitwright.job.model import Job
from fitwright.place.photo.mistakes import MarksError, PictureError
from fitwright.place.photo.of_job import solve_on
from fitwright.place.photo.picture import Picture, read_picture
from fitwright.place.photo.proposal import WishError
from fitwright.place.photo.solving import Solved
from fitwright.place.photo.wishing import PhotoDims, photo_dims
from fitwright.shop import Shop


@dataclass(frozen=True, eq=False)
class PhotoAnswer:
    """What the photo of a job says.

    solved, dims: None where they could not be worked out, which `wrong` then says. not_found: edges that were to be
    snapped and were not found. data: the content of the picture's file, None where it is not at hand.
    """

    solved: Solved | None
    dims: PhotoDims | None
    not_found: tuple[str, ...]
    wrong: str
    data: bytes | None


def photo_answer(job: Job, shop: Shop, beside: Beside | None) -> PhotoAnswer | None:
    """Work out the photo of a job; None where it has none. beside: where its picture is looked for."""
    if job.photo is None:
        return None
    data: bytes | None = None
    try:
        data = beside.read(job.photo.picture) if beside else None
        picture = None if data is None else read_picture(data, job.photo.picture)
    except (PictureError, BesideError) as wrong:
        return PhotoAnswer(None, None, (), str(wrong), data)
    return replace(answer_on(job, shop, picture), data=data)


def answer_on(job: Job, shop: Shop, picture: Picture | None, before: Solved | None = None) -> PhotoAnswer:
    """The same for a job with a photo, with its picture already read.

    before: the answer before a mark was moved, from which the new one comes in some milliseconds.
    """
    assert job.photo is not None, "the photo of a job that has one"
    solved: Solved | None = None
    lost: tuple[str, ...] = ()
    try:
        solved, lost = solve_on(job.photo, picture, before)
        return PhotoAnswer(solved, photo_dims(job, shop, solved), lost, "", None)
    except (MarksError, WishError) as wrong:
        return PhotoAnswer(solved, None, lost, str(wrong), None)


def solved_of(answer: PhotoAnswer | None) -> Solved:
    """The solved photo. Raises MarksError, which says why there is none."""
    if answer is None:
        raise MarksError("this job has no photo section: mark edges and one known length on a picture")
    if answer.solved is None:
        raise MarksError(answer.wrong)
    return answer.solved
