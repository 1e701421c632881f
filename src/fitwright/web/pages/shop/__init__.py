"""The shop: what it has, what lies on the rack, what its dies were found to do, how long it takes, what was quoted."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.shop import dies, hours, overview, quotes, stock

STOCK = ("label", "length", "count", "price", "place", "heat", "note")

PAGE = Page(
    "shop",
    (
        Call("GET", "/shop", overview.shop, "the shop in short"),
        Call("GET", "/shop/shop.yaml", overview.copy, "the shop file that comes with the program", gives="text/yaml"),
        Call("GET", "/shop/stock", stock.stock, "bars and offcuts on hand"),
        Call("POST", "/shop/stock/put", stock.put, "put stock on the rack", STOCK),
        Call("POST", "/shop/stock/{number:int}/change", stock.change, "change what the rack has", ("version", *STOCK)),
        Call("POST", "/shop/stock/{number:int}/take", stock.take, "take one off the rack", ("version",)),
        Call("POST", "/shop/stock/{number:int}/remove", stock.remove, "cross an entry out", ("version",)),
        Call("POST", "/shop/built", stock.built, "take a job's bars off the rack and put its offcuts on it", ("job",),
             later=True),
        Call("GET", "/shop/dies", dies.dies, "dies and their trials"),
        Call("POST", "/shop/dies/trial", dies.keep, "keep a trial bend", ("die", "stock", "asked", "got")),
        Call("GET", "/shop/dies/of", dies.one, "what is known of a die in a stock"),
        Call("POST", "/shop/dies/{number:int}/leave-out", dies.leave_out, "leave a trial out or take it in again",
             ("version", "out")),
        Call("GET", "/shop/hours", hours.hours, "how long the shop takes"),
        Call("POST", "/shop/remember", hours.keep, "keep a job's hours and readings", ("job",), later=True),
        Call("GET", "/shop/quotes", quotes.quotes, "quotes and what became of them"),
        Call("POST", "/shop/quotes/{number:int}/state", quotes.state, "say what became of a quote",
             ("version", "state")),
    ),
    at="/shop",
    order=90,
    top="Shop",
)  # fmt: skip
