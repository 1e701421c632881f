"""A list as CSV."""

from __future__ import annotations

import csv
import io

from fitwright.sheets.lists.listing import Cell, Listing


def as_csv(listing: Listing) -> str:
    """The list as CSV with one heading row, lines ending in CR LF (RFC 4180); empty where there is no value."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow([column.heading for column in listing.columns])
    writer.writerows([_written(cell) for cell in row] for row in listing.rows)
    return out.getvalue()


def _written(cell: Cell) -> str:
    return "" if cell is None else str(cell)
