"""The way in: whether the piece gets from the shop to its place, and how."""

from __future__ import annotations

import sys
from pathlib import Path

from fitwright.cli.opening import assessed, print_json
from fitwright.cli.program import SOMETHING_FAILS, job_argument, json_option, main, shop_option, told
from fitwright.errors import FitwrightError


class NoRoute(FitwrightError, ValueError):
    """A question about the way in of a job that says none."""


@main.command()
@job_argument
@shop_option
@json_option
@told
def route(job: Path, shop_file: Path | None, as_json: bool) -> None:
    """Say whether the piece gets through every door, corner, stair, lift and van on its way, held how, by how many.

    Exit code 1 when it does not, or when a carry fails: too heavy for a lift, or to be carried by hand.
    Ctrl-C stops the search with what was found so far.
    """
    from fitwright.checks.carrying import carrying_findings
    from fitwright.findings import Verdict
    from fitwright.place.route import Answer
    from fitwright.report.way_in import way_in
    from fitwright.sheets.route_told import print_route
    from fitwright.sheets.terminal import print_findings, steps_shown, stopped_by_hand

    assessment = assessed(job, shop_file)
    if not assessment.job.space.route:
        raise NoRoute(f"{job} says no route: give space: route: a list of doors, corridors, corners, stairs, lift, van")
    with steps_shown() as show, stopped_by_hand() as stopped:

        def told_on(step: str, done: float) -> bool:
            show(step[:28], done)
            return not stopped()

        found = assessment.find_way(told_on)
    assert found is not None
    heavy = [one for one in carrying_findings(assessment.job, assessment.carries) if one.verdict is not Verdict.HOLDS]
    if as_json:
        print_json(way_in(assessment))
    else:
        print_route(found, assessment.carries, assessment.job.style)
        if heavy:
            print_findings(heavy, assessment.job.style)
    fails = any(finding.verdict is Verdict.FAILS for finding in heavy)
    sys.exit(0 if found.answer is Answer.PASSES and not fails else SOMETHING_FAILS)
