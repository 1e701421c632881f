"""What the pairing page answers."""

from __future__ import annotations

import math

from starlette.responses import RedirectResponse, Response

from fitwright.web.visit import Visit


async def ask(visit: Visit) -> Response:
    """The form; a code that was scanned is filled in."""
    if visit.workbench.pairing is None or visit.request.scope["session"].paired:
        return RedirectResponse("/", 303)
    code = visit.request.query_params.get("code", "")[:20]
    return visit.html("pairing/pair.html", code=code, wrong="")


async def pair(visit: Visit) -> Response:
    """Let the device in, or say what is wrong."""
    pairing = visit.workbench.pairing
    if pairing is None:
        return RedirectResponse("/", 303)
    client = visit.request.client
    address = client.host if client else "unknown"
    wait = pairing.wait(address)
    if wait > 0:
        said = f"Too many attempts: wait {math.ceil(wait)} seconds, then read the code off the terminal again."
        return visit.html("pairing/pair.html", 429, code="", wrong=said)
    if not pairing.fits(address, visit.field("code")[:40]):
        return visit.html("pairing/pair.html", 403, code="", wrong="That is not the code that the terminal shows.")
    visit.request.scope["session"] = visit.workbench.key.begin(paired=True)
    visit.request.scope["new_session"] = True
    return RedirectResponse("/", 303)
