"""What the verbs for records have in common: where they are, and the shop whose words they use."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from fitwright.shop import Shop
    from fitwright.shop.records.keeping import Records

records_option = click.option(
    "--records",
    "at",
    default="",
    help="Where the records are: a file, or postgresql://user@server/database. Else FITWRIGHT_RECORDS, else what the "
    "shop file says, else a file in your data folder.",
)
day_option = click.option(
    "--day", type=click.DateTime(["%Y-%m-%d"]), help="The day it was, such as 2027-02-03; today when left out."
)


def shop_of(shop_file: Path | None) -> Shop:
    """The profile that was given, the one in this folder, or the shipped one in inches."""
    from fitwright.shop import default_shop, load_shop

    here = Path("shop.yaml")
    if shop_file is None and here.is_file():
        shop_file = here
    return load_shop(shop_file) if shop_file is not None else default_shop("inch")


def opened(at: str, shop: Shop) -> Records:
    """The records, made if there are none yet; a copy made before they were brought up to date is told."""
    from fitwright.shop.records import open_records, where

    records = open_records(where(at, shop.records))
    if records.copied_to is not None:
        click.echo(f"The records were brought up to date; as they were before: {records.copied_to}", err=True)
    return records
