"""The workbench in the browser."""

from __future__ import annotations

import os
from pathlib import Path

import click

from fitwright.cli.kept import records_option
from fitwright.cli.program import main, shop_option, told


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--lan", is_flag=True, help="For devices in the shop's network too, each let in once by a code.")
@click.option("--port", type=click.IntRange(0, 65535), default=8733, show_default=True, help="0 takes any free one.")
@click.option("--forget", is_flag=True, help="End the sessions of all devices that were let in before.")
@shop_option
@records_option
@told
def serve(folder: Path, lan: bool, port: int, forget: bool, shop_file: Path | None, at: str) -> None:
    """Open a FOLDER of jobs in the browser: change dims, see what follows, print sheets."""
    from fitwright.shop.records import ENVIRONMENT, where
    from fitwright.web import serve as serve_folder

    if at:  # processes that compute beside the server take it from here as well
        place = where(at)
        os.environ[ENVIRONMENT] = place.server or str(place.file)

    serve_folder(folder, lan=lan, port=port, shop_file=shop_file, forget=forget, say=click.echo)
