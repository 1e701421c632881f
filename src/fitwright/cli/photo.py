"""Sizes off the reference photo."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import job_file, print_json, shop_for
from fitwright.cli.program import job_argument, json_option, main, shop_option, told


@main.command()
@job_argument
@shop_option
@json_option
@told
def photo(job: Path, shop_file: Path | None, as_json: bool) -> None:
    """Measure from the reference photo by the marks in the job file, each length with its plus or minus (95 %).

    Where the file says which dims follow it, they are proposed: held dims, stock on sale and the place kept.
    """
    from fitwright.job import load_job
    from fitwright.job.beside import Beside
    from fitwright.place.photo.answering import photo_answer, solved_of
    from fitwright.place.photo.telling import as_json as told_as_json
    from fitwright.place.photo.telling import dims_as_json, dims_told
    from fitwright.place.photo.telling import told as told_lines

    file = job_file(job)
    loaded = load_job(file)
    answer = photo_answer(loaded, shop_for(file, shop_file, loaded.style.unit), Beside(file.parent))
    solved = solved_of(answer)
    notes = [*answer.not_found, *([answer.wrong] if answer.wrong else [])] if answer else []
    dims = answer.dims if answer else None
    if as_json:
        print_json({**told_as_json(solved), "dims": dims_as_json(dims), "not_found": notes})
    else:
        for line in [*told_lines(solved, loaded.style), *(f"note: {one}" for one in notes)]:
            click.echo(line)
        for line in dims_told(dims, loaded.style):
            click.echo(line)
