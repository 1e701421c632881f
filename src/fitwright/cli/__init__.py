"""The command line: the same verbs as the workbench, for a terminal or a script. One file a verb.

A verb joins the program when its module is imported; heavy rooms are imported inside the verb, so that the program
starts quickly.
"""

from fitwright.cli import (
    bend,
    built,
    chance,
    check,
    cut,
    explore,
    new,
    packet,
    photo,
    price,
    quote,
    readings,
    records,
    remember,
    report,
    route,
    schema,
    serve,
    trial,
    welds,
)
from fitwright.cli.program import main

__all__ = [
    "bend",
    "built",
    "chance",
    "check",
    "cut",
    "explore",
    "main",
    "new",
    "packet",
    "photo",
    "price",
    "quote",
    "readings",
    "records",
    "remember",
    "report",
    "route",
    "schema",
    "serve",
    "trial",
    "welds",
]
