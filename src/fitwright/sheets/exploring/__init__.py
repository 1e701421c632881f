"""Many ways of making a job in files: the table, and price against stiffness against weight as a picture."""

from fitwright.sheets.exploring.picture import Frame, Spot, explored_svg, spots_of
from fitwright.sheets.exploring.writing import check_endings, write_explored

__all__ = ["Frame", "Spot", "check_endings", "explored_svg", "spots_of", "write_explored"]
