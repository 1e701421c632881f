"""Pictures kept ready: read once for each file, with the last answer for each state of its job."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import replace
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from threading import Lock

from fitwright.job.beside import Beside, BesideError
from fitwright.job.model import Job
from fitwright.place.photo import Picture, PictureError, read_picture
from fitwright.place.photo.answering import PhotoAnswer, answer_on
from fitwright.shop import Shop
from fitwright.web.folder import JobFolder

KEPT = 8
LONGEST_SHOWN = 4096
QUALITY = 88
Stamp = tuple[str, int, int]

_LOCK = Lock()
_ANSWERS: OrderedDict[tuple[Stamp | None, str], PhotoAnswer] = OrderedDict()


def picture_of(job: JobFolder, name: str) -> Picture | None:
    """The picture beside a job, read; None where it is not there. Raises PictureError, BesideError."""
    stamp = stamp_of(job, name)
    return None if stamp is None else _developed(stamp, str(job.root), name)


def answer_of(folder: JobFolder, revision: str, job: Job, shop: Shop) -> PhotoAnswer:
    """What the photo of a job says; kept for this state of the job and of the picture."""
    assert job.photo is not None, "the photo of a job that has one"
    try:
        stamp = stamp_of(folder, job.photo.picture)
        key = (stamp, f"{folder.root} {revision}")
        with _LOCK:
            known = _ANSWERS.get(key)
        if known is None:
            known = answer_on(job, shop, picture_of(folder, job.photo.picture))
        with _LOCK:
            _ANSWERS[key] = known
            while len(_ANSWERS) > KEPT:
                _ANSWERS.popitem(last=False)
        return known
    except (PictureError, BesideError) as wrong:
        return PhotoAnswer(None, None, (), str(wrong), None)


def answer_moved(
    folder: JobFolder, answer: PhotoAnswer, job: Job, shop: Shop, spot: str, at: tuple[float, float]
) -> PhotoAnswer:
    """The same with one mark moved, which is not kept: begun from the answer before."""
    assert job.photo is not None, "the photo of a job that has one"
    spots = {**job.photo.spots, spot: replace(job.photo.spots[spot], u=at[0], v=at[1])}
    there = replace(job, photo=replace(job.photo, spots=spots))
    return answer_on(there, shop, picture_of(folder, job.photo.picture), answer.solved)


def shown(job: JobFolder, name: str) -> bytes | None:
    """The picture as the page shows it: upright, JPEG, at most 4,096 pixels on a side; None without one."""
    stamp = stamp_of(job, name)
    return None if stamp is None else _printed(stamp, str(job.root), name)


def stamp_of(job: JobFolder, name: str) -> Stamp | None:
    """The state of a file beside a job: its path, when it was changed, its size."""
    if not Beside(job.root).has(name):
        return None
    path = (job.root / name).resolve()
    told = path.stat()
    return str(path), told.st_mtime_ns, told.st_size


@lru_cache(maxsize=KEPT)
def _developed(stamp: Stamp, folder: str, name: str) -> Picture:
    data = Beside(Path(folder)).read(name)
    assert data is not None, "a file that has just been looked at"
    return read_picture(data, name)


@lru_cache(maxsize=KEPT)
def _printed(stamp: Stamp, folder: str, name: str) -> bytes:
    """Read as a picture first, which refuses what is broken, enormous or hostile."""
    from PIL import Image, ImageOps

    _developed(stamp, folder, name)
    data = Beside(Path(folder)).read(name)
    assert data is not None, "a file that has just been read"
    with Image.open(BytesIO(data)) as opened:
        opened.draft("RGB", (LONGEST_SHOWN, LONGEST_SHOWN))
        upright = ImageOps.exif_transpose(opened)
        upright = upright.convert("RGB") if upright.mode != "RGB" else upright
    upright.thumbnail((LONGEST_SHOWN, LONGEST_SHOWN))
    out = BytesIO()
    upright.save(out, "JPEG", quality=QUALITY)
    return out.getvalue()
