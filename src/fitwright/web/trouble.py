"""What a maker sees when something cannot be done: the words of the error, never a traceback."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job import JobFileError
from fitwright.piece.model import PieceError
from fitwright.web.errors import NotThere, Refused, Stale
from fitwright.web.visit import Visit

STATUS: tuple[tuple[type[Exception], int], ...] = ((NotThere, 404), (Refused, 403), (Stale, 409), (FitwrightError, 422))


def told(visit: Visit, wrong: Exception) -> Response:
    """A page, or for a script the part of one, that tells what is wrong."""
    status = wrong.status_code if isinstance(wrong, HTTPException) else status_of(wrong)
    template = "trouble_part.html" if visit.piecewise else "trouble.html"
    job = visit.request.path_params.get("job")
    return visit.html(template, status, reasons=reasons(wrong), job=job, lost=status == 404)


def status_of(wrong: Exception) -> int:
    """The status that says what kind of wrong it is."""
    return next(status for kind, status in STATUS if isinstance(wrong, kind))


def reasons(wrong: Exception) -> list[str]:
    """Every reason by itself."""
    if isinstance(wrong, JobFileError):
        return [str(mistake) for mistake in wrong.mistakes]
    if isinstance(wrong, PieceError):
        return list(wrong.problems)
    if isinstance(wrong, HTTPException):
        return ["there is nothing at this address" if wrong.status_code == 404 else wrong.detail]
    return str(wrong).splitlines()
