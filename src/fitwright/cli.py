"""The command line: the same verbs as the workbench, for a terminal or a script."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any, Literal, ParamSpec, TypeVar

import click

from fitwright import __version__
from fitwright.errors import FitwrightError

# Small systems are solved faster on one thread; whoever set another number keeps it. Read before numpy is imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

Unit = Literal["inch", "mm", "cm"]
UNITS: tuple[Unit, ...] = ("inch", "mm", "cm")
WRONG_FILE = 2
NO_FRAME = "{}: the piece is no frame that stands by itself: fitwright check says why"
SOMETHING_FAILS = 1

P = ParamSpec("P")
R = TypeVar("R")


class NoFrame(FitwrightError, ValueError):
    """A question about the frame of a piece that is none."""


def told(command: Callable[P, R]) -> Callable[P, R]:
    """Print what is wrong in plain words and leave with exit code 2; never a traceback for bad input."""

    @wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> R:
        try:
            return command(*args, **kwargs)
        except FitwrightError as wrong:
            click.echo(str(wrong), err=True)
        except OSError as wrong:
            click.echo(f"{wrong.filename or 'file'}: {wrong.strerror or wrong}", err=True)
        sys.exit(WRONG_FILE)

    return run


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="fitwright")
def main() -> None:
    """Compute a one-off piece of bent tube, angle, flat and timber from one job file.

    JOB is a job.yaml, or the folder that holds it. Start with "fitwright new", then "fitwright check",
    then "fitwright packet".
    """


job_argument = click.argument("job", type=click.Path(path_type=Path))
shop_option = click.option(
    "--shop",
    "shop_file",
    type=click.Path(path_type=Path),
    help="The shop.yaml to use; else the one beside the job, else the shipped one.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON instead of a table.")


@main.command()
@click.argument("name", required=False)
@click.option("--from", "starter", help="The starter to copy; without NAME, the starters are listed.")
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    default=Path(),
    show_default="here",
    help="Where to put the new folder.",
)
@told
def new(name: str | None, starter: str | None, folder: Path) -> None:
    """Make a folder NAME with a job.yaml to change, copied from a starter."""
    from fitwright.job import new_job, starters

    if name is None or starter is None:
        if name is not None:
            click.echo(f"say what {name} starts from, with --from and one of these:", err=True)
        click.echo("Starters, for fitwright new NAME --from STARTER:")
        for one in starters():
            click.echo(f"  {one.name:<14} {one.title}")
        sys.exit(0 if name is None else WRONG_FILE)
    made = new_job(folder / name, starter, name)
    click.echo(f"Made {made}. Change its dims, then: fitwright check {made.parent}")


@main.command()
@job_argument
@shop_option
@click.option(
    "--all",
    "thorough",
    is_flag=True,
    help="With the chances of virtual builds, the pull of the welds, bench and finish; takes seconds.",
)
@json_option
@told
def check(job: Path, shop_file: Path | None, thorough: bool, as_json: bool) -> None:
    """Say what holds, what is tight and what fails. Exit code 1 when something fails, 2 when the file is wrong."""
    from fitwright.findings import Verdict

    assessment = _assessed(job, shop_file)
    findings = assessment.all_findings if thorough else assessment.findings
    if as_json:
        from fitwright.report import findings_as_json

        _print_json(findings_as_json(findings))
    else:
        from fitwright.sheets.terminal import print_findings

        print_findings(findings, assessment.job.style)
        if not thorough:
            click.echo(
                "not looked at here: the chance that it comes out right, the pull of welds, bench, finish (--all)"
            )
    sys.exit(SOMETHING_FAILS if any(f.verdict is Verdict.FAILS for f in findings) else 0)


@main.command()
@job_argument
@shop_option
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    required=True,
    help="The folder to write to; made if it is not there.",
)
@click.option(
    "--paper", type=click.Choice(["letter", "a4"]), help="Letter for inch jobs and A4 for metric ones, unless said."
)
@click.option("--without-step", is_flag=True, help="Leave the STEP solids out; the rest is quicker.")
@told
def packet(job: Path, shop_file: Path | None, folder: Path, paper: str | None, without_step: bool) -> None:
    """Write the shop packet: PDF, drawings (DXF, SVG), solids (STEP), lists (CSV, XLSX) and the report."""
    from fitwright.sheets.packet import write_packet
    from fitwright.sheets.terminal import print_findings, steps_shown

    assessment = _assessed(job, shop_file)
    with steps_shown() as progress:
        files = write_packet(assessment, folder, paper=paper, solids=not without_step, progress=progress)
    print_findings(assessment.all_findings, assessment.job.style)
    for file in files:
        click.echo(f"  {file}")
    for note in files.notes:
        click.echo(f"note: {note}")


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

    assessment = _assessed(job, shop_file)
    making = assessment.making
    if making is None:
        raise NoFrame(NO_FRAME.format(job))
    with steps_shown() as show, stopped_by_hand() as stopped:
        builds = virtual_builds(making, count, progress=lambda done: show("virtual builds", done), stop=stopped)
    if as_json:
        _print_json({"builds": builds.builds, "all": builds.overall, "chances": chances_as_json(builds)})
    else:
        print_chances(builds, fine(assessment.job.style))


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

    assessment = _assessed(job, shop_file)

    with steps_shown() as show, stopped_by_hand() as stopped:

        def told_on(_: str, done: float) -> bool:
            show("weld order", done)
            return not stopped()

        plan = assessment.weld(told_on)
    if plan is None:
        raise NoFrame(NO_FRAME.format(job))
    if as_json:
        _print_json(welding_as_json(assessment))
    else:
        print_welds(plan, fine(assessment.job.style))


@main.command()
@job_argument
@json_option
@told
def photo(job: Path, as_json: bool) -> None:
    """Measure from the reference photo by the marks in the job file, each length with its plus or minus (95 %)."""
    from fitwright.job import load_job
    from fitwright.place.photo import solve_photo
    from fitwright.place.photo.telling import as_json as told_as_json
    from fitwright.place.photo.telling import told as told_lines

    file = job / "job.yaml" if job.is_dir() else job
    loaded = load_job(file)
    solved, lost = solve_photo(loaded.photo, _picture(loaded.photo.picture if loaded.photo else "", file.parent))
    if as_json:
        _print_json({**told_as_json(solved), "not_found": list(lost)})
    else:
        for line in [*told_lines(solved, loaded.style), *(f"note: {one}" for one in lost)]:
            click.echo(line)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--lan", is_flag=True, help="For devices in the shop's network too, each let in once by a code.")
@click.option("--port", type=click.IntRange(0, 65535), default=8733, show_default=True, help="0 takes any free one.")
@click.option("--forget", is_flag=True, help="End the sessions of all devices that were let in before.")
@shop_option
@told
def serve(folder: Path, lan: bool, port: int, forget: bool, shop_file: Path | None) -> None:
    """Open a FOLDER of jobs in the browser: change dims, see what follows, print sheets."""
    from fitwright.web import serve as serve_folder

    serve_folder(folder, lan=lan, port=port, shop_file=shop_file, forget=forget, say=click.echo)


@main.command()
@job_argument
@shop_option
@told
def report(job: Path, shop_file: Path | None) -> None:
    """Print everything computed as JSON; its schema: fitwright schema --report."""
    from fitwright.report import report as reported

    _print_json(reported(_assessed(job, shop_file)))


@main.command()
@click.option("--report", "of_report", is_flag=True, help="The schema of the report instead.")
@told
def schema(of_report: bool) -> None:
    """Print the JSON Schema of the job file, for an editor that completes it."""
    if of_report:
        from fitwright.report import report_schema

        _print_json(report_schema())
    else:
        from fitwright.job import job_schema

        _print_json(job_schema())


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
        _print_json(plan_as_json(plan))
    else:
        print_plan(plan, style_of(unit))


@main.command()
@click.option("--points", help='Corners of the centreline: "0,0,0; 0,0,34; 16,0,34".')
@click.option("--legs", help='Instead: lengths from corner to corner: "34, 16, 34".')
@click.option("--angles", help='With legs, the bend at each corner in degrees: "90, 90".')
@click.option(
    "--rotations",
    default="",
    help='With legs, the turn between one bend and the next in degrees: "0"; 0 when left out.',
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
    from fitwright.stock import parse_stock

    if (points is None) == (legs is None) or (legs is None) != (angles is None):
        raise click.UsageError("give either --points, or --legs with --angles")
    shop = load_shop(shop_file) if shop_file else default_shop(unit)
    tube = parse_stock(stock, unit=unit) if stock else None
    radii = _lengths(radius, unit)
    one = radii[0] if len(radii) == 1 else radii
    style = style_of(unit)
    if points is not None:
        rows = [_lengths(row, unit) for row in points.split(";") if row.strip()]
        sheet = bend_from_points(rows, one, stock=tube, shop=shop, style=style)
    else:
        sheet = bend_from_legs(
            _lengths(legs or "", unit),
            _angles(angles or ""),
            _angles(rotations),
            one,
            stock=tube,
            shop=shop,
            style=style,
        )
    if as_json:
        _print_json(bend_as_json(sheet))
    else:
        print_bends(sheet, style)


def _lengths(text: str, unit: Unit) -> list[float]:
    from fitwright.units import parse_length

    return [parse_length(part, unit) for part in text.split(",")]


def _angles(text: str) -> list[float]:
    from fitwright.units import parse_angle

    return [parse_angle(part) for part in text.split(",")] if text.strip() else []


def _picture(name: str, folder: Path) -> bytes | None:
    """The content of a picture beside the job file; None where it is not there."""
    from fitwright.place.photo import PictureError, fits_in_memory

    file = folder / name
    if not name or not file.is_file():
        return None
    if not file.resolve().is_relative_to(folder.resolve()):
        raise PictureError(f"{name} is not in the job's own folder: copy the picture there")
    fits_in_memory(file.stat().st_size, name)
    return file.read_bytes()


def _assessed(job: Path, shop_file: Path | None) -> Any:
    from fitwright.assess import assess
    from fitwright.job import load_job
    from fitwright.shop import default_shop, load_shop

    file = job / "job.yaml" if job.is_dir() else job
    beside = file.parent / "shop.yaml"
    loaded = load_job(file)
    if shop_file is not None:
        return assess(loaded, load_shop(shop_file))
    return assess(loaded, load_shop(beside) if beside.exists() else default_shop(loaded.style.unit))


def _print_json(value: object) -> None:
    import json

    click.echo(json.dumps(value, indent=2, ensure_ascii=False, default=str))
