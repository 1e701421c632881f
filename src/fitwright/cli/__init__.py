"""The command line: the same verbs as the workbench, for a terminal or a script. One file a verb.

A verb joins the program when its module is imported; heavy rooms are imported inside the verb, so that the program
starts quickly.
"""

from fitwright.cli import bend, chance, check, cut, new, packet, photo, report, schema, serve, welds
from fitwright.cli.program import main

__all__ = ["bend", "chance", "check", "cut", "main", "new", "packet", "photo", "report", "schema", "serve", "welds"]
