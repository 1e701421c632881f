"""The same job made many ways."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import assessed, job_file, print_json
from fitwright.cli.program import job_argument, json_option, main, shop_option, told


@main.command()
@job_argument
@shop_option
@click.option(
    "--vary", "varies", multiple=True, required=True, metavar="NAME=VALUES",
    help="What to vary; may be given several times. depth=22..28:4 takes four values from 22 to 28, depth=22|25 these "
    "two, depth=22..28 any between (with --sample). A name without a dot is a dim; stock.frame, finish.steel or "
    "brief.loads.shelf are anything else in the job file.",
)  # fmt: skip
@click.option("--sample", "count", type=click.IntRange(1), help="So many points spread evenly, instead of all.")
@click.option("--spread", type=click.Choice(["sobol", "latin"]), default="sobol", show_default=True, help="How.")
@click.option("--seed", type=int, default=0, show_default=True, help="The same seed gives the same sample.")
@click.option("--to", "files", type=click.Path(path_type=Path), multiple=True,
              help="Write the table (.csv, .json) or the picture (.svg, .pdf, .png); several times.")  # fmt: skip
@click.option("--workers", type=click.IntRange(1), help="Processes on this machine; as many as it has cores.")
@click.option("--cluster", metavar="ADDRESS", help="Work on this Dask scheduler instead, such as tcp://10.0.0.5:8786.")
@json_option
@told
def explore(
    job: Path, shop_file: Path | None, varies: tuple[str, ...], count: int | None, spread: str, seed: int,
    files: tuple[Path, ...], workers: int | None, cluster: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Work the whole job out for many sizes and stocks: price, weight, stiffness, the worst finding of each.

    Ctrl-C stops with the points that are done.
    """
    from fitwright.pricing.exploring import Base, grid, read_vary, sampled
    from fitwright.pricing.exploring import explore as explored
    from fitwright.report.costs import tried_as_json
    from fitwright.report.point import judge
    from fitwright.sheets.exploring import check_endings, write_explored
    from fitwright.sheets.money_terminal import print_tried
    from fitwright.sheets.terminal import steps_shown, stopped_by_hand

    check_endings(files)
    assessment = assessed(job, shop_file)
    text = job_file(job).read_text(encoding="utf-8-sig")
    what = [read_vary(said, text, assessment.job.style) for said in varies]
    points = grid(what) if count is None else sampled(what, count, seed, "latin" if spread == "latin" else "sobol")
    base = Base(text, assessment.shop, assessment.learnt)
    with steps_shown() as show, stopped_by_hand() as stopped:
        show(f"0 of {len(points)}", 0.0)
        rows = explored(
            points, base, judge, workers=workers, cluster=cluster, stop=stopped,
            progress=lambda done, total, _: show(f"{done} of {total}", done / total),
        )  # fmt: skip
    if as_json:
        print_json([tried_as_json(one) for one in rows])
    else:
        print_tried(rows, assessment.job.style)
    if len(rows) < len(points):
        click.echo(f"stopped: {len(rows)} of {len(points)} points are done", err=True)
    for file in files:
        write_explored(file, rows, what, assessment)
        click.echo(f"  {file}", err=as_json)
