"""One request, as a page sees it."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from fitwright.job import JobFile
from fitwright.web.errors import NotTaken
from fitwright.web.folder import JobFolder, JobsFolder
from fitwright.web.guard.forms import Upload
from fitwright.web.keeping import change
from fitwright.web.kept_files import keep_file

if TYPE_CHECKING:
    from fitwright.web.desk import Work
    from fitwright.web.keeping import Kept
    from fitwright.web.workbench import Workbench

CHANGED = "job-changed"
LONGEST_FIELD = 600_000


@dataclass(frozen=True)
class Visit:
    """A request with what the server has at hand."""

    request: Request
    workbench: Workbench

    @property
    def folder(self) -> JobsFolder:
        """The folder of jobs."""
        return self.workbench.folder

    @property
    def job(self) -> JobFolder:
        """The job in the address. Raises NotThere."""
        return self.folder.job(self.part("job"))

    @property
    def to(self) -> str:
        """The address of the job's pages; empty where the address names no job."""
        job = self.request.path_params.get("job")
        return "" if job is None else f"/jobs/{quote(str(job), safe='')}"

    def work(self) -> Work:
        """What is being computed for the job in the address; the answer is one of the first that was asked for."""
        work = self.workbench.desk.work(self.job)
        self.request.scope.setdefault("work", work)
        return work

    @property
    def answered_of(self) -> Work | None:
        """The state of the job that the answer is made of."""
        work: Work | None = self.request.scope.get("work")
        return work

    @property
    def late(self) -> bool:
        """Whether a script would be told of a state of the job that is not the newest any more."""
        work = self.answered_of
        return self.piecewise and self.request.method == "GET" and work is not None and not work.newest()

    def part(self, name: str) -> str:
        """A part of the address."""
        return str(self.request.path_params[name])

    @property
    def form(self) -> Mapping[str, str]:
        """The fields of the form."""
        form: Mapping[str, str] = self.request.scope["form"]
        return form

    def field(self, name: str) -> str:
        """A field that the form must have. Raises NotTaken."""
        value = self.form.get(name)
        if value is None or len(value) > LONGEST_FIELD:
            raise NotTaken(f"the form lacks {name}" if value is None else f"{name} is too long")
        return value

    def upload(self, name: str) -> Upload:
        """The file that was sent with a field of the form. Raises NotTaken when none was chosen."""
        files: Mapping[str, Upload] = self.request.scope["files"]
        if name not in files or not files[name].content:
            raise NotTaken(f"no {name} was chosen")
        return files[name]

    async def change(self, edit: Callable[[JobFile], None]) -> Work:
        """Change the job file in the state that the form was made for. Raises Stale, JobFileError, NotTaken."""
        revision = self.field("revision").partition("-")[0]
        return self.kept(await asyncio.to_thread(change, self.job, revision, edit))

    async def keep_file(self, folder: str, upload: Upload) -> str:
        """Keep a file as it was sent in a folder of the job; gives its place, as the job file names it."""
        return await asyncio.to_thread(keep_file, self.job, folder, upload)

    @property
    def piecewise(self) -> bool:
        """Whether a script asked, which takes a part of a page instead of a whole one."""
        return self.request.headers.get("hx-request") == "true"

    @property
    def page(self) -> str:
        """The name that an open page gave itself, so that it is not told of its own changes."""
        return self.request.headers.get("x-fitwright-page", "")[:40]

    def kept(self, kept: Kept) -> Work:
        """Tell of a change that was kept, and begin on what follows from it."""
        work = self.request.scope["work"] = self.workbench.desk.accept(self.job, kept)
        self.workbench.news.tell(self.job, work.revision, self.page)
        if work.assessment is not None:
            ahead = asyncio.ensure_future(self.workbench.desk.scene(work))
            ahead.add_done_callback(lambda done: done.cancelled() or done.exception())
        return work

    def html(self, template: str, status: int = 200, **values: Any) -> HTMLResponse:
        """A page or a part of one, from its template."""
        work = self.answered_of
        said = {
            "token": self.request.scope["token"],
            "visit": self,
            "path": self.request.url.path,
            "revision": "" if work is None else work.revision,
            "to": self.to,
            "unreached": work.given.equipped.unreached if work is not None and work.given is not None else "",
            "of_page": self.request.scope.get("of_page"),
            **values,
        }
        return HTMLResponse(self.workbench.templates.get_template(template).render(said), status)

    def on_to(self, path: str) -> Response:
        """Lead on after a form: a script is told to go there, a browser without is sent."""
        if self.piecewise:
            return Response(status_code=204, headers={"HX-Redirect": path})
        return RedirectResponse(path, 303)


def telling(response: Response, revision: str, **more: str) -> Response:
    """An answer that also tells the page that the job has changed."""
    response.headers["HX-Trigger"] = json.dumps({CHANGED: {"revision": revision, **more}})
    return response
