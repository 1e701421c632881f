"""The piece under each of its loads."""

from __future__ import annotations

import json
import struct
from typing import Any

import numpy as np
import pytest

from fitwright.web.errors import NotThere
from fitwright.web.packed import packed_bent
from fitwright.web.packed.bent import load_cases
from tests.demos import assessed


def head_of(packed: bytes) -> dict[str, Any]:
    """The head of a packed scene."""
    (length,) = struct.unpack("<I", packed[4:8])
    found: dict[str, Any] = json.loads(packed[8 : 8 + length])
    return found


def test_every_case_can_be_drawn_and_says_which_it_is() -> None:
    assessment = assessed("workbench")
    assert assessment.frame is not None
    cases = load_cases(assessment.frame)
    assert len({name for _, name in cases}) == len(cases)
    for number, name in cases:
        head = head_of(packed_bent(assessment, "r", number))
        assert head["case"] == number
        assert head["lines"][0]["said"].startswith(name)
        assert head["cases"] == [list(case) for case in cases]


def test_without_a_case_it_is_the_one_that_moves_most() -> None:
    assessment = assessed("workbench")
    assert assessment.frame is not None
    frame = assessment.frame
    moved = np.linalg.norm(frame.displacements[:, :3], axis=1).max(axis=0)
    usual = [k for k, case in enumerate(frame.cases.cases) if case.kind in ("full", "single", "push")]
    assert moved[head_of(packed_bent(assessment, "r"))["case"]] == pytest.approx(max(moved[k] for k in usual))


def test_there_is_no_such_case() -> None:
    with pytest.raises(NotThere):
        packed_bent(assessed("workbench"), "r", 999)
