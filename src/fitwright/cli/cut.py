"""A quick cutting plan without a job."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import print_json
from fitwright.cli.program import UNITS, Unit, json_option, main, told


@main.command()
@click.argument("wanted", metavar="LIST.csv", type=click.Path(path_type=Path))
@click.option(
    "--stock",
    "stock",
    required=True,
    type=click.Path(path_type=Path),
    help="STOCK.csv: length, price, on_hand (blank: buy any number).",
)
@click.option("--kerf", default="0", show_default=True, help="Width of the saw cut, such as 1/8in or 3 mm.")
@click.option("--end-trim", default="0", show_default=True, help="What is cut off a fresh bar's end.")
@click.option(
    "--unit",
    type=click.Choice(UNITS),
    default="inch",
    show_default=True,
    help="Unit of bare numbers, and of what is printed.",
)
@click.option(
    "--seconds",
    type=click.FloatRange(0.1, 3600),
    default=20.0,
    show_default=True,
    help="Stop looking after this long; the bound says how far from the best the plan can be.",
)
@json_option
@told
def cut(wanted: Path, stock: Path, kerf: str, end_trim: str, unit: Unit, seconds: float, as_json: bool) -> None:
    """Cut the pieces of LIST.csv (length, quantity, mark) from the cheapest bars, and prove it."""
    from fitwright.making.cutting import plan_as_json, plan_from_csv
    from fitwright.sheets.terminal import print_plan, style_of
    from fitwright.units import parse_length

    plan = plan_from_csv(
        wanted.read_bytes(), stock.read_bytes(), unit, names=(str(wanted), str(stock)),
        kerf=parse_length(kerf, unit), end_trim=parse_length(end_trim, unit), seconds=seconds,
    )  # fmt: skip
    if as_json:
        print_json(plan_as_json(plan))
    else:
        print_plan(plan, style_of(unit))
