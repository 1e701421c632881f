"""What the photo's page answers."""

from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass
from typing import Any

import numpy as np
from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job.model import Job
from fitwright.place.photo import MarksError, snapped
from fitwright.place.photo.answering import PhotoAnswer, solved_of
from fitwright.place.photo.looking import LEAST_REACH, REACH_CLICKS
from fitwright.place.photo.usual import usual_click
from fitwright.sheets.photo_drawing import overlay
from fitwright.sheets.photo_piece import piece_seen
from fitwright.web.desk import Work
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.pages.photo.darkroom import answer_moved, answer_of, picture_of, shown, stamp_of
from fitwright.web.pages.photo.marking import MOST_SPOTS, place_in
from fitwright.web.pages.photo.told import PhotoTold, photo_told
from fitwright.web.pages.photo.undoing import can_undo
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit


@dataclass(frozen=True)
class Looked:
    """The photo of the job in view: its size [px], whether its picture is there, and what it says."""

    size: tuple[int, int]
    there: bool
    told: PhotoTold


async def photo(visit: Visit) -> Response:
    """The whole page."""
    return visit.html("photo/photo.html", **await asyncio.to_thread(_values, visit))


async def results(visit: Visit) -> Response:
    """The part of the page that follows the marks."""
    return visit.html("photo/results.html", **await asyncio.to_thread(_values, visit))


async def moved(visit: Visit) -> Response:
    """The same with one mark elsewhere, before that is kept."""
    return visit.html("photo/results.html", **await asyncio.to_thread(_moved, visit))


async def picture(visit: Visit) -> Response:
    """The picture, upright."""
    job = photo_job(visit.work())
    assert job.photo is not None
    stamp = stamp_of(visit.job, job.photo.picture)
    tag = f'"{stamp[1]}-{stamp[2]}"' if stamp else ""
    headers = {"etag": tag, "cache-control": "no-cache"}
    if tag and visit.request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    data = await asyncio.to_thread(shown, visit.job, job.photo.picture)
    if data is None:
        raise NotThere(f"{job.photo.picture or 'the picture'} does not lie beside the job")
    return Response(data, media_type="image/jpeg", headers=headers)


async def over(visit: Visit) -> Response:
    """The piece laid over the photo, in its own size or in that of the old piece, as lines alone."""
    svg = await asyncio.to_thread(_over, visit, visit.work(), visit.request.query_params.get("size") == "own")
    return Response(svg, media_type="image/svg+xml", headers={"content-security-policy": PICTURE_POLICY})


async def snapped_to(visit: Visit) -> Response:
    """Each place moved onto the nearest strong edge: two or more are taken as along one edge."""
    found = await asyncio.to_thread(_snapped, visit)
    return Response(json.dumps(found), media_type="application/json")


def photo_job(work: Work) -> Job:
    """The job, which has a photo. Raises what is wrong with the file, NotThere."""
    job = work.right.job
    if job.photo is None:
        raise NotThere("this job has no photo yet")
    return job


def values_of(visit: Visit, work: Work, answer: PhotoAnswer | None = None) -> dict[str, Any]:
    """What the templates show of a state of the job; answer: another than the marks of the file give."""
    values: dict[str, Any] = {
        "work": work,
        "job": work.key,
        "looked": None,
        "reasons": [],
        "size": (0, 0),
        "undo": False,
    }
    values["undo"] = can_undo(visit.job, work.state.revision)
    if work.assessment is None or work.assessment.job.photo is None:
        values["reasons"] = reasons(work.wrong) if work.wrong else []
        return values
    job = work.assessment.job
    assert job.photo is not None
    told_of = answer or answer_of(visit.job, work.revision, job, work.assessment.shop)
    try:
        found = picture_of(visit.job, job.photo.picture)
    except FitwrightError as wrong:
        values["reasons"] = [str(wrong)]
        found = None
    size = found.size if found else job.photo.size or (0, 0)
    return {
        **values,
        "looked": Looked(size, found is not None, photo_told(job, told_of, answer is None)),
        "photo": job.photo,
        "dim_names": [name for name, dim in job.dims.items() if dim.is_length],
    }


def _values(visit: Visit) -> dict[str, Any]:
    return values_of(visit, visit.work())


def _moved(visit: Visit) -> dict[str, Any]:
    work = visit.work()
    job, spot, place = photo_job(work), visit.field("spot"), place_in(f"{visit.field('u')}, {visit.field('v')}")
    assert job.photo is not None
    if spot not in job.photo.spots or place is None:
        raise NotTaken(f"{spot[:60]!r} is not a spot of this photo, or its place is no pair of numbers")
    shop = work.right.shop
    answer = answer_of(visit.job, work.revision, job, shop)
    return values_of(visit, work, answer_moved(visit.job, answer, job, shop, spot, place))


def _over(visit: Visit, work: Work, own: bool) -> str:
    job = photo_job(work)
    answer = answer_of(visit.job, work.revision, job, work.right.shop)
    solved = solved_of(answer)
    grown = 1.0 if own or answer.dims is None or not answer.dims.sized else 1 / answer.dims.scale
    try:
        lines = piece_seen(solved, work.right.piece, grown)
    except MarksError:
        lines = []
    return overlay(lines, solved.size)


def _snapped(visit: Visit) -> list[list[float]]:
    job = photo_job(visit.work())
    assert job.photo is not None
    found = picture_of(visit.job, job.photo.picture)
    places = [place for word in visit.field("spots").split(";") if (place := place_in(word)) is not None][:MOST_SPOTS]
    if found is None or len(places) < 2:
        return [list(place) for place in places]
    reach = max(LEAST_REACH, REACH_CLICKS * (job.photo.click or usual_click(*found.size)))
    edge = snapped(found.grey, np.array(places[0]), np.array(places[-1]), reach, max(len(places), 2))
    return edge.spots.round(2).tolist() if edge.found else [list(place) for place in places]
