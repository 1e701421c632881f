"""Pieces of many kinds, made by hand, for the tests of solids."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import (
    Along,
    Around,
    Battens,
    Brief,
    Butt,
    Drawn,
    End,
    HardwareSpec,
    Job,
    JointSpec,
    MemberSpec,
    Mirror,
    PanelKind,
    PanelSpec,
    PartSpec,
    Space,
    Where,
)
from fitwright.piece import Piece, build
from fitwright.stock import parse_stock
from fitwright.units import Style

HERE = Where("hand", 1)
FREE = (End.FREE, End.FREE)
TUBE = parse_stock("round tube 32 x 2 mm", key="tube")
SMALL = parse_stock("round tube 19 x 1.5 mm", key="small")
SQUARE = parse_stock("square tube 40 x 40 x 2", key="square")
ANGLE = parse_stock("angle 30 x 30 x 3", key="angle")
FLAT = parse_stock("flat 25 x 5", key="flat")
BAR = parse_stock("round bar 10", key="bar")

Points = tuple[tuple[float, float, float], ...]


def piece_of(*parts: PartSpec, joints: tuple[JointSpec, ...] = ()) -> Piece:
    """The piece that some parts make."""
    return build(Job("hand", "", Style.metric(), None, "", Brief(), Space(), {}, {}, parts, joints, {}))


def run(name: str, stock: object, *points: tuple[float, float, float], **said: object) -> MemberSpec:
    """A member with sharp corners, or none."""
    return MemberSpec(name, HERE, stock, points, (0.0,) * len(points), **said)  # type: ignore[arg-type]


def hoop(stock: object = TUBE, radius: float = 120.0, **said: object) -> MemberSpec:
    """A bent hoop 600 wide and 900 high, in the plane y = 0."""
    points = ((0.0, 0.0, 0.0), (0.0, 0.0, 900.0), (600.0, 0.0, 900.0), (600.0, 0.0, 0.0))
    radii = (0.0, radius, radius, 0.0)
    return MemberSpec("hoop", HERE, stock, points, radii, ends=FREE, **said)  # type: ignore[arg-type]


def coped_ties() -> Piece:
    """Two hoops with ties square, oblique and off the axis, and a stretcher between two ties."""
    return piece_of(
        hoop(placings=(Along(1, (0.0, 400.0)),)),
        run("square tie", SMALL, (0, 0, 200), (0, 400, 200)),
        run("equal tie", TUBE, (600, 0, 200), (600, 400, 200)),
        run("oblique tie", SMALL, (600, 0, 300), (600, 400, 620)),
        run("offset tie", SMALL, (4, 0, 400), (4, 400, 400)),
        run("skew tie", TUBE, (0, 0, 480), (600, 400, 700)),
        run("stretcher", SMALL, (0, 200, 200), (600, 200, 200)),
    )


def on_a_bend() -> Piece:
    """Tubes coped to the bent portion of a hoop, from outside, from beside and from inside."""
    at = 120 * (1 - np.sqrt(0.5))
    return piece_of(
        hoop(placings=(Along(1, (0.0, 400.0)),)),
        run("beside", SMALL, (at, 0, 900 - at), (at, 400, 900 - at)),
        run("inside", TUBE, (at, 0, 900 - at), (600, 0, 300)),
        run("outside", SMALL, (at, 0, 900 - at), (at - 200, 0, 1100 - at), ends=(End.AUTO, End.FREE)),
    )


def mitred_frame() -> Piece:
    """A closed frame of square tube with a crosspiece."""
    points = ((0.0, 0.0, 500.0), (800.0, 0.0, 500.0), (800.0, 500.0, 500.0), (0.0, 500.0, 500.0))
    return piece_of(
        MemberSpec("frame", HERE, SQUARE, points, (0.0,) * 4, closed=True),
        run("bar", SQUARE, (400, 0, 500), (400, 500, 500)),
    )


def splayed_legs() -> Piece:
    """A round-tube frame on legs splayed in two directions, cut level to the floor."""
    return piece_of(
        run("rail", TUBE, (0, 0, 700), (600, 0, 700), ends=FREE),
        run("leg", TUBE, (100, 0, 700), (20, -150, 0), placings=(Mirror(0, 300),), ends=(End.AUTO, End.LEVEL)),
        run("back leg", TUBE, (300, 0, 700), (300, 220, 0), ends=(End.AUTO, End.LEVEL)),
    )


def posts_and_rails() -> Piece:
    """Square tube posts with rails, flat braces, a solid top and feet."""
    top = parse_stock("board 30 x 140 oak")
    return piece_of(
        run("post", SQUARE, (20, 20, 30), (20, 20, 700), placings=(Mirror(0, 400), Mirror(1, 250)), ends=FREE),
        run("rail", SQUARE, (20, 20, 600), (780, 20, 600), placings=(Mirror(1, 250),)),
        run("side", SQUARE, (20, 20, 600), (20, 480, 600), placings=(Mirror(0, 400),)),
        run("brace", FLAT, (20, 20, 200), (400, 20, 600), wide=(0, 0, 1), placings=(Mirror(0, 400),)),
        PanelSpec("top", HERE, PanelKind.SOLID, top, (0, 0, 700), (800, 500, 700), 2, 1, 0),
        HardwareSpec(
            "foot", HERE, "foot", ((20, 20, 30),), "levelling foot", {"height": 30.0, "diameter": 38.0},
            placings=(Mirror(0, 400), Mirror(1, 250)),
        ),
    )  # fmt: skip


def wheeled_rack() -> Piece:
    """Hoops, mirrored angle ledges, slatted shelves on battens, casters."""
    pine, batten = parse_stock("board 20 x 95 pine"), parse_stock("board 20 x 45 pine")
    return piece_of(
        MemberSpec(
            "hoop", HERE, TUBE, ((0, 0, 100), (0, 0, 1500), (700, 0, 1500), (700, 0, 100)), (0, 100, 100, 0),
            Drawn.OUTSIDE, ends=FREE, placings=(Along(1, (0.0, 450.0)),),
        ),
        run(
            "ledge", ANGLE, (16, 0, 300), (16, 450, 300), legs=((1, 0, 0), (0, 0, -1)), follows="heel",
            placings=(Along(2, (0.0, 350.0)), Mirror(0, 350)),
        ),
        run("tie", TUBE, (16, 0, 1200), (16, 450, 1200), placings=(Mirror(0, 350),)),
        PanelSpec(
            "shelf", HERE, PanelKind.SLATS, pine, (35, 4, 300), (665, 446, 300), 2, 1, 0, 12.0,
            Battens(batten, 2, 60.0), (0, -1, 0), (Along(2, (0.0, 350.0)),),
        ),
        HardwareSpec(
            "caster", HERE, "caster", ((16, 16, 100), (684, 16, 100), (16, 434, 100), (684, 434, 100)), "75 mm caster",
            {"height": 100.0, "wheel": 75.0, "width": 25.0, "lead": 30.0},
        ),
        HardwareSpec("screw", HERE, "screw", ((60, 60, 310),), "screw 4 x 30", {"length": 30.0}),
    )  # fmt: skip


def sleeved_loop() -> Piece:
    """A closed bent loop whose butt is sleeved, on round bar feet."""
    points = ((0.0, 0.0, 300.0), (500.0, 0.0, 300.0), (500.0, 300.0, 300.0), (0.0, 300.0, 300.0))
    sleeve = parse_stock("round tube 27 x 2 mm")
    butt = Butt(0.4, sleeve, 90.0)
    return piece_of(
        MemberSpec("loop", HERE, TUBE, points, (60.0,) * 4, closed=True, butt=butt),
        run("foot", BAR, (100, 0, 300), (100, 0, 0), placings=(Mirror(0, 250), Mirror(1, 150))),
    )


def full_ring() -> Piece:
    """A ring of four arcs on three tubes spread evenly, which are coped to its curve."""
    corners = ((200.0, 200.0, 600.0), (-200.0, 200.0, 600.0), (-200.0, -200.0, 600.0), (200.0, -200.0, 600.0))
    return piece_of(
        MemberSpec("ring", HERE, TUBE, corners, (200.0,) * 4, closed=True, ring=True),
        run("leg", SMALL, (200, 0, 600), (260, 0, 0), placings=(Around(0, 0, 3),), ends=(End.AUTO, End.LEVEL)),
    )


def bars_and_pipe() -> Piece:
    """Pipe and reduced-wall tube, where weight and strength go by different walls; a bent round bar and a bent flat."""
    return piece_of(
        run("pipe", parse_stock("pipe 1 1/4 sch 40"), (0, 0, 0), (0, 0, 900), ends=FREE),
        run("arm", parse_stock("pipe 1 sch 40"), (0, 0, 500), (300, 100, 800), ends=(End.AUTO, End.PLUMB)),
        run("tube", parse_stock("hss 2 x 1 x 1/8", unit="inch"), (500, 0, 0), (500, 0, 700), ends=FREE),
        MemberSpec(
            "hook", HERE, BAR, ((0, 300, 0), (0, 300, 200), (0, 350, 250), (80, 350, 250)), (0, 30, 20, 0), ends=FREE
        ),
        MemberSpec("strap", HERE, FLAT, ((300, 300, 0), (300, 300, 200), (400, 300, 200)), (0, 20, 0), ends=FREE),
    )  # fmt: skip


def big_and_small_corner() -> Piece:
    """Unequal round tubes that meet at a corner: the larger runs on, the smaller is coped to it."""
    return piece_of(
        run("post", TUBE, (0, 0, 0), (0, 0, 600), ends=(End.FREE, End.AUTO)),
        run("arm", SMALL, (0, 0, 600), (400, 0, 600), ends=(End.AUTO, End.FREE)),
        run("equal", TUBE, (600, 0, 0), (600, 0, 500), ends=(End.FREE, End.AUTO)),
        run("roof", TUBE, (600, 0, 500), (900, 0, 700), ends=(End.AUTO, End.FREE)),
    )


def grazing_ends() -> Piece:
    """Ends that only graze what they meet: equal pipes at a lean, a branch where a bend gives way to its straight."""
    pipe = parse_stock("pipe 1 sch 40")
    start = np.array([62.65656999, 0.0, 598.21249834])
    points = ((0.0, 0.0, 0.0), (0.0, 0.0, 600.0), (500.0, 0.0, 600.0))
    lean = np.array([0.71901482, -0.6896091, -0.08635384])
    branch = start + 250 * np.array([-0.15765302, -0.65048146, -0.74298008])
    return piece_of(
        MemberSpec("bent", HERE, TUBE, points, (0.0, 79.41061588, 0.0), ends=FREE),
        run("branch", parse_stock("square tube 20 x 20 x 2"), _point(start), _point(branch), ends=(End.AUTO, End.FREE)),
        run("pipe", pipe, (900, 0, 0), (900, 0, 800), ends=FREE),
        run("arm", pipe, (900, 0, 381.21), _point(np.array([900, 0, 381.21]) + 250 * lean), ends=(End.AUTO, End.FREE)),
    )


def _point(at: NDArray[np.float64]) -> tuple[float, float, float]:
    return float(at[0]), float(at[1]), float(at[2])


PIECES = {
    make.__name__: make
    for make in (
        coped_ties,
        on_a_bend,
        mitred_frame,
        splayed_legs,
        posts_and_rails,
        wheeled_rack,
        sleeved_loop,
        full_ring,
        bars_and_pipe,
        big_and_small_corner,
        grazing_ends,
    )
}
