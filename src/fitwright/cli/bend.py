"""A quick bend sheet without a job."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import print_json, tell_unreached
from fitwright.cli.program import UNITS, Unit, json_option, main, shop_option, told


@main.command()
@click.option("--points", help='Corners of the centreline: "0,0,0; 0,0,34; 16,0,34".')
@click.option("--legs", help='Instead: lengths from corner to corner: "34, 16, 34".')
@click.option("--angles", help='With legs, the bend at each corner in degrees: "90, 90".')
@click.option(
    "--rotations",
    default="",
    help='With legs, the turn between one bend and the next in degrees: "0"; 0 when left out. Positive '
    "turns the tube clockwise, seen from the end not bent yet and looking toward the start.",
)
@click.option("--radius", required=True, help='Bend radius on the centreline; one for all, or one each: "4 1/2, 3".')
@click.option(
    "--stock", "stock", help='The tube or bar: "round tube 1 1/8 x 14 ga". Needed for springback and the die.'
)
@click.option(
    "--unit",
    type=click.Choice(UNITS),
    default="inch",
    show_default=True,
    help="Unit of bare numbers, and of what is printed.",
)
@shop_option
@json_option
@told
def bend(
    points: str | None,
    legs: str | None,
    angles: str | None,
    rotations: str,
    radius: str,
    stock: str | None,
    unit: Unit,
    shop_file: Path | None,
    as_json: bool,
) -> None:
    """Where to mark, turn and bend one tube, from a path of points or from legs and angles."""
    from fitwright.making.bending import bend_as_json, bend_from_legs, bend_from_points
    from fitwright.sheets.terminal import print_bends, style_of
    from fitwright.shop import default_shop, load_shop
    from fitwright.shop.equipped import equipped_or_told
    from fitwright.shop.records import where
    from fitwright.stock import parse_stock

    if (points is None) == (legs is None) or (legs is None) != (angles is None):
        raise click.UsageError("give either --points, or --legs with --angles")
    profile = load_shop(shop_file) if shop_file else default_shop(unit)
    shop, learnt, unreached = equipped_or_told(profile, where(of_shop=profile.records))
    tell_unreached(unreached)
    tube = parse_stock(stock, unit=unit) if stock else None
    radii = _lengths(radius, unit)
    one = radii[0] if len(radii) == 1 else radii
    style = style_of(unit)
    if points is not None:
        rows = [_lengths(row, unit) for row in points.split(";") if row.strip()]
        sheet = bend_from_points(rows, one, stock=tube, shop=shop, style=style, learnt=learnt)
    else:
        sheet = bend_from_legs(
            _lengths(legs or "", unit),
            _angles(angles or ""),
            _angles(rotations),
            one,
            stock=tube,
            shop=shop,
            style=style,
            learnt=learnt,
        )
    if as_json:
        print_json(bend_as_json(sheet))
    else:
        print_bends(sheet, style)


def _lengths(text: str, unit: Unit) -> list[float]:
    from fitwright.units import parse_length

    return [parse_length(part, unit) for part in text.split(",")]


def _angles(text: str) -> list[float]:
    from fitwright.units import parse_angle

    return [parse_angle(part) for part in text.split(",")] if text.strip() else []
