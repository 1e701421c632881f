"""Sizes off the reference photo."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import job_file, picture_of, print_json
from fitwright.cli.program import job_argument, json_option, main, told


@main.command()
@job_argument
@json_option
@told
def photo(job: Path, as_json: bool) -> None:
    """Measure from the reference photo by the marks in the job file, each length with its plus or minus (95 %)."""
    from fitwright.job import load_job
    from fitwright.place.photo import solve_photo
    from fitwright.place.photo.telling import as_json as told_as_json
    from fitwright.place.photo.telling import told as told_lines

    file = job_file(job)
    loaded = load_job(file)
    solved, lost = solve_photo(loaded.photo, picture_of(loaded.photo.picture if loaded.photo else "", file.parent))
    if as_json:
        print_json({**told_as_json(solved), "not_found": list(lost)})
    else:
        for line in [*told_lines(solved, loaded.style), *(f"note: {one}" for one in lost)]:
            click.echo(line)
