"""The STEP file made beside the sheets, and what happens when it cannot be."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from fitwright.sheets.solids import apart, write_step
from tests.unit.sheets.solids.pieces import wheeled_rack


def lines(file: Path) -> list[str]:
    """The data of a STEP file, without its header, which has the time."""
    text = file.read_text(encoding="utf-8")
    return text[text.index("DATA;") :].splitlines()


def test_it_is_the_same_file_as_made_here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart, "processors", lambda: 2)
    piece = wheeled_rack()
    with apart.begin(piece, tmp_path, "rack") as under_way:
        write_step(piece, tmp_path / "here.step", title="rack")
        assert under_way.into(tmp_path / "there.step")
    assert lines(tmp_path / "there.step") == lines(tmp_path / "here.step")
    assert "PRODUCT('rack'" in (tmp_path / "there.step").read_text(encoding="utf-8")
    assert sorted(file.name for file in tmp_path.iterdir()) == ["here.step", "there.step"]


def test_one_processor_is_left_to_the_sheets(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart, "processors", lambda: 1)
    with apart.begin(wheeled_rack(), tmp_path, "rack") as under_way:
        assert not under_way.into(tmp_path / "there.step")
    assert list(tmp_path.iterdir()) == []


def test_a_process_that_fails_is_told_and_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart, "processors", lambda: 2)
    with apart.begin(wheeled_rack(), tmp_path / "no such folder", "rack") as under_way:
        assert not under_way.into(tmp_path / "there.step")
    monkeypatch.setattr(sys, "executable", str(tmp_path / "no such program"))
    with apart.begin(wheeled_rack(), tmp_path, "rack") as under_way:
        assert not under_way.into(tmp_path / "there.step")
    assert list(tmp_path.iterdir()) == []


def test_leaving_early_ends_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart, "processors", lambda: 2)
    with apart.begin(wheeled_rack(), tmp_path, "rack") as under_way:
        process = under_way._process
    assert process is not None
    assert process.returncode is not None
    assert list(tmp_path.iterdir()) == []
