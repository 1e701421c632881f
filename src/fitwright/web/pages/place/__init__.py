"""The survey of the place, entered on a plan and an elevation, and the piece in it."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.place.answers import (
    add,
    change_one,
    drawn,
    measures,
    picture,
    place,
    remove,
    wishes,
)

PAGE = Page(
    "place",
    (
        Call("GET", "/jobs/{job}/place", place, "the survey of the place, and the piece in it"),
        Call("GET", "/jobs/{job}/place/drawn", drawn, "the piece in its place, and what was found about it"),
        Call("GET", "/jobs/{job}/place/{view}.svg", picture, "the piece in its place", gives="image/svg+xml"),
        Call("POST", "/jobs/{job}/place/measures", measures, "change the lengths of the opening", ("revision",)),
        Call("POST", "/jobs/{job}/place/wishes", wishes, "change the gaps wanted and the rest", ("revision",)),
        Call("POST", "/jobs/{job}/place/add", add, "add a thing or a door", ("revision", "kind", "name")),
        Call("POST", "/jobs/{job}/place/change", change_one, "change a thing or a door", ("revision", "kind", "name")),
        Call("POST", "/jobs/{job}/place/remove", remove, "take out a thing or a door", ("revision", "kind", "name")),
    ),
    tab="Place",
    at="/place",
    order=40,
)
