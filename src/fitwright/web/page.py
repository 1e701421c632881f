"""A page of the workbench: its calls, and its place among the tabs. Each lives in a folder of its own under `pages`."""

from __future__ import annotations

import pkgutil
import re
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Literal

from starlette.responses import Response
from starlette.routing import compile_path

from fitwright.web import pages as pages_folder
from fitwright.web.visit import Visit

Answer = Callable[[Visit], Awaitable[Response]]


@dataclass(frozen=True)
class Call:
    """One address that answers.

    told: what it does; takes: the fields of its form; files: the fields with which files are sent; gives: the type of
    its answer; later: whether it begins what takes seconds, in a process of its own.
    """

    method: Literal["GET", "POST"]
    path: str
    answer: Answer
    told: str
    takes: tuple[str, ...] = ()
    gives: str = "text/html"
    files: tuple[str, ...] = ()
    later: bool = False


@dataclass(frozen=True)
class Page:
    """A page. tab: the word on its tab, empty for none; at: where the tab leads, under the job; order: among tabs.

    top: for a page that belongs to no job, the word in the bar at the top, which leads to `at`.
    """

    name: str
    calls: tuple[Call, ...]
    tab: str = ""
    at: str = ""
    order: int = 0
    top: str = ""


def takes_files(path: str) -> bool:
    """Whether files may be sent to an address."""
    return any(pattern.match(path) for pattern in _taking_files())


@cache
def _taking_files() -> tuple[re.Pattern[str], ...]:
    calls = (call for page in all_pages() for call in page.calls)
    return tuple(compile_path(call.path)[0] for call in calls if call.files)


@cache
def all_pages() -> tuple[Page, ...]:
    """Every page that has a folder under `pages`, in order of the tabs."""
    found = []
    for module in pkgutil.iter_modules(pages_folder.__path__):
        page = import_module(f"{pages_folder.__name__}.{module.name}").PAGE
        assert isinstance(page, Page), f"{module.name} has no PAGE"
        found.append(page)
    return tuple(sorted(found, key=lambda page: page.order))
