"""The quote as the client sees it, and apart from it what the job costs the shop."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.quote.answers import client, margin, pdf, quote, quote_page, record, shop, shop_costs, shop_pdf

PAGE = Page(
    "quote",
    (
        Call("GET", "/jobs/{job}/quote", quote, "the quote as the client sees it"),
        Call("GET", "/jobs/{job}/quote/client", client, "the quote's paper, or how far it is", later=True),
        Call(
            "GET",
            "/jobs/{job}/quote/{number:int}.svg",
            quote_page,
            "a page of the quote",
            gives="image/svg+xml",
            later=True,
        ),
        Call("GET", "/jobs/{job}/quote/quote.pdf", pdf, "the quote", gives="application/pdf", later=True),
        Call("GET", "/jobs/{job}/quote/shop", shop, "what the job costs the shop"),
        Call("GET", "/jobs/{job}/quote/shop/costs", shop_costs, "its lines, or how far they are", later=True),
        Call(
            "GET",
            "/jobs/{job}/quote/shop/costs.pdf",
            shop_pdf,
            "the shop's cost sheet",
            gives="application/pdf",
            later=True,
        ),
        Call("POST", "/jobs/{job}/quote/margin", margin, "set the job's own margin", ("revision", "margin")),
        Call(
            "POST",
            "/jobs/{job}/quote/record",
            record,
            "keep the quote in the records",
            ("revision",),
            later=True,
        ),
    ),
    tab="Quote",
    at="/quote",
    order=70,
)
