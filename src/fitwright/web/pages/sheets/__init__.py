"""The sheets as they print, and the packet's files made on request."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.sheets.answers import file, make, making, papers, sheet, sheets

PAGE = Page(
    "sheets",
    (
        Call("GET", "/jobs/{job}/sheets", sheets, "the sheets' page"),
        Call("GET", "/jobs/{job}/sheets/all", papers, "every sheet as it prints", later=True),
        Call(
            "GET",
            "/jobs/{job}/sheets/{number:int}.svg",
            sheet,
            "one sheet as it prints",
            gives="image/svg+xml",
            later=True,
        ),
        Call("POST", "/jobs/{job}/sheets/make", make, "make the packet and its files", ("solids",), later=True),
        Call("GET", "/jobs/{job}/sheets/making", making, "how far the packet is"),
        Call("GET", "/jobs/{job}/files/{file}", file, "a file of the packet", gives="application/octet-stream"),
    ),
    tab="Sheets",
    at="/sheets",
    order=20,
)
