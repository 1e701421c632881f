"""A job to begin with."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from fitwright.cli.program import WRONG_FILE, main, told
from fitwright.errors import FitwrightError


class NoName(FitwrightError, ValueError):
    """A job that is to be called nothing."""


@main.command()
@click.argument("name", required=False)
@click.option("--from", "starter", help="The starter to copy; without NAME, the starters are listed.")
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    default=Path(),
    show_default="here",
    help="Where to put the new folder.",
)
@click.option("--example", is_flag=True, help="With the starter's own client, date, place and photo, to look around.")
@told
def new(name: str | None, starter: str | None, folder: Path, example: bool) -> None:
    """Make a folder NAME with a job.yaml to change, from a starter or from a job of yours."""
    from fitwright.job import new_job, starters

    if name is not None and not name.strip():
        raise NoName('a job needs a name: fitwright new "Hall bench" --from workbench')
    if name is None or starter is None:
        if name is not None:
            click.echo(f"say what {name} starts from, with --from and one of these:", err=True)
        click.echo("Starters, for fitwright new NAME --from STARTER:")
        for one in starters():
            click.echo(f"  {one.name:<18} {one.title}")
        sys.exit(0 if name is None else WRONG_FILE)
    made = new_job(folder / name, starter, name, own=not example and starter in {one.name for one in starters()})
    folder_told = f'"{made.parent}"' if " " in str(made.parent) else str(made.parent)
    click.echo(f"Made {made}. Change its dims, then: fitwright check {folder_told}")
