"""What a job costs the shop, and what to ask for it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fitwright.cli.money import margin_option
from fitwright.cli.opening import assessed, job_file, print_json
from fitwright.cli.program import job_argument, json_option, main, shop_option, told

if TYPE_CHECKING:
    from fitwright.pricing.exploring import Tried


@main.command()
@job_argument
@shop_option
@margin_option
@click.option("--to", "file", type=click.Path(path_type=Path), help="Write your own cost sheet as this PDF.")
@click.option(
    "--alternatives", is_flag=True, help="With the price of heavier and lighter stock, one less, other wood and finish."
)
@json_option
@told
def price(
    job: Path, shop_file: Path | None, margin: str | None, file: Path | None, alternatives: bool, as_json: bool
) -> None:
    """What it costs by kind and step, how sure that is, and the price. For the shop, not for the client."""
    from fitwright.cli.money import margin_of, priced_at
    from fitwright.report.costs import costs, tried_as_json
    from fitwright.sheets.money_terminal import print_costs, print_tried
    from fitwright.sheets.terminal import steps_shown

    assessment = assessed(job, shop_file)
    asked = priced_at(assessment, margin_of(margin))
    tried: tuple[Tried, ...] = ()
    if alternatives:
        from fitwright.pricing.exploring import Base, alternatives_of, explore
        from fitwright.report.point import judge

        text = job_file(job).read_text(encoding="utf-8-sig")
        points = alternatives_of(text, assessment.job, assessment.shop)
        base = Base(text, assessment.shop, assessment.learnt)
        with steps_shown() as show:
            tried = explore(
                points, base, judge, progress=lambda done, total, one: show(one.point.words, done / total)
            )  # fmt: skip
    if as_json:
        print_json({**costs(assessment, asked), "alternatives": [tried_as_json(one) for one in tried]})
    else:
        print_costs(assessment, asked)
        if tried:
            print_tried(tried, assessment.job.style)
    if file is not None:
        from fitwright.sheets.quote import write_cost_sheet

        write_cost_sheet(assessment, file, margin=asked.margin, tried=tried)
        click.echo(f"  {file}", err=as_json)
