"""Earlier versions of a job file: what each change replaced, to look at and to take up again."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.versions.answers import earlier, restore, version

PAGE = Page(
    "versions",
    (
        Call("GET", "/jobs/{job}/versions", earlier, "earlier versions of the job file"),
        Call("GET", "/jobs/{job}/versions/{version}", version, "one earlier version against the present"),
        Call("POST", "/jobs/{job}/versions/{version}/restore", restore, "take up an earlier version", ("revision",)),
    ),
)
