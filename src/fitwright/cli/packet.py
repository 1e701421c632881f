"""The shop packet."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import assessed
from fitwright.cli.program import job_argument, main, shop_option, told


@main.command()
@job_argument
@shop_option
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    required=True,
    help="The folder to write to; made if it is not there.",
)
@click.option(
    "--paper", type=click.Choice(["letter", "a4"]), help="Letter for inch jobs and A4 for metric ones, unless said."
)
@click.option("--without-step", is_flag=True, help="Leave the STEP solids out; the rest is quicker.")
@told
def packet(job: Path, shop_file: Path | None, folder: Path, paper: str | None, without_step: bool) -> None:
    """Write the shop packet: PDF, drawings (DXF, SVG), solids (STEP), lists (CSV, XLSX) and the report."""
    from fitwright.sheets.packet import write_packet
    from fitwright.sheets.terminal import print_findings, steps_shown

    assessment = assessed(job, shop_file)
    with steps_shown() as progress:
        files = write_packet(assessment, folder, paper=paper, solids=not without_step, progress=progress)
    print_findings(assessment.all_findings, assessment.job.style)
    for file in files:
        click.echo(f"  {file}")
    for note in files.notes:
        click.echo(f"note: {note}")
