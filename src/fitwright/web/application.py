"""The workbench as one ASGI application."""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from threading import Thread

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from fitwright.errors import FitwrightError
from fitwright.web.aside import Superseded
from fitwright.web.bundle import asset, manifest, static_file
from fitwright.web.desk import Desk
from fitwright.web.folder import JobsFolder
from fitwright.web.guard import Gate, Key, Pairing
from fitwright.web.guard.names import Names, names
from fitwright.web.interface import interface
from fitwright.web.making import Makings
from fitwright.web.news import News
from fitwright.web.page import Call, Page, all_pages, takes_files
from fitwright.web.trouble import told
from fitwright.web.visit import Visit
from fitwright.web.warming import warm
from fitwright.web.words import FILTERS
from fitwright.web.workbench import Workbench

TEMPLATES = (Path(__file__).parent / "templates", Path(__file__).parent / "pages")
ICON = Path(__file__).parent / "icon.svg"
WORTH_PACKING = 600


def workbench_app(
    folder: Path,
    *,
    shop_file: Path | None = None,
    known_as: Names | None = None,
    pairing: Pairing | None = None,
    forget: bool = False,
) -> ASGIApp:
    """The application for a folder of jobs.

    shop_file: the shop of all jobs; else the one beside each, else the shipped one. known_as: the names that it may be
    addressed by. pairing: the code that devices must give; None where only this machine can reach it.
    Raises NoBundle when the browser's bundle was not built.
    """
    manifest()
    jobs = JobsFolder(folder)
    key = Key.kept_in(jobs.own, forget)
    desk = Desk(shop_file)
    workbench = Workbench(jobs, desk, News(desk), Makings(shop_file), templates(), key, pairing)
    gate = Middleware(Gate, names=known_as or names(80), key=key, pairing=pairing is not None, takes_files=takes_files)
    handler = _told(workbench)
    return Starlette(
        routes=[*_routes(workbench), *OWN_ROUTES],
        middleware=[gate, Middleware(GZipMiddleware, minimum_size=WORTH_PACKING, compresslevel=4)],
        exception_handlers={FitwrightError: handler, 404: handler, 405: handler, Superseded: _superseded},
        lifespan=_lifespan(workbench),
    )


def templates() -> Environment:
    """The templates of all pages; a name that is not there is an error, and everything is escaped."""
    found = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.globals["asset"] = asset
    found.globals["pages"] = all_pages
    found.filters.update(FILTERS)
    return found


def _routes(workbench: Workbench) -> list[Route]:
    """A route for each address, whatever methods it has."""
    by_path: dict[str, dict[str, tuple[Page, Call]]] = {}
    for page in all_pages():
        for call in page.calls:
            by_path.setdefault(call.path, {})[call.method] = page, call
    return [Route(path, _endpoint(workbench, calls), methods=list(calls)) for path, calls in by_path.items()]


def _endpoint(workbench: Workbench, calls: dict[str, tuple[Page, Call]]) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        page, call = calls["GET" if request.method == "HEAD" else request.method]
        request.scope["of_page"] = page
        visit = Visit(request, workbench)
        response = await call.answer(visit)
        if visit.late:
            raise Superseded
        if "x-fitwright-turn" in request.headers:
            response.headers["x-fitwright-turn"] = request.headers["x-fitwright-turn"][:20]
        if visit.answered_of is not None:
            response.headers["x-revision"] = visit.answered_of.revision
        return response

    return endpoint


async def _interface(request: Request) -> Response:
    """The interface in the form of OpenAPI."""
    return JSONResponse(interface())


async def _icon(request: Request) -> Response:
    """The sign on the browser's tab."""
    return FileResponse(ICON, media_type="image/svg+xml", headers={"cache-control": "max-age=86400"})


OWN_ROUTES = (
    Route("/static/{name}", static_file),
    Route("/interface.json", _interface),
    Route("/icon.svg", _icon),
)


def _told(workbench: Workbench) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def handler(request: Request, wrong: Exception) -> Response:
        return told(Visit(request, workbench), wrong)

    return handler


async def _superseded(request: Request, wrong: Exception) -> Response:
    """Nothing to show: the answer to the newer change shows it. A page that was asked for whole is asked for again."""
    if request.method == "GET" and request.headers.get("sec-fetch-mode") == "navigate":
        return RedirectResponse(str(request.url), 303)
    return Response(status_code=204)


def _lifespan(workbench: Workbench) -> Callable[[Starlette], AbstractAsyncContextManager[None]]:
    @asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        Thread(target=warm, daemon=True).start()
        try:
            yield
        finally:
            workbench.news.close()
            workbench.close()

    return lifespan
