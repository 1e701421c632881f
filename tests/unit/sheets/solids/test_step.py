"""STEP files, read back by the kernel's own reader."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from fitwright.sheets.solids import SolidError, write_step
from fitwright.sheets.solids.kernel import volume
from tests.unit.sheets.solids.pieces import full_ring, wheeled_rack


def _read(path: Path) -> tuple[str, dict[str, Any]]:
    """Name of the top assembly, and every leaf's shape by name."""
    document = TDocStd_Document(TCollection_ExtendedString("BinXCAF"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    tops = _labels(tool.GetFreeShapes)
    assert len(tops) == 1
    leaves: dict[str, Any] = {}
    _walk(tops[0], leaves)
    return _name(tops[0]), leaves


def _labels(give: Any) -> list[Any]:
    from OCP.collections import Sequence_TDF_Label

    found = Sequence_TDF_Label()
    give(found)
    return [found.Value(k) for k in range(1, found.Length() + 1)]


def _walk(label: Any, leaves: dict[str, Any]) -> None:
    for component in _labels(lambda found: XCAFDoc_ShapeTool.GetComponents_s(label, found)):
        below = TDF_Label()
        XCAFDoc_ShapeTool.GetReferredShape_s(component, below)
        if XCAFDoc_ShapeTool.IsAssembly_s(below):
            _walk(below, leaves)
        else:
            leaves[_name(component)] = XCAFDoc_ShapeTool.GetShape_s(component)


def _name(label: Any) -> str:
    name = TDataStd_Name()
    assert label.FindAttribute(TDataStd_Name.GetID_s(), name)
    return str(name.Get().ToExtString())


def test_every_part_is_listed_by_mark_and_name(tmp_path: Path) -> None:
    piece = wheeled_rack()
    written = write_step(piece, tmp_path / "rack.step")
    title, leaves = _read(written.path)
    assert title == "rack"
    assert sorted(leaves) == sorted(written.names)
    for member in piece.members:
        shape = leaves[f"{piece.mark_of[member.name]} {member.name}"]
        mass = volume(shape) * member.stock.material.density * 1e-9
        assert mass == pytest.approx(member.mass, rel=0.005)
    boards = sum(len(panel.boards) for panel in piece.panels)
    assert len(leaves) == len(piece.members) + boards + 2 * 4


def test_progress_counts_the_parts(tmp_path: Path) -> None:
    told: list[tuple[int, int, str]] = []
    piece = full_ring()
    write_step(piece, tmp_path / "ring.step", lambda done, total, name: told.append((done, total, name)))
    assert [done for done, _, _ in told] == [0, 1, 2, 3, 4]
    assert {total for _, total, _ in told} == {4}
    assert told[0][2].endswith("ring")


def test_the_summary_is_a_path(tmp_path: Path) -> None:
    written = write_step(full_ring(), tmp_path / "ring.step")
    assert Path(written).read_text(encoding="ascii").startswith("ISO-10303-21;")


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(SolidError, match="nowhere"):
        write_step(full_ring(), tmp_path / "nowhere" / "ring.step")


def test_the_modeller_is_not_loaded_until_it_is_asked_for() -> None:
    code = "import sys; sys.path[:] = sys.argv[1:]; import fitwright.sheets.solids; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code, *sys.path], check=True, capture_output=True, text=True)
    assert not {"OCP", "build123d"} & set(ran.stdout.split())
