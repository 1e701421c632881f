"""Whatever is marked: an answer with numbers in it and words about it, or one kind of error."""

from __future__ import annotations

import math
import warnings

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitwright.job.marks import (
    Arc,
    EdgeMark,
    Height,
    Known,
    Length,
    LensMark,
    Photo,
    PlaneMark,
    Quantity,
    Spacing,
    Spot,
    Tube,
)
from fitwright.place.photo import MarksError, solve
from fitwright.place.photo.telling import as_json, told
from fitwright.units import Style

NAMES = tuple("abcdefghij")
names = st.sampled_from(NAMES)
pixels = st.one_of(st.integers(0, 640).map(float), st.sampled_from([0.0, 320.0, 320.0, -500.0, 5000.0]))
directions = st.sampled_from(["x", "y", "z", "x", "y", "z", "brace"])
axes = st.sampled_from(["x", "y", "z"])
some = st.lists(names, min_size=2, max_size=6, unique=True).map(tuple)
many = st.lists(names, min_size=5, max_size=8, unique=True).map(tuple)
quantities: st.SearchStrategy[Quantity] = st.one_of(
    st.builds(Length, names, names, along=st.none() | axes),
    st.builds(Length, names, names, across=axes),
    st.builds(Height, names, names),
    st.builds(Spacing, many, axes),
    st.builds(Arc, many, st.sampled_from(["floor", "front"])),
    st.builds(Tube, st.tuples(some, some), axes, names),
)
edges = st.one_of(
    st.builds(EdgeMark, directions, some),
    st.builds(EdgeMark, directions, some),
    st.builds(EdgeMark, st.just("straight"), many),
)
photos = st.builds(
    Photo,
    lens=st.sampled_from([LensMark(), LensMark(focal=500.0), LensMark(barrel=0.0), LensMark(focal_35mm=28.0)]),
    cropped=st.sampled_from([None, True]),
    spots=st.fixed_dictionaries({name: st.builds(Spot, pixels, pixels) for name in NAMES}),
    edges=st.lists(edges, min_size=2, max_size=6).map(tuple),
    planes=st.dictionaries(st.sampled_from(["floor", "front"]), st.builds(PlaneMark, axes, some), max_size=2),
    known=st.dictionaries(names, st.builds(Known, quantities, st.floats(1, 3000), st.floats(0.1, 5)), max_size=2),
    measures=st.dictionaries(names, quantities, max_size=3),
)


@given(photos)
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_an_answer_or_one_kind_of_error(photo: Photo) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            solved = solve(photo, (640, 480))
        except MarksError:
            return
        for one in solved.measures:
            assert math.isfinite(one.share)
            assert one.value is None or math.isfinite(one.value)
            assert one.plus_minus is None or one.plus_minus >= 0
        assert told(solved, Style.inch())
        assert as_json(solved)["camera"]["focal_px"] > 0
