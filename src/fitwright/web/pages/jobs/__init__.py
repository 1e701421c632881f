"""The jobs: what is under way and in what state, new ones from a starter, copies, and what was put away."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.jobs.answers import archive, archived, begin, bring_back, card, duplicate, jobs
from fitwright.web.pages.jobs.starting import starter_dims, starter_shown, starter_still

PAGE = Page(
    "jobs",
    (
        Call("GET", "/", jobs, "the list of jobs"),
        Call("POST", "/jobs", begin, "begin a job from a starter", ("name", "starter")),
        Call("GET", "/jobs/{job}/card", card, "a job as the list shows it"),
        Call("POST", "/jobs/{job}/duplicate", duplicate, "copy a job", ("name",)),
        Call("POST", "/jobs/{job}/archive", archive, "put a job away"),
        Call("GET", "/archived", archived, "jobs put away"),
        Call("POST", "/archived/{job}/bring-back", bring_back, "take an archived job up again"),
        Call("GET", "/starters", starter_dims, "the dims of a starter, to be typed"),
        Call("GET", "/starters/{starter}/shown", starter_shown, "what typed dims make of a starter"),
        Call("GET", "/starters/{starter}/still.svg", starter_still, "a picture of a starter", gives="image/svg+xml"),
    ),
)
