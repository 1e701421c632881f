"""From a piece to what its frame says, for the shipped jobs, beside PyNiteFEA on the same mesh in the same run.

Framing: members, joints, feet and panels made into nodes and elements. Cases: the load cases of the brief. Solved: from
the mesh to the displacements, section forces and feet of all cases, those that lift included. Findings: all checks on
top, buckling included, with advice where something is tight. The other program solves one of the cases, all feet down,
without forces between the ends: less work, so that the ratio is on the safe side.

Run: `python bench/piece_frame.py`
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from Pynite import FEModel3D

from fitwright.checks.cases import load_cases
from fitwright.checks.frame_findings import frame_findings
from fitwright.checks.frame_results import solve_cases
from fitwright.job import load_job
from fitwright.mechanics import factorise, on_feet, solve
from fitwright.mechanics.framing import Framed, floor_feet, framed, holding
from fitwright.mechanics.framing.loading import Pattern, as_loads
from fitwright.piece import build

EXAMPLES = Path(__file__).parents[1] / "examples"
NAMES = ("drying-rack", "coat-rail", "workbench")
RIGID = 1e4


def best(run: Callable[[], object], times: int) -> float:
    """The shortest of several runs [ms]."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        spent.append(time.perf_counter() - start)
    return 1e3 * min(spent)


def one_case(frame: Framed, pattern: Pattern) -> object:
    """Our own mesh to displacements for one case, feet down."""
    supports = on_feet(frame.model, holding(frame, stick=True), floor_feet(frame, stick=True))
    return solve(factorise(frame.model, supports), as_loads(frame, [pattern]))


def other(frame: Framed, pattern: Pattern) -> Any:
    """The same with the other program, eccentric ends as stiff members."""
    ours, model = frame.model, FEModel3D()
    held = on_feet(ours, holding(frame, stick=True), floor_feet(frame, stick=True)).held
    model.add_material("steel", 2e5, 7.7e4, 0.3, 7.85e-6)
    model.add_section("rigid", *[RIGID * float(v.max()) for v in (ours.area, ours.i_y, ours.i_z, ours.j)])
    for n, point in enumerate(ours.nodes.tolist()):
        model.add_node(f"N{n}", *point)
        model.def_support(f"N{n}", *(bool(fixed) for fixed in held[n]))
        model.add_node_load(f"N{n}", "FZ", float(pattern.nodal[n, 2]))
    for m, pair in enumerate(ours.elements.tolist()):
        names = [f"N{node}" for node in pair]
        for end in np.flatnonzero(np.linalg.norm(ours.offsets[m], axis=1) > 1e-6).tolist():
            model.add_node(f"E{m}.{end}", *ours.ends[m, end].tolist())
            model.add_member(f"R{m}.{end}", names[end], f"E{m}.{end}", "steel", "rigid")
            names[end] = f"E{m}.{end}"
        model.add_section(f"s{m}", *[float(v[m]) for v in (ours.area, ours.i_y, ours.i_z, ours.j)])
        model.add_member(f"M{m}", *names, "steel", f"s{m}")
        model.add_member_dist_load(f"M{m}", "FZ", *[float(pattern.line[m, 2])] * 2)
    model.analyze_linear(check_stability=False)
    return model


def line(name: str) -> str:
    """One row of the table."""
    job = load_job(EXAMPLES / name / "job.yaml")
    piece = build(job)
    frame = framed(piece, job)
    cases = load_cases(frame, job)
    spent = (
        best(lambda: framed(piece, job), 7),
        best(lambda: load_cases(frame, job), 7),
        best(lambda: solve_cases(frame, cases), 7),
        best(lambda: frame_findings(piece, job, frame), 5),
        best(lambda: one_case(frame, cases.cases[0].pattern), 7),
        best(lambda: other(frame, cases.cases[0].pattern), 2),
    )
    row = f"{name:12s}{frame.model.element_count:9d}{len(cases.cases):7d}"
    return row + "".join(f"{ms:9.1f}" for ms in spent) + f"{spent[5] / spent[4]:7.0f}x"


def main() -> None:
    """Print the table; times in ms."""
    print("job          elements  cases  framing    cases   solved findings  1 case  PyNiteFEA  ratio")
    for name in NAMES:
        print(line(name))


if __name__ == "__main__":
    main()
