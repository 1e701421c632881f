"""A job that was built: its bars come off the rack, its offcuts go on, its hours and readings are kept."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import click

from fitwright.cli.kept import day_option, opened, records_option
from fitwright.cli.opening import job_file, shop_for
from fitwright.cli.program import job_argument, main, shop_option, told


@main.command()
@job_argument
@click.option("--again", is_flag=True, help="Take the bars off although it was done before for this job.")
@click.option("--bought", is_flag=True, help="Keep the other bars as purchases, at the prices they were planned with.")
@day_option
@shop_option
@records_option
@told
def built(job: Path, again: bool, bought: bool, day: datetime | None, shop_file: Path | None, at: str) -> None:
    """Take the bars of JOB's cutting plan off the rack, and put the usable offcuts on it."""
    from fitwright.assess import assess
    from fitwright.job import load_job
    from fitwright.shop.equipped import equipped
    from fitwright.shop.records.rack import use_up

    file = job_file(job)
    loaded = load_job(file)
    shop = shop_for(file, shop_file, loaded.style.unit)
    length = loaded.style.length
    with opened(at, shop) as records:
        assessment = assess(loaded, *equipped(shop, records.place))
        least = shop.prices.pricing.usable
        when = day.date() if day else date.today()
        done = use_up(records, loaded.name, assessment.bars_used, when, again=again, bought=bought, least=least)
    for bar in done.taken:
        click.echo(f"off the rack: {bar.label}, {length(bar.length)}")
    for one in done.put:
        click.echo(f"on the rack: {one.count} × {one.label}, {length(one.length)}")
    for buy in done.bought:
        click.echo(f"bought: {buy.count} × {buy.what}, {buy.price} {shop.currency} each")
    for bar in done.not_recorded:
        click.echo(f"cross out in the shop file: {bar.label}, {length(bar.length)}")
    said = "offcut is" if done.scrap == 1 else "offcuts are"
    click.echo(f"scrap: {done.scrap} {said} shorter than {length(least)}")
