"""A trial bend, kept, and what it means."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import click

from fitwright.cli.kept import day_option, opened, records_option, shop_of
from fitwright.cli.program import main, shop_option, told


@main.command()
@click.option("--die", "die_name", required=True, help="The die's name in the shop file.")
@click.option("--stock", required=True, help='What was bent: "round tube 1 1/8 x 14 ga".')
@click.option("--set", "asked", required=True, help="The angle that the machine was set to, in degrees.")
@click.option(
    "--got", required=True, multiple=True, help="The angle measured after release; several for several bends."
)
@click.option("--heat", default="", help="Heat or bundle of the material, so that others are told from it.")
@click.option("--blank", help="Length of the piece before it was bent.")
@click.option("--legs", help='From each end to the corner of the centrelines: "11, 10 1/4".')
@click.option("--mark", help="Where the mark was set to the die, from the end that you started from.")
@click.option("--note", default="", help="Anything else worth knowing.")
@day_option
@shop_option
@records_option
@told
def trial(
    die_name: str,
    stock: str,
    asked: str,
    got: tuple[str, ...],
    heat: str,
    blank: str | None,
    legs: str | None,
    mark: str | None,
    note: str,
    day: datetime | None,
    shop_file: Path | None,
    at: str,
) -> None:
    """Keep a trial bend, and say what to bend to from now on.

    Give --blank and --legs of a measured piece as well and the die's take-up is learnt; with --mark its offset.
    """
    from fitwright.making.bending.trialled import trialled
    from fitwright.sheets.terminal import style_of
    from fitwright.shop.learning import learn
    from fitwright.shop.records import OnHand, Trial
    from fitwright.shop.trying import Try, trials_of

    shop = shop_of(shop_file)
    said = Try(die_name, stock, asked, got, heat, blank or "", legs or "", mark or "", note)
    die, tube, trials = trials_of(said, shop, day.date() if day else date.today())
    with opened(at, shop) as records:
        records.add_all(trials)
        learnt = learn(shop, records.all(Trial), stock=records.all(OnHand))
    style = style_of(shop.unit)
    for line in trialled(die, tube, learnt).told(style):
        click.echo(line)
    measured = learnt.take_ups.get(die.name)
    if measured is not None:
        click.echo(
            f"Take-up {measured.value:.3f}, {measured.low:.3f} to {measured.high:.3f}, {_pieces(measured.count)}."
        )
    offset = learnt.offsets.get(die.name)
    if offset is not None:
        value, low, high = (style.length(one) for one in (offset.value, offset.low, offset.high))
        click.echo(f"Offset {value}, {low} to {high}, {_pieces(offset.count)}.")


def _pieces(count: int) -> str:
    return f"from {count} measured piece{'s' if count != 1 else ''}"
