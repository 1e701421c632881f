"""Why? Every number opens its formula with the values put in, its basis, and what it is worked out from as links."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.why.answers import moves_finding, of_cost, of_dim, of_finding, of_part, of_step_cost

PAGE = Page(
    "why",
    (
        Call("GET", "/jobs/{job}/why/dim/{name}", of_dim, "how a dim is worked out"),
        Call("GET", "/jobs/{job}/why/part/{mark}", of_part, "how a part's length and weight are worked out"),
        Call("GET", "/jobs/{job}/why/cost/{kind}", of_cost, "what a kind of cost is made of", later=True),
        Call("GET", "/jobs/{job}/why/step-cost/{number:int}", of_step_cost, "what a step costs", later=True),
        Call(
            "GET", "/jobs/{job}/why/moves/{key:path}", moves_finding, "what moves a check, found by trying", later=True
        ),
        Call("GET", "/jobs/{job}/why/finding/{key:path}", of_finding, "how a check was made"),
    ),
)
