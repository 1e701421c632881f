"""What the verbs open and print: a job with its shop and what lies beside it, JSON."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from fitwright.assess import Assessment
    from fitwright.shop import Shop
    from fitwright.units import Unit


def job_file(job: Path) -> Path:
    """The job file that was meant: the file itself, or job.yaml in the folder."""
    return job / "job.yaml" if job.is_dir() else job


def assessed(job: Path, shop_file: Path | None) -> Assessment:
    """A job assessed in the shop that was given, the one beside it or the shipped one, with what its records say."""
    from fitwright.assess import assess
    from fitwright.job import load_job
    from fitwright.job.beside import Beside
    from fitwright.shop.equipped import equipped_or_told
    from fitwright.shop.records import where

    loaded = load_job(job_file(job))
    shop = shop_for(job_file(job), shop_file, loaded.style.unit)
    now, learnt, unreached = equipped_or_told(shop, where(of_shop=shop.records))
    tell_unreached(unreached)
    return assess(loaded, now, learnt, Beside(job_file(job).parent), unreached)


def tell_unreached(why: str) -> None:
    """Say that the records were not reached, where they were not."""
    if why:
        click.echo(f"THE SHOP'S RECORDS WERE NOT REACHED: {why}.", err=True)
        click.echo(
            "What follows is reckoned with the shop file alone: no trials, no rack, no recorded times.", err=True
        )


def shop_for(job: Path | None, shop_file: Path | None, unit: Unit) -> Shop:
    """The profile that was given, the one beside a job file, or the shipped one for a unit."""
    from fitwright.shop import default_shop, load_shop

    beside = job.parent / "shop.yaml" if job is not None else None
    if shop_file is not None:
        return load_shop(shop_file)
    return load_shop(beside) if beside is not None and beside.exists() else default_shop(unit)


def print_json(value: object) -> None:
    """Print for another program to read."""
    import json

    click.echo(json.dumps(value, indent=2, ensure_ascii=False, default=str))
