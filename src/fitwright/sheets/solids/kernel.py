"""The few things asked of the solid modeller's kernel, which is loaded only when one of them is called.

The kernel is called directly, not through build123d: that loads in a tenth of the time.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.path import Vector
from fitwright.sheets.solids.profile import Circle, Loop, Stroke

if TYPE_CHECKING:
    from OCP.gp import gp_Ax1, gp_Ax2, gp_Pnt
    from OCP.TopoDS import TopoDS_Face, TopoDS_Shape, TopoDS_Wire

Floats = NDArray[np.float64]

VOLUME_SHARE = 1e-6


def face(outer: Loop, inner: Loop | None, origin: Vector, frame: Floats) -> TopoDS_Face:
    """The plane face within `outer` and outside `inner`, at origin (3,) with u and v along frame (2, 3)."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
    from OCP.gp import gp_Pln

    across = np.cross(*frame)
    plane = gp_Pln(_point(origin), _axes(origin, across, frame[0]).Direction())
    made = BRepBuilderAPI_MakeFace(plane, _wire(outer, origin, frame, across), True)
    if inner is not None:
        made.Add(_wire(inner, origin, frame, -across))
    return made.Face()


def extruded(base: TopoDS_Shape, along: Vector) -> TopoDS_Shape:
    """A face carried along a vector (3,) [mm]."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    return BRepPrimAPI_MakePrism(base, gp_Vec(*along.tolist()), True).Shape()


def revolved(base: TopoDS_Shape, centre: Vector, axis: Vector, angle: float) -> TopoDS_Shape:
    """A face turned about an axis (3,) through a centre (3,) by an angle [rad]; 2 pi closes it on itself."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol

    turn = _axis(centre, axis)
    made = BRepPrimAPI_MakeRevol(base, turn) if angle >= 2 * np.pi else BRepPrimAPI_MakeRevol(base, turn, angle, True)
    return made.Shape()


def box(low: Vector, high: Vector) -> TopoDS_Shape:
    """The box between two corners (3,) [mm]."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox

    return BRepPrimAPI_MakeBox(_point(low), _point(high)).Shape()


def cylinder(base: Vector, along: Vector, radius: float) -> TopoDS_Shape:
    """A cylinder from base (3,) along a vector (3,) [mm]."""
    return extruded(face(Circle(radius), None, base, _across(along / np.linalg.norm(along))), along)


def beyond(point: Vector, normal: Vector, size: float) -> TopoDS_Shape:
    """A block of 2 x size square and `size` deep [mm] on the far side of a plane, centred on a point (3,) of it."""
    corners = size * np.array([[1.0, -1.0], [1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0]])
    square = tuple(Stroke(a, b) for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True))
    return extruded(face(square, None, point, _across(normal)), normal * size)


def joined(solids: Sequence[TopoDS_Shape]) -> TopoDS_Shape:
    """One solid from solids that share whole end faces, each with the next."""
    from OCP.BOPAlgo import BOPAlgo_GlueEnum
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse

    if len(solids) == 1:
        return solids[0]
    fuse = BRepAlgoAPI_Fuse()
    fuse.SetGlue(BOPAlgo_GlueEnum.BOPAlgo_GlueShift)
    return _run(fuse, solids[:1], solids[1:])


def without(solid: TopoDS_Shape, tools: Sequence[TopoDS_Shape], fuzzy: float = 0.0) -> TopoDS_Shape:
    """What is left of a solid outside the tools; fuzzy: faces nearer than this count as the same [mm]."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    cut = BRepAlgoAPI_Cut()
    if fuzzy:
        cut.SetFuzzyValue(fuzzy)
    return _run(cut, [solid], tools)


def solids_in(shape: TopoDS_Shape) -> list[TopoDS_Shape]:
    """The solids of a shape."""
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    found, explorer = [], TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_SOLID)
    while explorer.More():
        found.append(TopoDS.Solid(explorer.Current()))
        explorer.Next()
    return found


def volume(shape: TopoDS_Shape) -> float:
    """Volume of a solid [mm3]."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    properties = GProp_GProps()
    # Without a bound on its error the kernel is off by a thousandth on short coped ends.
    BRepGProp.VolumeProperties_s(shape, properties, VOLUME_SHARE)
    return float(properties.Mass())


def sound(shape: TopoDS_Shape) -> bool:
    """Whether the modeller's own check finds no fault in a shape."""
    from OCP.BRepCheck import BRepCheck_Analyzer

    return bool(BRepCheck_Analyzer(shape).IsValid())


def gap(shape: TopoDS_Shape, point: Vector) -> float:
    """Distance from a point (3,) to a solid [mm], 0 inside."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex
    from OCP.BRepExtrema import BRepExtrema_DistShapeShape

    found = BRepExtrema_DistShapeShape(shape, BRepBuilderAPI_MakeVertex(_point(point)).Vertex())
    return float(found.Value())


def _across(normal: Vector) -> Floats:
    """Two directions (2, 3) square to a unit normal and to one another, right-handed with it."""
    first = np.cross(normal, np.eye(3)[int(np.argmin(np.abs(normal)))])
    first = first / np.linalg.norm(first)
    return np.array([first, np.cross(normal, first)])


def _run(operation: object, arguments: Sequence[TopoDS_Shape], tools: Sequence[TopoDS_Shape]) -> TopoDS_Shape:
    from OCP.collections import List_TopoDS_Shape

    for shapes, give in ((arguments, "SetArguments"), (tools, "SetTools")):
        given = List_TopoDS_Shape()
        for shape in shapes:
            given.Append(shape)
        getattr(operation, give)(given)
    operation.Build()  # type: ignore[attr-defined]
    return operation.Shape()  # type: ignore[attr-defined]


def _wire(loop: Loop, origin: Vector, frame: Floats, normal: Vector) -> TopoDS_Wire:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeWire
    from OCP.gp import gp_Circ
    from OCP.TopoDS import TopoDS

    if isinstance(loop, Circle):
        circle = gp_Circ(_axes(origin, normal, frame[0]), loop.radius)
        return BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(circle).Edge()).Wire()
    made = BRepBuilderAPI_MakeWire()
    for stroke in loop:
        made.Add(_edge(stroke, origin, frame))
    wire = made.Wire()
    return wire if float(np.cross(*frame) @ normal) > 0 else TopoDS.Wire(wire.Reversed())


def _edge(stroke: Stroke, origin: Vector, frame: Floats) -> TopoDS_Shape:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.GC import GC_MakeArcOfCircle

    start, finish = _point(origin + stroke.start @ frame), _point(origin + stroke.finish @ frame)
    if stroke.through is None:
        return BRepBuilderAPI_MakeEdge(start, finish).Edge()
    arc = GC_MakeArcOfCircle(start, _point(origin + stroke.through @ frame), finish).Value()
    return BRepBuilderAPI_MakeEdge(arc).Edge()


def _point(vector: Vector) -> gp_Pnt:
    from OCP.gp import gp_Pnt

    return gp_Pnt(*vector.tolist())


def _axis(centre: Vector, axis: Vector) -> gp_Ax1:
    from OCP.gp import gp_Ax1, gp_Dir

    return gp_Ax1(_point(centre), gp_Dir(*axis.tolist()))


def _axes(origin: Vector, across: Vector, first: Vector) -> gp_Ax2:
    from OCP.gp import gp_Ax2, gp_Dir

    return gp_Ax2(_point(origin), gp_Dir(*across.tolist()), gp_Dir(*first.tolist()))
