"""The way in: what stands on it as a form, whether the piece gets through, and how, played step by step."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.way_in.answers import add, answer, change_one, frame, move, remove, way_in

PAGE = Page(
    "way_in",
    (
        Call("GET", "/jobs/{job}/way-in", way_in, "what stands on the way in, and whether the piece gets through"),
        Call("GET", "/jobs/{job}/way-in/answer", answer, "whether the piece gets through, or how far the search is"),
        Call("GET", "/jobs/{job}/way-in/{leg:int}/{step:int}.svg", frame, "one step through one obstacle",
             gives="image/svg+xml"),
        Call("POST", "/jobs/{job}/way-in/add", add, "add an obstacle", ("revision", "kind", "name")),
        Call("POST", "/jobs/{job}/way-in/change", change_one, "change an obstacle", ("revision", "number")),
        Call("POST", "/jobs/{job}/way-in/move", move, "move an obstacle up", ("revision", "number")),
        Call("POST", "/jobs/{job}/way-in/remove", remove, "take an obstacle out", ("revision", "number")),
    ),
    tab="Way in",
    at="/way-in",
    order=55,
)  # fmt: skip
