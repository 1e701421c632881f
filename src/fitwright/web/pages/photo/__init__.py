"""The photo of the old piece: marks on it, what they measure, the piece laid over it, dims that follow."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.photo.answers import moved, over, photo, picture, results, snapped_to
from fitwright.web.pages.photo.changing import (
    accept,
    add_edge,
    add_known,
    add_measure,
    add_plane,
    follow,
    move,
    put_back,
    send,
)
from fitwright.web.pages.photo.changing import place as set_place
from fitwright.web.pages.photo.changing import take_out as remove

_AT = "/jobs/{job}/photo"
_SPOTS = "spots"

PAGE = Page(
    "photo",
    (
        Call("GET", _AT, photo, "the photo with its marks and what they measure"),
        Call("GET", f"{_AT}/results", results, "what the marks measure"),
        Call("GET", f"{_AT}/picture", picture, "the picture upright", gives="image/jpeg"),
        Call("GET", f"{_AT}/piece.svg", over, "the piece as the camera would see it", gives="image/svg+xml"),
        Call("POST", f"{_AT}/picture", send, "take a picture of the old piece", ("revision",), files=("picture",)),
        Call("POST", f"{_AT}/moved", moved, "what a moved mark would measure", ("spot", "u", "v")),
        Call(
            "POST",
            f"{_AT}/snapped",
            snapped_to,
            "places moved onto the nearest strong edge",
            (_SPOTS,),
            gives="application/json",
        ),
        Call("POST", f"{_AT}/move", move, "move a mark", ("revision", "spot", "u", "v")),
        Call("POST", f"{_AT}/edge", add_edge, "mark an edge", ("revision", "along", _SPOTS)),
        Call(
            "POST", f"{_AT}/plane", add_plane, "say which spots lie in a plane", ("revision", "name", "across", _SPOTS)
        ),
        Call("POST", f"{_AT}/known", add_known, "say a known length", ("revision", "name", "kind", _SPOTS, "is")),
        Call("POST", f"{_AT}/measure", add_measure, "ask for a measure", ("revision", "name", "kind", _SPOTS)),
        Call("POST", f"{_AT}/follow", follow, "let a dim follow the old piece", ("revision", "name", "from")),
        Call("POST", f"{_AT}/place", set_place, "say where a spot is on the piece", ("revision", "spot", "at")),
        Call("POST", f"{_AT}/remove", remove, "take a mark out", ("revision", "what", "name")),
        Call("POST", f"{_AT}/dims", accept, "take proposed dims into the job", ("revision", "name")),
        Call("POST", f"{_AT}/undo", put_back, "take the last change of a mark back", ("revision", "version")),
    ),
    tab="Photo",
    at="/photo",
    order=12,
)
