"""What holds, what is tight and what fails."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from fitwright.cli.opening import assessed, print_json
from fitwright.cli.program import SOMETHING_FAILS, job_argument, json_option, main, shop_option, told


@main.command()
@job_argument
@shop_option
@click.option(
    "--all",
    "thorough",
    is_flag=True,
    help="With the chances of virtual builds, the pull of the welds, bench and finish; takes seconds.",
)
@json_option
@told
def check(job: Path, shop_file: Path | None, thorough: bool, as_json: bool) -> None:
    """Say what holds, what is tight and what fails. Exit code 1 when something fails, 2 when the file is wrong."""
    from fitwright.findings import Verdict

    assessment = assessed(job, shop_file)
    findings = assessment.all_findings if thorough else assessment.findings
    if as_json:
        from fitwright.report import findings_as_json

        print_json(findings_as_json(findings))
    else:
        from fitwright.sheets.terminal import print_findings

        print_findings(findings, assessment.job.style)
        if not thorough:
            click.echo(
                "not looked at here: the chance that it comes out right, the pull of welds, bench, finish, price, the "
                "way in (--all)"
            )
    sys.exit(SOMETHING_FAILS if any(f.verdict is Verdict.FAILS for f in findings) else 0)
