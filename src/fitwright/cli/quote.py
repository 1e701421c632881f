"""The quote that the client gets."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.money import margin_option
from fitwright.cli.opening import assessed
from fitwright.cli.program import job_argument, main, shop_option, told


@main.command()
@job_argument
@shop_option
@click.option("--to", "file", type=click.Path(path_type=Path), required=True, help="The PDF to write.")
@margin_option
@told
def quote(job: Path, shop_file: Path | None, file: Path, margin: str | None) -> None:
    """Write the client's quote: one page with drawing, scope, price, what is excluded, care and terms."""
    from fitwright.cli.money import margin_of, priced_at
    from fitwright.sheets.quote import write_quote
    from fitwright.sheets.quote.client import money

    assessment = assessed(job, shop_file)
    asked = priced_at(assessment, margin_of(margin))
    write_quote(assessment, file, margin=asked.margin)
    currency = assessment.shop.currency
    click.echo(
        f"{money(asked.net)} {currency} before tax, {money(asked.total)} with it, deposit {money(asked.deposit)}"
    )
    click.echo(f"  {file}")
