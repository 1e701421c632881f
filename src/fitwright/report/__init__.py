"""Everything computed, as plain JSON: an interface, with units in the names of its keys."""

from fitwright.report.chances import chances_as_json
from fitwright.report.welds import welding_as_json
from fitwright.report.whole import findings_as_json, report, report_schema

__all__ = ["chances_as_json", "findings_as_json", "report", "report_schema", "welding_as_json"]
