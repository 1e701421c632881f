from __future__ import annotations

import pytest

from fitwright.web.errors import NotThere
from fitwright.web.pages.place.survey import blank, floor_places, space_of, survey_of
from tests.demos import EXAMPLES

BENCH = (EXAMPLES / "workbench" / "job.yaml").read_text(encoding="utf-8")
NOTHING = "job: {name: a, unit: mm}\n"


def texts(text: str) -> dict[str, str]:
    survey = survey_of(text)
    return {e.name: e.text for e in (*survey.elevation, *survey.plan, *survey.floor, *survey.listed, *survey.rest)}


def test_fields_have_what_the_file_says() -> None:
    found = texts(BENCH)
    assert [found[f"opening.width.{k}"] for k in range(3)] == ["64 1/2", "64 3/8", "64 7/16"]
    assert [found[f"opening.depth.{k}"] for k in range(3)] == ["30", "", ""]
    assert found["opening.lean.left"] == "1/4"
    assert found["opening.plan.diagonals.1"] == "71 1/16"
    assert found["clear.back"] == "1/2"
    assert [found[f"floor.{k}"] for k in range(4)] == ["0", "1/16", "1/4", "5/16"]


def test_sizes_with_a_place_of_their_own_are_listed() -> None:
    text = NOTHING + "space: {opening: {width: [{at: 0, is: 700}, {at: 900, is: 690, station: 300}]}}\n"
    survey = survey_of(text)
    assert [(e.name, e.label, e.text) for e in survey.listed] == [
        ("opening.width.0.is", "width at 0 up", "700"),
        ("opening.width.1.is", "width at 900 up, 300 in", "690"),
    ]
    assert not any(entry.name.startswith("opening.width") for entry in survey.elevation)


def test_the_floor_begins_with_the_four_corners() -> None:
    space = space_of(NOTHING + "space: {opening: {width: [700, 702, 701], depth: 420}}\n")
    assert floor_places(space) == [("0", "0", ""), ("700", "0", ""), ("0", "420", ""), ("700", "420", "")]
    assert floor_places(space_of(NOTHING)) == []


def test_things_and_doors_have_their_fields() -> None:
    survey = survey_of((EXAMPLES / "coat-rail" / "job.yaml").read_text(encoding="utf-8"))
    assert [(one.kind, one.name) for one in survey.things + survey.doors] == [
        ("thing on a wall", "socket"),
        ("door", "cloakroom door"),
    ]
    values = {entry.name: entry.text for entry in survey.things[0].entries}
    assert (values["on"], values["at.1"], values["size.2"], values["reach"]) == ("left", "300", "9", "front")
    assert survey.doors[0].choices["opens"] == ("left", "right", "front", "back")


def test_a_file_without_a_survey_has_empty_fields() -> None:
    assert not any(texts(NOTHING).values())


def test_only_known_kinds() -> None:
    with pytest.raises(NotThere, match="door"):
        blank("moat")
