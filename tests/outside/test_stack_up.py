"""Tolerance stack-ups, squareness and rock, against published worked examples and closed forms.

Published one-dimensional examples, worst case and root of the sum of squares: a bar less three others (40 less 25, 2
and 10 mm), three parts in a housing (2.000, 1.500 and 0.500 in in 4.020 in), and ten equal parts; as seen in handbooks
of tolerance analysis. Here the parts are rods put together through the whole model of place, clamp, fasten and release.
Diagonals out of square: cosine rule. Rock of four feet: plane through three corners of a rectangle.
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics import frame_model
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Outcome, Sensitivity, Source, Stage, Stop
from fitwright.mechanics.variation.corners import corners, overall
from fitwright.mechanics.variation.influences import influences
from fitwright.mechanics.variation.loose import Loose, Meeting, Standing
from fitwright.mechanics.variation.reading import Reading, apart, rows_of
from fitwright.mechanics.variation.rock import rock, stances
from fitwright.mechanics.variation.seats import seats

X, Y, Z = np.eye(3)
ASIDE = 10.0
DEVIATIONS = 3.0


def loose_rods(starts: Floats, finishes: Floats, meetings: tuple[Meeting, ...] = ()) -> Loose:
    """Straight rods from starts to finishes (k, 3), each one element, standing by all their ends."""
    count = len(starts)
    nodes = np.stack([starts, finishes], axis=1).reshape(-1, 3)
    model = frame_model(
        nodes, np.arange(2 * count).reshape(-1, 2), e=2e5, g=8e4, area=100.0, i_y=800.0, i_z=800.0, j=1600.0,
        node_labels=[f"rod {i // 2}" for i in range(2 * count)],
    )  # fmt: skip
    return Loose(
        model=model,
        nodes_of={k: np.array([2 * k, 2 * k + 1]) for k in range(count)},
        elements_of={k: np.array([k]) for k in range(count)},
        s=np.tile([0.0, 1.0], count),
        member_of=np.repeat(np.arange(count), 2),
        meetings=meetings,
        feet=tuple(Standing(f"end {i}", i, point, "end") for i, point in enumerate(nodes)),
    )


def stack(housing: float, parts: list[float], limits: list[float]) -> Sensitivity:
    """The gap left in a housing by parts pushed together from its closed end.

    limits: of the housing, then of each part.

    Rod 0 is the housing, beside the others; it and the first part are set to one stop, every other part is pressed to
    the one before it, and all are then fastened.
    """
    ends = np.concatenate([[0.0], np.cumsum(parts)])
    starts = np.vstack([[0.0, ASIDE, 0.0], np.column_stack([ends[:-1], np.zeros((len(parts), 2))])])
    finishes = np.vstack([[housing, ASIDE, 0.0], np.column_stack([ends[1:], np.zeros((len(parts), 2))])])
    beside = Meeting(0, (0, 2), (0, 1), 0, np.array([-Y, X, -Z]), seats()["lap"], 1.0)
    butts = [
        Meeting(i, (2 * i + 1, 2 * i + 2), (i, i + 1), 1, np.array([X, Y, Z]), seats()["butt"], 1.0)
        for i in range(1, len(parts))
    ]
    rods = loose_rods(starts, finishes, (beside, *butts))
    across = [Stop(node, way, "bench_stop") for node in range(len(rods.s)) for way in (Y, Z)]
    ground = [Stop(0, X, "bench_stop"), Stop(2, X, "bench_stop")]
    stage = Stage("all", (*across, *ground), tuple(range(len(rods.meetings))))
    # both read on the line of the parts, so that it does not matter how the whole lies
    gap = apart((len(rods.s) - 1, finishes[-1]), (1, np.array([housing, 0.0, 0.0])), X)
    outcome = Outcome("gap", "gap", housing - sum(parts))
    row = rows_of(rods, [Reading(outcome, gap)])
    felt = influences(rods, [stage], row, np.zeros((rods.model.dof_count, 0)))
    lengths = felt.gaps[:, ::6]
    sources = tuple(Source(f"rod {i}", "tape", limit / DEVIATIONS) for i, limit in enumerate(limits))
    return Sensitivity((outcome,), sources, lengths)


@pytest.mark.parametrize(
    ("housing", "parts", "limits", "nominal", "worst", "rss", "tolerance"),
    [
        (40.0, [25.0, 2.0, 10.0], [0.10, 0.05, 0.03, 0.05], 3.0, 0.23, 0.12610, 1e-4),
        (4.020, [2.0, 1.5, 0.5], [0.005, 0.005, 0.003, 0.002], 0.020, 0.015, 0.00794, 1e-5),
        (4.020, [2.0, 1.5, 0.5], [0.0, 0.005, 0.003, 0.002], 0.020, 0.010, 0.00616, 1e-5),
        (100.0, [9.0] * 10, [0.0] + [0.1] * 10, 10.0, 1.0, 0.316, 1e-3),
    ],
)
def test_published_stack_ups(
    housing: float, parts: list[float], limits: list[float], nominal: float, worst: float, rss: float, tolerance: float
) -> None:
    gap = stack(housing, parts, limits)
    assert gap.nominal[0] == pytest.approx(nominal, abs=1e-9)
    assert gap.worst(DEVIATIONS)[0] == pytest.approx(worst, abs=tolerance)
    assert DEVIATIONS * gap.spread[0] == pytest.approx(rss, abs=tolerance)


@pytest.mark.parametrize(("skew_deg", "expected"), [(0.25, 0.14050), (0.5, 0.28099), (1.0, 0.56197)])
def test_diagonals_of_a_frame_out_of_square(skew_deg: float, expected: float) -> None:
    """36 x 18 in; cosine rule."""
    inch = 25.4
    a, b, height = 36 * inch, 18 * inch, 30 * inch
    base = np.array([[0, 0, 0], [a, 0, 0], [a, b, 0], [0, b, 0.0]])
    frame = loose_rods(base, base + height * Z)
    readings = list(overall(corners(frame)))
    row = rows_of(frame, readings)[[reading.outcome.name for reading in readings].index("diagonals, bottom")]
    moved = np.zeros((8, 6))
    moved[[4, 5, 6, 7], 0] = b * np.sin(np.radians(skew_deg))
    assert row @ moved.ravel() / inch == pytest.approx(expected, rel=2e-4)


def test_rock_of_four_feet() -> None:
    """Feet in order round a rectangle at 0, 0.06, 0.02, -0.03 in: 0.01 in."""
    plan = np.array([[0, 0], [40, 0], [40, 20], [0, 20.0]])
    heights = np.array([[0, 0.06, 0.02, -0.03]])
    assert rock(heights, stances(plan, np.array([20.0, 10.0])))[0] == pytest.approx(0.01, abs=1e-12)
