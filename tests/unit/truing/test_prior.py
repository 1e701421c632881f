"""What is believed before a reading: wider than virtual builds, by springback and take-up where they are not known."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.truing.prior import ROOM, ROTATION, SETUP, plain, prior
from tests.unit.truing.samples import rack


def test_the_set_up_of_the_bender_has_springback_on_top() -> None:
    setting = rack().making
    assert setting is not None
    known = prior(setting, rack().bend_sheets)
    (set_up,) = [s for s in known.sources if s.kind == SETUP]
    (usual,) = [s for s in setting.drawn.sources if s.kind == SETUP]
    step = rack().bend_sheets["A1"].steps[0]
    assert step.springback is not None
    doubt = step.springback.spread * step.springback.kept
    assert set_up.spread == pytest.approx(math.hypot(ROOM * usual.spread, doubt))


def test_planes_of_second_bends_can_be_read_and_nothing_else_is_moved_by_them() -> None:
    setting = rack().making
    assert setting is not None
    known = prior(setting, rack().bend_sheets)
    rotations = [i for i, s in enumerate(known.sources) if s.kind == ROTATION]
    assert len(rotations) == 2
    keys = [setting.found[int(np.argmax(known.mix[:, i]))].key for i in rotations]
    assert keys == ["turn:0:2", "turn:1:2"]


def test_plain_is_what_the_virtual_builds_draw() -> None:
    setting = rack().making
    assert setting is not None
    assert plain(setting).spreads == pytest.approx(setting.sensitivity.spreads)
