from __future__ import annotations

from fitwright.checks.frame_findings import frame_findings
from fitwright.findings import Finding, Verdict
from fitwright.job import parse_job
from fitwright.mechanics.framing import framed
from fitwright.piece import build
from tests.unit.checks.frames import demo, findings, one, rack

HEAD = """
job: {name: trial, unit: mm}
stock: {frame: square tube 40 x 40 x 2, board: board 20 x 95 oak}
parts:
"""


def found(parts: str) -> list[Finding]:
    job = parse_job(HEAD + parts)
    return frame_findings(build(job), job)


def test_a_floating_piece_is_told() -> None:
    (only,) = found("  bar: {stock: frame, path: [[0, 0, 500], [600, 0, 500]], ends: free}")
    assert only.verdict is Verdict.FAILS
    assert "floats" in only.formula
    assert "feet" in only.advice


def test_a_part_that_floats_is_named() -> None:
    (only,) = found(
        "  leg: {stock: frame, path: [[20, 20, 0], [20, 20, 700]], ends: free}\n"
        "  bar: {stock: frame, path: [[220, 20, 600], [580, 20, 600]], ends: free}\n"
    )
    assert only.verdict is Verdict.FAILS
    assert only.formula.startswith("bar floats")


def test_a_mechanism_names_its_parts() -> None:
    (only,) = found(
        "  leg: {stock: frame, path: [[20, 20, 0], [20, 20, 700]], ends: free, mirror: {x: 400, y: 200}}\n"
        "  rail: {stock: frame, path: [[20, 20, 600], [20, 380, 600]], mirror: {x: 400}, fastened: bolted}\n"
        "  long: {stock: frame, path: [[20, 20, 300], [780, 20, 300]], mirror: {y: 200}}\n"
    )
    assert only.verdict is Verdict.FAILS
    assert "leg 1" in only.formula
    assert "hinge" in only.advice


BENCH = """
  side: {stock: frame, path: [[20, 20, 0], [20, 20, 420], [20, 380, 420], [20, 380, 0]], corners: mitred,
    mirror: {x: 400}}
  seat: {solid: board, from: [0, 0, 440], to: [800, 400, 440], along: x, fastened: screwed}
"""


def test_sides_that_only_boards_join_are_told() -> None:
    (only,) = found(BENCH)
    assert only.verdict is Verdict.FAILS
    assert only.formula.startswith("no member joins side")
    assert "rail or a stretcher" in only.advice
    assert found(BENCH + "  rail: {stock: frame, path: [[20, 200, 420], [780, 200, 420]]}\n")[0].check != only.check


def test_a_shelf_without_a_way_to_the_floor_is_named() -> None:
    shelf = "  loose: {solid: board, from: [100, 100, 900], to: [500, 300, 900], along: x}"
    told = one(findings(rack(more=shelf)), "way of the load to the floor")
    assert told.subject == "loose"
    assert told.verdict is Verdict.FAILS


def test_the_shipped_jobs_say_something_about_every_check() -> None:
    checks = {"stress", "sag", "sway sideways", "sway front to back", "pushed as a column", "throat stress"}
    checks |= {"buckling of the whole frame", "wall of the tube at the tee"}
    for name in ("drying-rack", "workbench", "coat-rail"):
        job, piece = demo(name)
        told = frame_findings(piece, job, framed(piece, job))
        assert checks <= {f.check for f in told}, name
        assert all(f.basis and f.formula for f in told)
        assert all(f.verdict is not Verdict.NEEDS_INPUT for f in told)


def test_a_piece_that_goes_over_by_itself_is_told() -> None:
    (only,) = found(
        "  post: {stock: frame, path: [[0, 0, 0], [0, 0, 900]], ends: free}\n"
        "  arm: {stock: frame, path: [[0, 0, 880], [900, 0, 880]], ends: {start: auto, finish: free}}\n"
        "  toe: {stock: frame, path: [[0, 0, 20], [200, 0, 20]], ends: {start: auto, finish: free}}\n"
        "  side: {stock: frame, path: [[100, 0, 20], [100, 300, 20]], ends: {start: auto, finish: free}}\n"
    )
    assert only.verdict is Verdict.FAILS
    assert "own weight" in only.formula


def test_a_bracket_on_a_wall_stands_without_a_floor() -> None:
    text = HEAD.replace("stock:", "brief: {loads: {bar: 20 kg}}\nspace: {walls: {back: 400}}\nstock:") + (
        "  arm: {stock: frame, path: [[20, 0, 600], [20, 400, 600]], ends: {start: free, finish: auto}, "
        "mirror: {x: 300}}\n"
        "  bar: {stock: frame, path: [[20, 20, 600], [580, 20, 600]]}\n"
    )
    job = parse_job(text)
    told = frame_findings(build(job), job)
    assert {f.verdict for f in told} == {Verdict.HOLDS}
    arm = one(told, "stress", "arm")
    assert (arm.value or 0) > 1
