from __future__ import annotations

from fitwright.checks.places import part_words, place_words
from tests.unit.checks.frames import rack, results


def test_places_in_words() -> None:
    made = rack()
    job, framed = made[0], results(made).framed
    leg = framed.elements_of[0]
    assert place_words(job, framed, int(leg[0]), 0) == "0.0 mm above the floor"
    top = next(k for k, line in framed.lines.items() if line.member.part == "top")
    last = int(framed.elements_of[top][-1])
    assert place_words(job, framed, last, 2).endswith("from its left end")
    assert part_words(framed, "leg") == f"leg ({framed.piece.mark_of['leg 1']})"
