"""STEP files: the whole piece as an assembly of solids that any CAD program lists by mark and name."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.piece.model import Hardware, Member, Panel, Piece
from fitwright.sheets.solids.errors import SolidError
from fitwright.sheets.solids.fittings import board_shape, hardware_shapes
from fitwright.sheets.solids.members import member_shape

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

Listener = Callable[[int, int, str], None]
"""Told how many parts are done, of how many, and the name of the one under way."""


@dataclass(frozen=True)
class StepFile:
    """What was written: the file, and the names of its solids in order; it can be used as the path itself."""

    path: Path
    names: tuple[str, ...]

    def __fspath__(self) -> str:
        return str(self.path)


@dataclass(frozen=True)
class Named:
    """One part in the file: its name, and its solids by name; a part of one solid carries that solid itself."""

    name: str
    solids: tuple[tuple[str, TopoDS_Shape], ...]


def write_step(
    piece: Piece, path: str | os.PathLike[str], progress: Listener | None = None, title: str | None = None
) -> StepFile:
    """Write every part as a true solid, lengths in mm, each labelled with its mark and name.

    title: what the whole is called in the file; the file's own name without one.

    Members, boards (within their panel), casters and feet; screws and bolts are left out.
    Raises SolidError when a part cannot be modelled or the file cannot be written.
    """
    parts = tuple(parts_of(piece, progress))
    file = Path(path)
    _write(parts, file, title or file.stem)
    return StepFile(file, tuple(name for part in parts for name, _ in part.solids))


def parts_of(piece: Piece, progress: Listener | None = None) -> Iterator[Named]:
    """Every part of a piece with its solids, members first."""
    total = len(piece.members) + len(piece.panels) + len(piece.hardware)
    for done, (name, make) in enumerate(_makers(piece)):
        if progress is not None:
            progress(done, total, name)
        solids = make()
        if solids:
            yield Named(name, solids)
    if progress is not None:
        progress(total, total, "")


Solids = tuple[tuple[str, "TopoDS_Shape"], ...]


def _makers(piece: Piece) -> Iterator[tuple[str, Callable[[], Solids]]]:
    for member in piece.members:
        yield _marked(piece, member.name), partial(_of_member, piece, member)
    for panel in piece.panels:
        yield panel.name, partial(_of_panel, piece, panel)
    for item in piece.hardware:
        yield _marked(piece, item.name), partial(_of_hardware, piece, item)


def _of_member(piece: Piece, member: Member) -> Solids:
    return ((_marked(piece, member.name), member_shape(member, piece)),)


def _of_panel(piece: Piece, panel: Panel) -> Solids:
    named = ((f"{panel.name} {board.role} {k}", board) for k, board in enumerate(panel.boards, 1))
    return tuple((_marked(piece, name), board_shape(board)) for name, board in named)


def _of_hardware(piece: Piece, item: Hardware) -> Solids:
    shapes = hardware_shapes(item)
    name = _marked(piece, item.name)
    return tuple((name if len(shapes) == 1 else f"{name} {role}", shape) for role, shape in shapes.items())


def _marked(piece: Piece, name: str) -> str:
    return f"{piece.mark_of[name]} {name}"


def _write(parts: tuple[Named, ...], file: Path, title: str) -> None:
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Controller, STEPCAFControl_Writer
    from OCP.STEPControl import STEPControl_StepModelType

    _quiet()
    STEPCAFControl_Controller.Init_s()
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    writer = STEPCAFControl_Writer()
    writer.SetNameMode(True)
    document = _document(parts, title)
    writer.Transfer(document, STEPControl_StepModelType.STEPControl_AsIs)
    _head(writer, f"{title}.step")
    if writer.Write(os.fspath(file)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise SolidError(f"{file} could not be written: see that its folder exists and has room")


def _head(writer: object, name: str) -> None:
    from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
    from OCP.TCollection import TCollection_HAsciiString

    header = APIHeaderSection_MakeHeader(writer.Writer().Model())  # type: ignore[attr-defined]
    header.SetName(TCollection_HAsciiString(name.encode("ascii", "replace").decode()))
    header.SetOriginatingSystem(TCollection_HAsciiString("Fitwright"))
    header.SetAuthorValue(1, TCollection_HAsciiString(""))
    header.SetOrganizationValue(1, TCollection_HAsciiString(""))


def _document(parts: tuple[Named, ...], title: str) -> object:
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFApp import XCAFApp_Application
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("BinXCAF"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    XCAFDoc_DocumentTool.SetLengthUnit_s(document, 0.001)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    tool.SetAutoNaming_s(False)
    top = tool.NewShape()
    _name(top, title)
    for part in parts:
        _add(tool, top, part)
    tool.UpdateAssemblies()
    return document


def _add(tool: object, above: object, part: Named) -> None:
    """A part under an assembly: itself when it is one solid, an assembly of its own when it is several."""
    if len(part.solids) == 1:
        _place(tool, above, _solid(tool, *part.solids[0]), part.solids[0][0])
        return
    own = tool.NewShape()  # type: ignore[attr-defined]
    _name(own, part.name)
    for name, shape in part.solids:
        _place(tool, own, _solid(tool, name, shape), name)
    _place(tool, above, own, part.name)


def _solid(tool: object, name: str, shape: TopoDS_Shape) -> object:
    label = tool.AddShape(shape, False, False)  # type: ignore[attr-defined]
    _name(label, name)
    return label


def _place(tool: object, above: object, below: object, name: str) -> None:
    from OCP.TopLoc import TopLoc_Location

    _name(tool.AddComponent(above, below, TopLoc_Location()), name)  # type: ignore[attr-defined]


def _name(label: object, name: str) -> None:
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name

    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name, True))


def _quiet() -> None:
    """Keep the modeller's own messages off the terminal."""
    from OCP.Message import Message, Message_Gravity

    for printer in Message.DefaultMessenger_s().Printers():
        printer.SetTraceLevel(Message_Gravity.Message_Fail)
