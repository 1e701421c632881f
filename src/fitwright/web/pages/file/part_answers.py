"""What the forms of parts answer."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any
from urllib.parse import quote

from starlette.responses import Response

from fitwright.job import JobFile, JobFileError
from fitwright.web.desk import Work
from fitwright.web.errors import NotTaken, NotThere, Stale
from fitwright.web.keeping import replace_text
from fitwright.web.pages.file.forms import SHAPES, first_values, part_form, part_names, value_of
from fitwright.web.pages.file.removing import without
from fitwright.web.trouble import reasons, status_of
from fitwright.web.visit import Visit, telling

FIELD = "value."
LONGEST_PART = 64


async def parts(visit: Visit) -> Response:
    """The list of parts, and the form of the one asked for."""
    work = visit.work()
    return visit.html(
        "file/parts.html", work=work, job=work.key, **panel_values(work, visit.request.query_params.get("part", ""))
    )


async def add(visit: Visit) -> Response:
    """Add a part that can be seen and changed."""
    name, kind = " ".join(visit.field("name").split()), visit.field("kind")

    def edited(text: str, work: Work) -> str:
        if not name or len(name) > LONGEST_PART or kind not in SHAPES:
            raise NotTaken(f"a part has a name of at most {LONGEST_PART} letters and is one of {', '.join(SHAPES)}")
        if name in dict(part_names(text)):
            raise NotTaken(f"there is a part called {name} already: choose another name")
        return _set(text, ("parts", name), first_values(kind, work.right.job))

    return await _edited(visit, name, edited)


async def change_part(visit: Visit) -> Response:
    """Change what differs, take out what was emptied, add what was added."""
    name = visit.field("part")

    def edited(text: str, _: Work) -> str:
        before = {field.key: field.text for field in part_form(text, name).fields}
        for key, was in before.items():
            said = visit.form.get(FIELD + key, was).replace("\r\n", "\n").strip()
            if not said:
                text = without(text, ("parts", name, key))
            elif said != was.strip():
                text = _set(text, ("parts", name, key), value_of(key, said))
        key, said = visit.form.get("new_key", ""), visit.form.get("new_value", "").strip()
        return _set(text, ("parts", name, key), value_of(key, said)) if key and said else text

    return await _edited(visit, name, edited)


async def remove(visit: Visit) -> Response:
    """Take a part out of the file."""
    name = visit.field("part")
    return await _edited(visit, "", lambda text, _: without(text, ("parts", name)), asked=name)


def panel_values(work: Work, part: str, wrong: Exception | None = None) -> dict[str, Any]:
    """What the template of the parts is filled with."""
    try:
        names = part_names(work.state.text)
        form = part_form(work.state.text, part) if part else None
    except (JobFileError, NotThere) as error:
        names, form, wrong = [], None, wrong or error
    return {"names": names, "form": form, "part_reasons": reasons(wrong) if wrong else [], "kinds": list(SHAPES)}


async def _edited(visit: Visit, shown: str, edited: Callable[[str, Work], str], asked: str = "") -> Response:
    """Keep an edited text and show a part's form; or say why not."""
    work = visit.work()
    try:
        text = await asyncio.to_thread(edited, work.state.text, work)
        revision = visit.field("revision").partition("-")[0]
        now = visit.kept(await asyncio.to_thread(replace_text, visit.job, revision, text))
    except (JobFileError, NotTaken, NotThere, Stale) as wrong:
        said = _overtaken(wrong) if isinstance(wrong, Stale) else wrong
        return _panel(visit, work, asked or shown, said, status_of(wrong))
    if not visit.piecewise:
        return visit.on_to(f"/jobs/{quote(visit.part('job'))}/file?part={quote(shown)}")
    return telling(_panel(visit, now, shown, None, 200), now.revision)


def _panel(visit: Visit, work: Work, part: str, wrong: Exception | None, status: int) -> Response:
    values = panel_values(work, part if part in dict(part_names(work.state.text)) else "", wrong)
    if visit.piecewise:
        return visit.html("file/parts.html", status, work=work, job=work.key, **values)
    more = {"text": work.state.text, "mistakes": (), "changes": (), "saved": False, "line": 0}
    return visit.html("file/file.html", status, work=work, job=work.key, **more, **values)


def _overtaken(wrong: Stale) -> NotTaken:
    return NotTaken("the job was changed meanwhile, on another device or in the text: look at it again, then change it")


def _set(text: str, steps: tuple[str, ...], value: Any) -> str:
    file = JobFile(text)
    file.set(steps, value)
    return file.text()
