"""The piece: dims on the left, the piece in its space in the middle, findings on the right."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.piece.answers import (
    dims,
    events,
    findings,
    in_words,
    longer,
    piece,
    set_dim,
)
from fitwright.web.pages.piece.pictures import bent, mesh, pulled, sizes, still

PAGE = Page(
    "piece",
    (
        Call("GET", "/jobs/{job}", piece, "the piece's page"),
        Call("GET", "/jobs/{job}/dims", dims, "the dims as they now are"),
        Call("POST", "/jobs/{job}/dims", set_dim, "give a dim a new value", ("revision", "name", "was", "text")),
        Call("GET", "/jobs/{job}/findings", findings, "what holds and what does not"),
        Call(
            "GET",
            "/jobs/{job}/findings/longer",
            longer,
            "the findings that take longer, or how far they are",
            later=True,
        ),
        Call("GET", "/jobs/{job}/in-words", in_words, "the piece in words"),
        Call("GET", "/jobs/{job}/mesh", mesh, "the piece packed for the view in 3-D", gives="application/octet-stream"),
        Call("GET", "/jobs/{job}/bent", bent, "the piece under load, as lines", gives="application/octet-stream"),
        Call(
            "GET",
            "/jobs/{job}/pulled",
            pulled,
            "the piece as welding pulls it, as lines, or how far that is",
            gives="application/octet-stream",
            later=True,
        ),
        Call("GET", "/jobs/{job}/sizes", sizes, "dimension lines of a part", gives="application/octet-stream"),
        Call("GET", "/jobs/{job}/still.svg", still, "the piece as a line picture", gives="image/svg+xml"),
        Call("GET", "/jobs/{job}/events", events, "news of changes", gives="text/event-stream"),
    ),
    tab="Piece",
    order=10,
)
