"""A job's hours and readings, kept in the shop's records."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from fitwright.cli.kept import opened, records_option
from fitwright.cli.opening import job_file, shop_for
from fitwright.cli.program import job_argument, main, shop_option, told


@main.command()
@job_argument
@shop_option
@records_option
@told
def remember(job: Path, shop_file: Path | None, at: str) -> None:
    """Keep the hours and readings that are written in JOB, so that the next one is reckoned with them.

    Say it as often as you like: what was kept of this job before is replaced.
    """
    from fitwright.assess import assess
    from fitwright.job import load_job
    from fitwright.making.plan.remembering import hours_of, readings_of
    from fitwright.shop.records.remembered import remember as keep
    from fitwright.truing.naming import Names

    file = job_file(job)
    loaded = load_job(file)
    shop = shop_for(file, shop_file, loaded.style.unit)
    found = assess(loaded, shop)
    usual, names = found.steps, Names(found.piece, found.set_ups)
    today = date.today()
    hours, readings = list(hours_of(loaded, usual, today)), list(readings_of(loaded, usual, today, names.in_full))
    with opened(at, shop) as records:
        changed = keep(records, loaded.name, hours, readings)
    click.echo(f"{loaded.name}: {len(hours)} times and {len(readings)} readings in the records, {changed} of them new.")
    left = len(loaded.readings) - len(readings)
    if left:
        said = "1 of the readings is" if left == 1 else f"{left} of the readings are"
        click.echo(f"{said} of nothing that a step asks for: kept in the job alone.")
