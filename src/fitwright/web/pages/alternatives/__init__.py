"""The job made otherwise: each alternative worked out whole, as a picture where a point opens its job."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.alternatives.answers import alternatives, begin, one, tried

PAGE = Page(
    "alternatives",
    (
        Call("GET", "/jobs/{job}/alternatives", alternatives, "the alternatives"),
        Call("GET", "/jobs/{job}/alternatives/tried", tried, "those worked out so far, as a picture", later=True),
        Call("GET", "/jobs/{job}/alternatives/{number:int}", one, "one of them"),
        Call("POST", "/jobs/{job}/alternatives/{number:int}/begin", begin, "make a job of it", ("name",)),
    ),
    tab="Alternatives",
    at="/alternatives",
    order=80,
)
