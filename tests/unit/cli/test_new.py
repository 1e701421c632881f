"""The verb `fitwright new`."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from fitwright.cli import main


@pytest.mark.parametrize("name", ["Hall bench", "bench"])
def test_the_command_it_gives_can_be_typed_as_it_stands(tmp_path: Path, name: str) -> None:
    said = CliRunner().invoke(main, ["new", name, "--from", "plain-stand-mm", "--to", str(tmp_path)])
    assert said.exit_code == 0
    command = shlex.split(said.output.partition("then: ")[2])
    assert command == ["fitwright", "check", str(tmp_path / name)]
