"""What the verbs open and print: a job with its shop, the picture beside it, JSON."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from fitwright.assess import Assessment


def job_file(job: Path) -> Path:
    """The job file that was meant: the file itself, or job.yaml in the folder."""
    return job / "job.yaml" if job.is_dir() else job


def assessed(job: Path, shop_file: Path | None) -> Assessment:
    """A job assessed in the shop that was given, the one beside it or the shipped one."""
    from fitwright.assess import assess
    from fitwright.job import load_job
    from fitwright.shop import default_shop, load_shop

    file = job_file(job)
    beside = file.parent / "shop.yaml"
    loaded = load_job(file)
    if shop_file is not None:
        return assess(loaded, load_shop(shop_file))
    return assess(loaded, load_shop(beside) if beside.exists() else default_shop(loaded.style.unit))


def picture_of(name: str, folder: Path) -> bytes | None:
    """The content of a picture beside the job file; None where it is not there."""
    from fitwright.place.photo import PictureError, fits_in_memory

    file = folder / name
    if not name or not file.is_file():
        return None
    if not file.resolve().is_relative_to(folder.resolve()):
        raise PictureError(f"{name} is not in the job's own folder: copy the picture there")
    fits_in_memory(file.stat().st_size, name)
    return file.read_bytes()


def print_json(value: object) -> None:
    """Print for another program to read."""
    import json

    click.echo(json.dumps(value, indent=2, ensure_ascii=False, default=str))
