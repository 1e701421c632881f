"""The program itself, and what its verbs have in common: options, exit codes, how they say what is wrong."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Literal, ParamSpec, TypeVar

import click

from fitwright import __version__
from fitwright.errors import FitwrightError

# Small systems are solved faster on one thread; whoever set another number keeps it. Read before numpy is imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Nearly all that a verb makes is wanted to its end: looking for garbage every 700 new objects costs a twentieth of it.
gc.set_threshold(50_000)

Unit = Literal["inch", "mm", "cm"]
UNITS: tuple[Unit, ...] = ("inch", "mm", "cm")
WRONG_FILE = 2
SOMETHING_FAILS = 1
NO_FRAME = "{}: the piece is no frame that stands by itself: fitwright check says why"

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
            click.echo(f"{wrong.filename or 'file'}: {in_words(wrong)}", err=True)
        sys.exit(WRONG_FILE)

    return run


def in_words(wrong: OSError) -> str:
    """What is wrong with a file, and what would do."""
    if isinstance(wrong, IsADirectoryError):
        return "this is a folder: a file belongs here"
    if isinstance(wrong, FileNotFoundError):
        return "there is no such file or folder"
    if isinstance(wrong, PermissionError):
        return "it may not be opened: its owner has to allow it, or choose another place"
    return wrong.strerror or str(wrong)


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
