"""Changes of the marks: each goes into job.yaml at once."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job.marks import AXES, Photo
from fitwright.job.rewriting import JobFile, Value
from fitwright.place.photo import PictureError, read_picture
from fitwright.web.desk import Work
from fitwright.web.errors import NotTaken
from fitwright.web.keeping import Kept
from fitwright.web.pages.photo.answers import photo_job, values_of
from fitwright.web.pages.photo.darkroom import answer_of
from fitwright.web.pages.photo.marking import added, appended, marks_in, moved, place_in, px, taken_out, with_picture
from fitwright.web.pages.photo.undoing import kept_change, undone
from fitwright.web.trouble import reasons, status_of
from fitwright.web.visit import Visit, telling

LONGEST_NAME = 60
MOST_NEAR = 40.0
FOLDER = "photos"
Edit = Callable[[str, Photo], str]


async def send(visit: Visit) -> Response:
    """A picture of the old piece: read first, which refuses what is broken, enormous or hostile, then kept."""
    upload = visit.upload("picture")
    try:
        await asyncio.to_thread(read_picture, upload.content, upload.name[:LONGEST_NAME] or "the picture")
    except PictureError as wrong:
        raise NotTaken(str(wrong)) from None
    name = await visit.keep_file(FOLDER, upload)
    return await _changed(visit, lambda text, _: with_picture(text, name), whole=True)


async def move(visit: Visit) -> Response:
    """A spot somewhere else."""
    place = place_in(f"{visit.field('u')}, {visit.field('v')}")
    if place is None:
        raise NotTaken("a place is two numbers: pixels from the left and from the top")
    return await _changed(visit, lambda text, _: moved(text, visit.field("spot"), *place))


async def add_edge(visit: Visit) -> Response:
    """An edge along a direction."""
    along, snap = _name(visit, "along"), visit.form.get("snap") == "yes"

    def edit(text: str, photo: Photo) -> str:
        edge: dict[str, Value] = {"along": along, "marks": _marks(visit, photo, 2)}
        return appended(text, "edges", {**edge, "snap": True} if snap else edge)

    return await _changed(visit, edit)


async def add_plane(visit: Visit) -> Response:
    """Spots that lie in one plane; more of them where it is there."""
    name, across = _name(visit, "name"), visit.field("across")
    if across not in AXES:
        raise NotTaken("a plane lies across x, y or z")

    def edit(text: str, photo: Photo) -> str:
        there = list(photo.planes[name].spots) if name in photo.planes else []
        old: list[Value] = [list(pixels) if (pixels := place_in(spot)) else spot for spot in there]
        return added(text, "planes", name, {"across": across, "marks": [*old, *_marks(visit, photo, 1)]})

    return await _changed(visit, edit)


async def add_known(visit: Visit) -> Response:
    """A length that was measured on the real thing."""
    name, size, within = _name(visit, "name"), visit.field("is").strip(), visit.form.get("within", "").strip()

    def edit(text: str, photo: Photo) -> str:
        told = {**_quantity(visit, photo), "is": size, **({"within": within} if within else {})}
        return added(text, "known", name, told)

    return await _changed(visit, edit)


async def add_measure(visit: Visit) -> Response:
    """A length that is wanted."""
    name = _name(visit, "name")
    return await _changed(visit, lambda text, photo: added(text, "measures", name, _quantity(visit, photo)))


async def follow(visit: Visit) -> Response:
    """A dim of the job that follows the old piece."""
    name = _name(visit, "name")
    said = {key: visit.form.get(key, "").strip() for key in ("keep", "weight", "fits", "step")}
    told: dict[str, Value] = {"from": visit.field("from").strip(), **{key: text for key, text in said.items() if text}}
    if visit.form.get("held") == "yes":
        told["held"] = True
    return await _changed(visit, lambda text, _: added(text, "dims", name, told))


async def place(visit: Visit) -> Response:
    """Where a spot is on the piece, to lay the piece over the photo."""
    spot, at = _name(visit, "spot"), [part.strip() for part in visit.field("at").split(",")]
    if len(at) != 3 or not all(at):
        raise NotTaken("say three lengths, x, y and z, such as 0, 0, 3 in")

    def edit(text: str, photo: Photo) -> str:
        if spot not in photo.spots or spot.startswith("["):
            raise NotTaken(f"{spot!r} is not the name of a spot of this photo")
        there, file = photo.spots[spot], JobFile(text)
        told: dict[str, Value] = {"at": [px(there.u), px(there.v)]}
        file.set(("photo", "spots", spot), {**told, **({"click": there.click} if there.click else {}), "is": at})
        return file.text()

    return await _changed(visit, edit)


async def take_out(visit: Visit) -> Response:
    """Without a mark."""
    return await _changed(visit, lambda text, _: taken_out(text, visit.field("what"), visit.field("name")))


async def accept(visit: Visit) -> Response:
    """Proposed dims into the job: one by its name, or all that are not held."""
    wanted, work = visit.field("name"), visit.work()
    job = photo_job(work)
    answer = answer_of(visit.job, work.revision, job, work.right.shop)
    rows = [
        row
        for row in (answer.dims.rows if answer.dims else ())
        if wanted in (row.mark.name, "all") and not row.mark.held and not row.taken and "." not in row.mark.name
    ]
    if not rows:
        raise NotTaken("there is nothing to take: the job has these dims as proposed, holds them, or they are stock")

    def edit(text: str, _: Photo) -> str:
        file = JobFile(text)
        for row in rows:
            file.set_dim(row.mark.name, job.style.length(row.proposed.value))
        return file.text()

    return await _changed(visit, edit)


async def put_back(visit: Visit) -> Response:
    """The last change of a mark taken back."""
    revision = visit.field("revision").partition("-")[0]
    return await _shown(visit, await asyncio.to_thread(undone, visit.job, revision))


async def _changed(visit: Visit, edit: Edit, whole: bool = False) -> Response:
    """Keep a change of the text, in the state that the form was made for. Raises Stale, JobFileError, NotTaken."""
    work = visit.work()
    photo = work.right.job.photo or Photo()
    try:
        text = await asyncio.to_thread(edit, work.state.text, photo)
        kept = await asyncio.to_thread(kept_change, visit.job, visit.field("revision").partition("-")[0], text)
    except FitwrightError as wrong:
        if whole or not visit.piecewise:
            raise
        values = {**await asyncio.to_thread(values_of, visit, visit.work()), "reasons": reasons(wrong)}
        return visit.html("photo/results.html", status_of(wrong), **values)
    return await _shown(visit, kept, whole)


async def _shown(visit: Visit, kept: Kept, whole: bool = False) -> Response:
    work: Work = visit.kept(kept)
    if whole or not visit.piecewise:
        return visit.on_to(f"{visit.to}/photo")
    values: dict[str, Any] = await asyncio.to_thread(values_of, visit, work)
    return telling(visit.html("photo/results.html", **values), work.revision, structure="changed")


def _name(visit: Visit, field: str) -> str:
    name = " ".join(visit.field(field).split())
    if not 0 < len(name) <= LONGEST_NAME:
        raise NotTaken(f"{field}: give it a name of at most {LONGEST_NAME} letters")
    return name


def _marks(visit: Visit, photo: Photo, least: int) -> list[Value]:
    near = 0.0
    with suppress(ValueError):
        near = min(float(visit.form.get("near", "0") or 0), MOST_NEAR)
    marks = marks_in(visit.field("spots"), photo, near)
    if len(marks) < least:
        raise NotTaken(
            f"{len(marks)} spots are given: {least} or more are wanted, tapped or written as 312, 845; 330, 90"
        )
    return marks


def _quantity(visit: Visit, photo: Photo) -> dict[str, Value]:
    """A quantity from its kind, its way and its spots."""
    kind, way = visit.field("kind"), visit.form.get("way", "").strip() or "x"
    marks = _marks(visit, photo, 2)
    match kind:
        case "along" | "across":
            return {"from": marks[0], "to": marks[-1], kind: way}
        case "straight":
            return {"from": marks[0], "to": marks[-1]}
        case "height":
            return {"height": marks[-1], "foot": marks[0]}
        case "spacing":
            return {"spacing": marks, "along": way}
        case "arc":
            return {"arc": marks, "plane": visit.form.get("plane", "").strip()}
        case "tube":
            half = len(marks) // 2
            if len(marks) < 5 or len(marks) % 2 == 0:
                raise NotTaken("a tube wants spots along one outline, as many along the other, and one in its middle")
            return {"sides": [marks[:half], marks[half:-1]], "along": way, "through": marks[-1]}
    raise NotTaken(f"{kind[:40]!r} is not a kind of length")
