"""How likely the piece comes out right."""

from __future__ import annotations

from pathlib import Path

import click

from fitwright.cli.opening import assessed, print_json
from fitwright.cli.program import NO_FRAME, NoFrame, job_argument, json_option, main, shop_option, told


@main.command()
@job_argument
@shop_option
@click.option(
    "--builds", "count", type=click.IntRange(1), default=1_000_000, show_default=True, help="How often it is made."
)
@json_option
@told
def chance(job: Path, shop_file: Path | None, count: int, as_json: bool) -> None:
    """Make the piece many times over with the shop's usual errors: how likely it comes out right, and what decides.

    Ctrl-C stops with the builds made so far.
    """
    from fitwright.mechanics.variation import virtual_builds
    from fitwright.report import chances_as_json
    from fitwright.sheets.terminal import print_chances, steps_shown, stopped_by_hand
    from fitwright.sheets.wording import fine

    assessment = assessed(job, shop_file)
    making = assessment.making
    if making is None:
        raise NoFrame(NO_FRAME.format(job))
    with steps_shown() as show, stopped_by_hand() as stopped:
        builds = virtual_builds(making, count, progress=lambda done: show("virtual builds", done), stop=stopped)
    if as_json:
        print_json({"builds": builds.builds, "all": builds.overall, "chances": chances_as_json(builds)})
    else:
        print_chances(builds, fine(assessment.job.style))
