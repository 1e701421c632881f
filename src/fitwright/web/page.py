"""A page of the workbench: its calls, and its place among the tabs. Each lives in a folder of its own under `pages`."""

from __future__ import annotations

import pkgutil
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Literal

from starlette.responses import Response

from fitwright.web import pages as pages_folder
from fitwright.web.visit import Visit

Answer = Callable[[Visit], Awaitable[Response]]


@dataclass(frozen=True)
class Call:
    """One address that answers. told: what it does; takes: the fields of its form; gives: the type of its answer."""

    method: Literal["GET", "POST"]
    path: str
    answer: Answer
    told: str
    takes: tuple[str, ...] = ()
    gives: str = "text/html"


@dataclass(frozen=True)
class Page:
    """A page. tab: the word on its tab, empty for none; at: where the tab leads, under the job; order: among tabs."""

    name: str
    calls: tuple[Call, ...]
    tab: str = ""
    at: str = ""
    order: int = 0


@cache
def all_pages() -> tuple[Page, ...]:
    """Every page that has a folder under `pages`, in order of the tabs."""
    found = []
    for module in pkgutil.iter_modules(pages_folder.__path__):
        page = import_module(f"{pages_folder.__name__}.{module.name}").PAGE
        assert isinstance(page, Page), f"{module.name} has no PAGE"
        found.append(page)
    return tuple(sorted(found, key=lambda page: page.order))
