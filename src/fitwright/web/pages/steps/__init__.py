"""The build step by step, to follow at the bench: ticked off, timed, readings written down."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.steps.answers import cards, done, hours, reading, steps, timer

PAGE = Page(
    "steps",
    (
        Call("GET", "/jobs/{job}/steps", steps, "the steps of the build, to follow at the bench"),
        Call("GET", "/jobs/{job}/steps/cards", cards, "the steps as cards, what is next and what waits", later=True),
        Call("POST", "/jobs/{job}/steps/done", done, "tick a step off, or take the tick back", ("step", "done")),
        Call("POST", "/jobs/{job}/steps/timer", timer, "start or stop the timer of a step", ("step", "run")),
        Call("POST", "/jobs/{job}/steps/hours", hours, "set the hours of a step", ("step", "hours")),
        Call("POST", "/jobs/{job}/steps/reading", reading, "keep a reading", ("step", "of", "is")),
    ),
    tab="Steps",
    at="/steps",
    order=57,
)
