"""The schemas of what is read and printed."""

from __future__ import annotations

import click

from fitwright.cli.opening import print_json
from fitwright.cli.program import main, told


@main.command()
@click.option("--report", "of_report", is_flag=True, help="The schema of the report instead.")
@told
def schema(of_report: bool) -> None:
    """Print the JSON Schema of the job file, for an editor that completes it."""
    if of_report:
        from fitwright.report import report_schema

        print_json(report_schema())
    else:
        from fitwright.job import job_schema

        print_json(job_schema())
