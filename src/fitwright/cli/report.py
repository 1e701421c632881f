"""Everything computed, as JSON."""

from __future__ import annotations

from pathlib import Path

from fitwright.cli.opening import assessed, print_json
from fitwright.cli.program import job_argument, main, shop_option, told


@main.command()
@job_argument
@shop_option
@told
def report(job: Path, shop_file: Path | None) -> None:
    """Print everything computed as JSON; its schema: fitwright schema --report."""
    from fitwright.report import report as reported

    print_json(reported(assessed(job, shop_file)))
