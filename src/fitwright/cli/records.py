"""The shop's records: what is in them, backup, restore, lists out and in."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fitwright.cli.kept import opened, records_option, shop_of
from fitwright.cli.program import UNITS, Unit, main, shop_option, told

if TYPE_CHECKING:
    from fitwright.shop import Shop

NAMES = ("trials", "readings", "stock", "prices", "hours", "purchases", "quotes", "built")
kind_argument = click.argument("kind", type=click.Choice(NAMES))
file_argument = click.argument("file", type=click.Path(path_type=Path))


@main.group(invoke_without_command=True)
@shop_option
@records_option
@click.pass_context
@told
def records(context: click.Context, shop_file: Path | None, at: str) -> None:
    """What the shop remembers: how much of each kind, and where it is kept.

    With a word more: back it up, restore it, or move lists out and in.
    """
    shop = shop_of(shop_file)
    context.obj = (shop, at)
    if context.invoked_subcommand is None:
        with opened(at, shop) as kept:
            totals = kept.totals()
        click.echo(f"Records in {kept.place}")
        for name, count in totals.items():
            click.echo(f"  {name:<10} {count:>6}")


@records.command()
@file_argument
@click.pass_obj
@told
def backup(of: tuple[Shop, str], file: Path) -> None:
    """Write all records into one FILE."""
    from fitwright.shop.records.backup import back_up

    with opened(of[1], of[0]) as kept:
        totals = back_up(kept, file)
    click.echo(f"{sum(totals.values())} records are in {file}")


@records.command()
@file_argument
@click.pass_obj
@told
def restore(of: tuple[Shop, str], file: Path) -> None:
    """Put what a backup FILE holds in the place of the records; these are backed up beside it first."""
    from fitwright.shop.records.backup import restore as bring_back
    from fitwright.shop.records.where import usual_file

    with opened(of[1], of[0]) as kept:
        beside = kept.place.file or usual_file()
        before = beside.with_name(f"records-before-restore-{date.today()}.db")
        done = bring_back(kept, file, _free(before))
    click.echo(f"{sum(done.totals.values())} records were restored from {file}")
    if done.kept_before is not None:
        click.echo(f"What was there before is in {done.kept_before}")


@records.command("export")
@kind_argument
@file_argument
@click.pass_obj
@told
def export_list(of: tuple[Shop, str], kind: str, file: Path) -> None:
    """Write all records of a KIND as a list into a .csv or .xlsx FILE."""
    from fitwright.shop.records import KINDS
    from fitwright.shop.records.lists import export

    with opened(of[1], of[0]) as kept:
        count = export(kept, KINDS[kind], file)
    click.echo(f"{count} {kind} are in {file}")


@records.command("import")
@kind_argument
@file_argument
@click.option("--unit", type=click.Choice(UNITS), help="Of lengths without one; the shop's when left out.")
@click.pass_obj
@told
def import_list(of: tuple[Shop, str], kind: str, file: Path, unit: Unit | None) -> None:
    """Take in a list of a KIND from a .csv or .xlsx FILE: all rows, or none when any is wrong.

    Rows with an id change that record, others are added. The columns are those that export writes.
    """
    from fitwright.shop.records import KINDS
    from fitwright.shop.records.lists import take_in

    shop, at = of
    with opened(at, shop) as kept:
        done = take_in(kept, KINDS[kind], file, unit or shop.unit, date.today())
    click.echo(f"{done.added} added, {done.changed} changed, {done.same} as they were")


def _free(path: Path) -> Path:
    """A name that nothing has yet."""
    number, found = 1, path
    while found.exists():
        number += 1
        found = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return found
