"""The browser's bundle: made when the package is built, served under names that change with the content."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from starlette.requests import Request
from starlette.responses import FileResponse, Response

from fitwright.errors import FitwrightError
from fitwright.web.errors import NotThere

STATIC = Path(__file__).parent / "static"
FOREVER = "public, max-age=31536000, immutable"
TYPES = {".js": "text/javascript", ".css": "text/css", ".txt": "text/plain"}


class NoBundle(FitwrightError, FileNotFoundError):
    """The package was installed without its browser bundle."""


@cache
def manifest() -> dict[str, str]:
    """The names under which sources are served, by the names that they have. Raises NoBundle."""
    path = STATIC / "manifest.json"
    if not path.exists():
        raise NoBundle("the browser's bundle is missing: run `make setup`, or `python hatch_build.py` in the project")
    found: dict[str, str] = json.loads(path.read_text(encoding="utf-8"))
    return found


def asset(name: str) -> str:
    """The address of a source, such as main.css or piece.js."""
    return f"/static/{manifest()[name]}"


async def static_file(request: Request) -> Response:
    """A file of the bundle, packed where the browser takes it."""
    name = request.path_params["name"]
    path = STATIC / name
    if path.suffix not in TYPES or path.name != name or not path.is_file():
        raise NotThere(f"there is no {name[:60]!r}")
    headers = {"cache-control": FOREVER, "vary": "accept-encoding"}
    packed = path.with_name(f"{name}.gz")
    if "gzip" in request.headers.get("accept-encoding", "") and packed.exists():
        return FileResponse(packed, media_type=TYPES[path.suffix], headers={**headers, "content-encoding": "gzip"})
    return FileResponse(path, media_type=TYPES[path.suffix], headers=headers)
