from __future__ import annotations

import csv
import json
import subprocess
import sys
from datetime import date
from pathlib import Path
from threading import Event
from typing import Any
from xml.etree import ElementTree

import pytest
from openpyxl import load_workbook

from fitwright.report import report
from fitwright.sheets.drawing import to_dxf
from fitwright.sheets.packet import PacketError, PaperError, Written, write_packet
from fitwright.sheets.packet import writing as module
from fitwright.sheets.packet.typesetting import TypesettingError
from tests.unit.sheets.packet.jobs import plain, stand, texts

DAY = date(2027, 1, 5)
LISTS = {"cut-list.csv", "buying.csv", "hardware.csv", "welds.csv", "findings.csv", "lists.xlsx", "report.json"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A packet without its solids."""
    folder = tmp_path_factory.mktemp("packet")
    write_packet(stand(), folder, paper=None, solids=False, progress=None, made_on=DAY)
    return folder


def test_everything_is_there_and_nothing_else(folder: Path) -> None:
    drawings = {"arrangement.dxf", "arrangement.svg", "bend-A1.dxf", "bend-A1.svg"}
    drawings |= {"cope-B1-start.dxf", "cope-B1-start.svg"}
    assert {file.name for file in folder.iterdir()} == {"packet.pdf", *drawings, *LISTS}


def test_the_report_is_the_assessments_own(folder: Path) -> None:
    written = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    assert written == json.loads(json.dumps(report(stand()), default=str))


def test_drawings_are_written_while_the_pages_are_typeset(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    begun, drawn = Event(), []

    def typeset(*_: object) -> bytes:
        drawn.append(begun.wait(20))
        return b"pages"

    def drawing(*given: Any) -> None:
        begun.set()
        to_dxf(*given)

    monkeypatch.setattr(module, "typeset", typeset)
    monkeypatch.setattr(module, "to_dxf", drawing)
    files = write_packet(plain(), tmp_path, solids=False, made_on=DAY)
    assert drawn == [True]
    assert files[0].name == "packet.pdf"
    assert files[0].read_bytes() == b"pages"


def test_pages_that_cannot_be_typeset_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def typeset(*_: object) -> bytes:
        raise TypesettingError("the packet could not be typeset: no room")

    monkeypatch.setattr(module, "typeset", typeset)
    with pytest.raises(TypesettingError, match="no room"):
        write_packet(plain(), tmp_path, solids=False, made_on=DAY)
    assert not (tmp_path / "packet.pdf").exists()


def test_drawings_open_again(folder: Path) -> None:
    from ezdxf.filemanagement import readfile

    assert len(readfile(folder / "bend-A1.dxf").modelspace()) > 10
    assert ElementTree.parse(folder / "arrangement.svg").getroot().tag.endswith("svg")


def test_paper_follows_the_unit_unless_said(tmp_path: Path) -> None:
    from pypdf import PdfReader

    for paper, points in ((None, (612, 792)), ("a4", (595, 842))):
        write_packet(plain(), tmp_path, paper=paper, solids=False, made_on=DAY)
        box = PdfReader(tmp_path / "packet.pdf").pages[0].mediabox
        assert (round(float(box.width)), round(float(box.height))) == points


def test_writing_twice_gives_the_same_pdf_and_no_litter(tmp_path: Path) -> None:
    write_packet(plain(), tmp_path, solids=False, made_on=DAY)
    before = (tmp_path / "packet.pdf").read_bytes()
    files = write_packet(plain(), tmp_path, solids=False, made_on=DAY)
    assert (tmp_path / "packet.pdf").read_bytes() == before
    assert sorted(files) == sorted(tmp_path.iterdir())


def test_progress_only_goes_forward_and_ends_at_one(tmp_path: Path) -> None:
    told: list[tuple[str, float]] = []
    write_packet(plain(), tmp_path, solids=False, progress=lambda step, done: told.append((step, done)), made_on=DAY)
    shares = [done for _, done in told]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert {"virtual builds", "weld order", "arrangement", "typesetting", "lists"} <= {step for step, _ in told}


def test_an_unknown_paper_is_told_before_any_work(tmp_path: Path) -> None:
    with pytest.raises(PaperError, match=r"'a7' is not a paper.* letter or a4"):
        write_packet(plain(), tmp_path / "new", paper="a7", solids=False, made_on=DAY)
    assert not (tmp_path / "new").exists()


def test_lists_are_read_back(folder: Path) -> None:
    with (folder / "cut-list.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    groups = [*stand().cut_groups, *stand().blocks.groups]
    assert [row["stock"] for row in rows] == [group.stock for group in groups]
    assert [float(row["cut_length_mm"]) for row in rows] == pytest.approx([g.setting_mm for g in groups], abs=1e-4)
    assert load_workbook(folder / "lists.xlsx").sheetnames == ["Cut list", "Buying", "Hardware", "Welds", "Findings"]


def test_what_an_earlier_packet_left_is_told(tmp_path: Path) -> None:
    (tmp_path / "bend-Z9.dxf").write_text("old")
    files = write_packet(plain(), tmp_path, solids=False, made_on=DAY)
    assert files.notes == ("bend-Z9.dxf is left from an earlier packet: it does not belong to this one.",)
    assert (tmp_path / "bend-Z9.dxf").read_text() == "old"


def test_solids_come_with_the_modeller(tmp_path: Path) -> None:
    pytest.importorskip("build123d")
    files = write_packet(plain(), tmp_path, solids=True, made_on=DAY)
    assert tmp_path / "piece.step" in files
    assert (tmp_path / "piece.step").read_text().startswith("ISO-10303-21")
    assert files.notes == ()


def test_without_the_modeller_the_rest_is_written_and_the_note_says_how_to_get_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "find_spec", lambda _name: None)
    files = write_packet(plain(), tmp_path, solids=True, made_on=DAY)
    assert isinstance(files, Written)
    assert "pip install 'fitwright[solids]'" in files.notes[0]
    assert not (tmp_path / "piece.step").exists()
    assert (tmp_path / "packet.pdf").exists()


def test_a_file_in_place_of_the_folder_is_told_before_any_work(tmp_path: Path) -> None:
    (tmp_path / "here").write_text("mine")
    with pytest.raises(PacketError, match="is a file"):
        write_packet(plain(), tmp_path / "here", solids=False, made_on=DAY)
    assert (tmp_path / "here").read_text() == "mine"


def test_the_date_is_on_the_pages(folder: Path) -> None:
    assert all("2027-01-05" in page for page in texts((folder / "packet.pdf").read_bytes()))


def test_importing_the_packet_loads_neither_typesetter_nor_modeller() -> None:
    code = (
        "import fitwright.sheets.packet, sys; "
        "print([m for m in ('typst', 'build123d', 'openpyxl', 'ezdxf') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
