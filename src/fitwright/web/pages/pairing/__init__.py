"""Pairing: where a device on the shop's network shows the code once."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.pairing.answers import ask, pair

PAGE = Page(
    "pairing",
    (
        Call("GET", "/pair", ask, "where the code is given"),
        Call("POST", "/pair", pair, "let this device in", ("code",)),
    ),
)
