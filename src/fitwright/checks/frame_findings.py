"""Every finding about strength, sag, sway and welds under load, with advice that was tried."""

from __future__ import annotations

from fitwright.checks.advice import Check, advised
from fitwright.checks.buckling import buckling_findings
from fitwright.checks.cases import load_cases
from fitwright.checks.frame_results import FrameResults, solve_cases
from fitwright.checks.sag import sag_findings
from fitwright.checks.strength import AREA, strength_findings
from fitwright.checks.sway import sway_findings
from fitwright.checks.tees import tee_findings
from fitwright.checks.welds_loaded import weld_load_findings
from fitwright.findings import Finding, Verdict, by_urgency
from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed, NotFramed
from fitwright.mechanics.framing import framed as frame_of
from fitwright.mechanics.mechanism import Mechanism
from fitwright.piece.model import Piece

NAMED = 4
BOARDS = (
    "join them with members, such as a rail or a stretcher welded to both, and a brace where only one joins them: "
    "boards and their screws are not counted on to hold a frame upright"
)
CHECKS: tuple[Check, ...] = (
    strength_findings,
    sag_findings,
    sway_findings,
    buckling_findings,
    tee_findings,
    weld_load_findings,
)


def frame_results(piece: Piece, job: Job, framed: Framed | None = None) -> FrameResults:
    """Every load case of the job on the frame of its piece.

    Raises NotFramed or Mechanism, both naming the part, for a piece that floats or can move without resistance.
    """
    frame = framed or frame_of(piece, job)
    return solve_cases(frame, load_cases(frame, job))


def frame_findings(
    piece: Piece, job: Job, framed: Framed | None = None, results: FrameResults | None = None
) -> list[Finding]:
    """Everything that the frame has to say, worst first; results: of its load cases, where they are there already.

    A piece that is no frame (it floats, something in it can move without resistance) gets one finding that says so.
    """
    try:
        results = results or frame_results(piece, job, framed)
    except (NotFramed, Mechanism) as problem:
        return [_no_frame(piece, problem)]
    if results.tips[0]:
        return [_goes_over()]
    return by_urgency([*_no_way(results), *advised(job, results, CHECKS)])


def _no_frame(piece: Piece, problem: NotFramed | Mechanism) -> Finding:
    check = "stands and holds together"
    if isinstance(problem, Mechanism):
        what, advice = _loose(piece, problem)
    else:
        what, _, advice = str(problem).partition(": ")
    return Finding(AREA, "piece", check, Verdict.FAILS, basis="statics", advice=advice, formula=what)


def _goes_over() -> Finding:
    advice = "bring the feet farther out, until the weight stands between them, or fix it to a wall"
    what = "it goes over under its own weight"
    return Finding(
        AREA, "piece", "stands and holds together", Verdict.FAILS, basis="statics", advice=advice, formula=what
    )


def _loose(piece: Piece, problem: Mechanism) -> tuple[str, str]:
    """What moves, and what to do, without the words of the calculation."""
    if " floats" in str(problem):
        what, _, advice = str(problem).partition(": ")
        return what, advice
    apart = _apart(piece)
    if len(apart) > 1:
        what = f"no member joins {' and '.join(apart[:NAMED])}, and each can move by itself"
        return what, BOARDS
    names = problem.elements or problem.nodes
    some = ", ".join(names[:NAMED]) + (f" and {len(names) - NAMED} more" if len(names) > NAMED else "")
    advice = (
        "weld the joints, add a brace or a fastened panel, or hold it to the wall; a bolted joint counts as a hinge"
    )
    return f"{some} can move without anything that resists", advice


def _apart(piece: Piece) -> list[str]:
    """One member of each group that no joint ties to the others, by name."""
    group = list(range(len(piece.members)))
    for joint in piece.joints:
        old, new = group[joint.second], group[joint.first]
        group = [new if one == old else one for one in group]
    alone = dict.fromkeys(group[member.index] for member in piece.members if member.sleeve_of is None)
    return [piece.members[one].name for one in alone]


def _no_way(results: FrameResults) -> list[Finding]:
    """Panels whose load does not get to the floor."""
    found = []
    for path in results.framed.panels:
        if path.loose:
            what, _, advice = path.loose.partition(": ")
            name = results.framed.piece.panels[path.panel].name
            found.append(
                Finding(
                    AREA,
                    name,
                    "way of the load to the floor",
                    Verdict.FAILS,
                    basis="statics",
                    advice=advice,
                    formula=what,
                )
            )
    return found
