from __future__ import annotations

import numpy as np
import pytest

from fitwright.making.welding.sides import side_in_words


@pytest.mark.parametrize(
    ("toward", "words"),
    [
        ((1.0, 0, 0), "right side"),
        ((-1.0, 0.2, 0), "left side"),
        ((0, 1.0, 0), "back side"),
        ((0, 0, -1.0), "bottom side"),
        ((0.7, -0.7, 0), "right and front side"),
    ],
)
def test_sides_of_the_finished_piece(toward: tuple[float, float, float], words: str) -> None:
    assert side_in_words(np.array(toward)) == words
