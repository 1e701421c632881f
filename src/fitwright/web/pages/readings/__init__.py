"""Readings taken on the real parts: entered one by one, with what follows from them at once."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.readings.answers import add, changed, picture, readings, remove, told

PAGE = Page(
    "readings",
    (
        Call("GET", "/jobs/{job}/readings", readings, "readings, and what follows from them"),
        Call("GET", "/jobs/{job}/readings/told", told, "what can be read, what was, and what follows"),
        Call("GET", "/jobs/{job}/readings/changed", changed, "the numbers that change, old beside new", later=True),
        Call("GET", "/jobs/{job}/readings/piece.svg", picture, "the corrections on the piece", gives="image/svg+xml"),
        Call("POST", "/jobs/{job}/readings/add", add, "keep a reading", ("of", "is")),
        Call("POST", "/jobs/{job}/readings/remove", remove, "take a reading out", ("of", "number")),
    ),
    tab="Readings",
    at="/readings",
    order=58,
)
