"""What the pages of reasons answer."""

from __future__ import annotations

from starlette.responses import Response

from fitwright.web.longer import longer_findings
from fitwright.web.pages.why.dims import reason_of_dim
from fitwright.web.pages.why.findings import reason_of_finding
from fitwright.web.pages.why.parts import reason_of_part
from fitwright.web.pages.why.reason import Reason
from fitwright.web.visit import Visit


async def of_dim(visit: Visit) -> Response:
    """A dim."""
    work = visit.work()
    return _told(visit, reason_of_dim(work.right.job, work.state.text, visit.part("name")))


async def of_part(visit: Visit) -> Response:
    """A part."""
    work, mark = visit.work(), visit.part("mark")
    reason = await visit.workbench.desk.result(
        work, f"why {mark[:40]}", lambda found: reason_of_part(found, work.state.text, mark)
    )
    return _told(visit, reason)


async def of_finding(visit: Visit) -> Response:
    """A finding."""
    work = visit.work()
    known = work.asides.get(longer_findings.__name__)
    if known is not None and known.result.done() and known.result.exception() is None:
        findings = known.result.result()
    else:
        findings = await visit.workbench.desk.findings(work)
    return _told(visit, reason_of_finding(work.right, findings, work.state.text, visit.part("key")))


def _told(visit: Visit, reason: Reason) -> Response:
    return visit.html("why/why.html", job=visit.part("job"), reason=reason)
