"""Which weld where, in which order."""

from __future__ import annotations

from pathlib import Path

from fitwright.cli.opening import assessed, print_json
from fitwright.cli.program import NO_FRAME, NoFrame, job_argument, json_option, main, shop_option, told


@main.command()
@job_argument
@shop_option
@json_option
@told
def welds(job: Path, shop_file: Path | None, as_json: bool) -> None:
    """Which weld where, in the order that moves the piece least, and how far it is expected to move.

    Ctrl-C stops the search with the best order so far.
    """
    from fitwright.report import welding_as_json
    from fitwright.sheets.terminal import print_welds, steps_shown, stopped_by_hand
    from fitwright.sheets.wording import fine

    assessment = assessed(job, shop_file)

    with steps_shown() as show, stopped_by_hand() as stopped:

        def told_on(_: str, done: float) -> bool:
            show("weld order", done)
            return not stopped()

        plan = assessment.weld(told_on)
    if plan is None:
        raise NoFrame(NO_FRAME.format(job))
    if as_json:
        print_json(welding_as_json(assessment))
    else:
        print_welds(plan, fine(assessment.job.style))
