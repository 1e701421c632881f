"""Readings taken while building, and what follows from them."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import assessed, print_json
from fitwright.cli.program import NO_FRAME, NoFrame, job_argument, json_option, main, shop_option, told


@main.command()
@job_argument
@shop_option
@click.option("--quick", is_flag=True, help="Leave out the numbers that change, which take some seconds.")
@json_option
@told
def readings(job: Path, shop_file: Path | None, quick: bool, as_json: bool) -> None:
    """Say what follows from the job's readings: what is off, what to put right, which numbers change.

    A reading that no error of the shop explains is questioned instead of believed.
    """
    from fitwright.report.readings import readings_as_json
    from fitwright.sheets.truing_told import print_truing, truing_told

    assessment = assessed(job, shop_file)
    if assessment.job.readings and assessment.making is None:
        raise NoFrame(NO_FRAME.format(job))
    if as_json:
        print_json(readings_as_json(assessment))
    elif assessment.truing is None:
        click.echo("The job has no readings yet: write them under readings:, or enter them in the workbench.")
    else:
        print_truing(truing_told(assessment, assessment.truing, () if quick else assessment.changes))
