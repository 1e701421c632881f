"""Lists for a spreadsheet: cut list, buying, hardware, welds and findings, as CSV files and as one workbook."""

from fitwright.sheets.lists.csv_file import as_csv
from fitwright.sheets.lists.listing import Column, Listing
from fitwright.sheets.lists.of_job import listings
from fitwright.sheets.lists.workbook import as_workbook

__all__ = ["Column", "Listing", "as_csv", "as_workbook", "listings"]
