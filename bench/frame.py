"""The frame solver beside PyNiteFEA, an independent frame program, in one run: same piece, same mesh, same machine.

The piece is a shelf rack of uprights, rails and cross bars, meshed between its joints. From mesh to displacements means
from arrays of nodes and elements to the displacements of all nodes, one load case; the other program's model is built
from the same arrays through its own calls, and analysed without its stability check. Then what more cases and more
elements cost. The ratio counts, not the milliseconds.

Run: `python bench/frame.py`
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from Pynite import FEModel3D

from fitwright.mechanics import (
    FrameModel,
    Response,
    buckling,
    factorise,
    feet,
    floor,
    forces,
    frame_model,
    gap_forces,
    influence,
    on_feet,
    section_forces,
    solve,
    stand,
    supports,
)
from fitwright.mechanics.model import Floats, Ints

E, G, AREA, INERTIA, TORSION = 205000.0, 79000.0, 215.0, 3.1e4, 6.2e4
SIZES = ((1, 1, 3, 4), (1, 1, 5, 6), (2, 1, 5, 10), (3, 2, 6, 16), (4, 4, 8, 10))
WITH_OTHER = 1200
CASES = 150


@dataclass(frozen=True)
class Rack:
    """Bays along X, bays along Y, levels, elements a member; nodes (n, 3), elements (m, 2), feet: held nodes."""

    nodes: Floats
    elements: Ints
    feet: list[int]


def rack(bays_x: int, bays_y: int, levels: int, parts: int) -> Rack:
    """A rack with 800 x 450 mm bays and 350 mm between levels."""
    size = np.array([800.0, 450.0, 350.0])
    corners = [(i, j, k) for k in range(levels + 1) for j in range(bays_y + 1) for i in range(bays_x + 1)]
    number = {corner: n for n, corner in enumerate(corners)}
    nodes = [np.array(corner) * size for corner in corners]
    elements = []
    for corner in corners:
        for axis in range(3):
            other = tuple(c + (a == axis) for a, c in enumerate(corner))
            if other not in number or (axis < 2 and corner[2] == 0):
                continue
            inner = range(len(nodes), len(nodes) + parts - 1)
            start, end = nodes[number[corner]], nodes[number[other]]
            nodes += [start + (end - start) * share / parts for share in range(1, parts)]
            chain = [number[corner], *inner, number[other]]
            elements += list(pairwise(chain))
    return Rack(np.array(nodes), np.array(elements), [n for c, n in number.items() if c[2] == 0])


def load(piece: Rack, cases: int) -> Floats:
    """(6n, cases) one downward force after another, and a push on every node."""
    size = len(piece.nodes)
    nodal = np.zeros((size, 6, cases))
    nodal[:, 2, :] = -np.random.default_rng(0).uniform(0, 5, (size, cases))
    nodal[:, 0, :] = 1.0
    return nodal.reshape(6 * size, cases)


def modelled(piece: Rack) -> FrameModel:
    """The piece as our frame."""
    return frame_model(piece.nodes, piece.elements, e=E, g=G, area=AREA, i_y=INERTIA, i_z=INERTIA, j=TORSION)


def ours(piece: Rack, nodal: Floats) -> Response:
    """From mesh to displacements."""
    model = modelled(piece)
    held = supports(model, dict.fromkeys(piece.feet, "pinned"))
    return solve(factorise(model, held), forces(model, nodal))


def other(piece: Rack, nodal: Floats) -> Any:
    """From mesh to displacements with the other program."""
    model = FEModel3D()
    model.add_material("steel", E, G, 0.3, 7.85e-6)
    model.add_section("tube", AREA, INERTIA, INERTIA, TORSION)
    for n, point in enumerate(piece.nodes.tolist()):
        model.add_node(f"N{n}", *point)
    for m, (i, j) in enumerate(piece.elements.tolist()):
        model.add_member(f"M{m}", f"N{i}", f"N{j}", "steel", "tube")
    for n in piece.feet:
        model.def_support(f"N{n}", True, True, True, False, False, False)
    for n, force in enumerate(nodal[:, 0].reshape(-1, 6).tolist()):
        model.add_node_load(f"N{n}", "FX", force[0])
        model.add_node_load(f"N{n}", "FZ", force[2])
    model.analyze_linear(check_stability=False)
    return model


def best(run: Callable[[], object], times: int) -> float:
    """The shortest of several runs [ms]."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        spent.append(time.perf_counter() - start)
    return 1e3 * min(spent)


def difference(piece: Rack, nodal: Floats) -> float:
    """Largest difference of the two programs' displacements, as a share of the largest displacement."""
    moved = ours(piece, nodal).by_node[:, :3, 0]
    model = other(piece, nodal)
    nodes = [model.nodes[f"N{n}"] for n in range(len(piece.nodes))]
    theirs = np.array([[n.DX["Combo 1"], n.DY["Combo 1"], n.DZ["Combo 1"]] for n in nodes])
    return float(np.abs(moved - theirs).max() / np.abs(theirs).max())


def line(piece: Rack) -> str:
    """One row of the table."""
    count, one, many = len(piece.elements), load(piece, 1), load(piece, CASES)
    mine, mine_many = best(lambda: ours(piece, one), 5), best(lambda: ours(piece, many), 3)
    row = f"{count:8d} {mine:6.1f} ms {mine_many:7.1f} ms {1e3 * mine / count:9.1f}"
    if count > WITH_OTHER:
        return row
    theirs = best(lambda: other(piece, one), 2)
    return row + f" {theirs:7.0f} ms {theirs / mine:6.0f}x {difference(piece, one):10.1e}"


def more(piece: Rack) -> str:
    """One row of the second table: what is built on the factors, for 150 cases where there are cases."""
    model, legs = modelled(piece), feet(piece.feet, gap=0.2 * (np.arange(len(piece.feet)) == 0), stick=True)
    factor = factorise(model, on_feet(model, supports(model), legs))
    loads, ground = forces(model, load(piece, CASES)), floor(factor, legs)
    response = solve(factor, loads)
    outputs = np.eye(30, model.dof_count, 60)
    spent = (
        best(lambda: stand(ground, loads), 3),
        best(lambda: section_forces(Response(factor, loads, response.displacements)), 3),
        best(lambda: influence(factor, outputs, gap_forces(factor)), 3),
        best(lambda: buckling(response), 3),
    )
    return f"{len(piece.elements):8d}" + "".join(f"{ms:11.1f} ms" for ms in spent)


def main() -> None:
    """Print the tables."""
    print("elements    1 case  150 cases  us/elem.  PyNiteFEA   ratio  differ by")
    for size in SIZES:
        print(line(rack(*size)))
    print("\nelements  feet, 150c.  sections, 150c.  6m gaps > 30   buckling")
    for size in SIZES:
        print(more(rack(*size)))


if __name__ == "__main__":
    main()
