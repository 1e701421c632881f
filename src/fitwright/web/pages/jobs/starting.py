"""A job begun from a starter: its own dims typed before there is a job, and a picture that follows them."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from urllib.parse import urlencode

from starlette.responses import Response

from fitwright.assess import assess
from fitwright.errors import FitwrightError
from fitwright.job import JobFile, parse_job, starters
from fitwright.job.reading import read_text
from fitwright.shop import default_shop
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.pages.piece.stepping import can_step
from fitwright.web.still import still_picture
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit

FIELD = "dim."
"""Before the starter's name and the dim's: a form may still hold the dims of the starter chosen before."""
LONGEST = 200
Typed = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Begun:
    """What a starter with typed dims comes to: a line picture (SVG), overall size and weight."""

    picture: str
    size: str
    weight: str


async def starter_dims(visit: Visit) -> Response:
    """The dims of a starter that can be typed, with its picture."""
    name = visit.request.query_params.get("starter", "")
    job = parse_job(starter_text(name))
    dims = [dim for dim in job.dims.values() if can_step(dim.text, dim.is_length, job.style)]
    return visit.html("jobs/starting.html", starter=name, dims=dims, unit=job.style.unit, **await _shown(name, ()))


async def starter_shown(visit: Visit) -> Response:
    """What typed dims come to, or what is wrong with them."""
    name = visit.part("starter")
    return visit.html(
        "jobs/begun.html", starter=name, **await _shown(name, typed_dims(name, visit.request.query_params))
    )


async def starter_still(visit: Visit) -> Response:
    """A picture of what a starter begins with, or of what typed dims make of it."""
    name = visit.part("starter")
    begun = await asyncio.to_thread(_begun, name, typed_dims(name, visit.request.query_params))
    headers = {"content-security-policy": PICTURE_POLICY, "cache-control": "max-age=3600"}
    return Response(begun.picture, media_type="image/svg+xml", headers=headers)


def typed_dims(starter: str, fields: Mapping[str, str]) -> Typed:
    """The dims of a starter in a form, in its order."""
    begins = f"{FIELD}{starter}."
    return tuple(
        (name.removeprefix(begins), " ".join(text.split())[:LONGEST])
        for name, text in fields.items()
        if name.startswith(begins) and text.strip()
    )


def with_dims(text: str, typed: Typed) -> str:
    """The text of a job with other dims. Raises JobFileError when it is no longer a job, NotTaken for no such dim."""
    file, dims = JobFile(text), parse_job(text).dims
    for name, said in typed:
        if name not in dims:
            raise NotTaken(f"there is no dim called {name[:60]!r} in this starter")
        if said != dims[name].text:
            file.set_dim(name, said)
    parse_job(file.text())
    return file.text()


def starter_text(name: str) -> str:
    """The text of a starter. Raises NotThere."""
    for starter in starters():
        if starter.name == name:
            return read_text(starter.path)
    raise NotThere(f"there is no starter called {name[:60]!r}")


async def _shown(name: str, typed: Typed) -> dict[str, Any]:
    query = urlencode([(f"{FIELD}{name}.{dim}", text) for dim, text in typed])
    try:
        begun = await asyncio.to_thread(_begun, name, typed)
    except FitwrightError as wrong:
        return {"begun": None, "query": query, "reasons": reasons(wrong)}
    return {"begun": begun, "query": query, "reasons": []}


@lru_cache(maxsize=64)
def _begun(name: str, typed: Typed) -> Begun:
    job = parse_job(with_dims(starter_text(name), typed))
    piece = (assessment := assess(job, default_shop(job.style.unit))).piece
    wide, deep, high = (job.style.length(float(x)) for x in piece.envelope.high - piece.envelope.low)
    size = f"{wide} wide, {deep} deep, {high} high"
    return Begun(still_picture(assessment.meshes), size, job.style.weight(piece.mass))
