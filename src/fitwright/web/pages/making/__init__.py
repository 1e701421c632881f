"""Bench sheets, templates, timber and finish, as they print at true scale."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.making.answers import making, papers, sheet

PAGE = Page(
    "making",
    (
        Call("GET", "/jobs/{job}/making", making, "bench sheets, templates, timber and finish"),
        Call("GET", "/jobs/{job}/making/{trade}/all", papers, "the sheets of one trade as they print", later=True),
        Call(
            "GET",
            "/jobs/{job}/making/{trade}/{number:int}.svg",
            sheet,
            "one sheet of a trade at true scale",
            gives="image/svg+xml",
            later=True,
        ),
    ),
    tab="Making",
    at="/making",
    order=56,
)
