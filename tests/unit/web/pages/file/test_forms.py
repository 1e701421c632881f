"""The form of a part says what the file says."""

from __future__ import annotations

import pytest

from fitwright.job import JobFile, parse_job
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.pages.file.forms import SHAPES, first_values, part_form, part_names, value_of
from fitwright.web.pages.file.words import completion_words
from tests.demos import EXAMPLES, NAMES, assessed


def text_of(name: str) -> str:
    return (EXAMPLES / name / "job.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_every_part_has_a_form_whose_values_read_back(name: str) -> None:
    text = text_of(name)
    for part, kind in part_names(text):
        form = part_form(text, part)
        assert form.kind == kind
        file = JobFile(text)
        for field in form.fields:
            assert field.told, f"{field.key} is not explained"
            file.set(("parts", part, field.key), value_of(field.key, field.text))
        assert parse_job(file.text()).parts == parse_job(text).parts or _same(file.text(), text)


def _same(one: str, other: str) -> bool:
    """Parts that differ in their lines alone."""
    first, second = parse_job(one), parse_job(other)
    return [part.name for part in first.parts] == [part.name for part in second.parts]


@pytest.mark.parametrize("kind", SHAPES)
@pytest.mark.parametrize("name", NAMES)
def test_a_new_part_is_one_that_the_file_takes(name: str, kind: str) -> None:
    if (name, kind) == ("coat-rail", "panel"):
        with pytest.raises(NotTaken, match="no lumber"):
            first_values(kind, assessed(name).job)
        return
    file = JobFile(text_of(name))
    file.set(("parts", "new one"), first_values(kind, assessed(name).job))
    assert "new one" in {part.name for part in parse_job(file.text()).parts}
    assert dict(part_names(file.text()))["new one"] == kind


def test_a_part_that_is_not_there_has_no_form() -> None:
    with pytest.raises(NotThere):
        part_form(text_of("coat-rail"), "nothing")


@pytest.mark.parametrize("text", ["{x: 1", "[1, 2", '"open', "a: b: c"])
def test_a_value_that_cannot_be_read_is_not_taken(text: str) -> None:
    with pytest.raises(NotTaken, match="radius"):
        value_of("radius", text)


def test_words_are_those_of_the_schema_and_of_the_job() -> None:
    words = completion_words(assessed("drying-rack").job)
    labels = {place: {word["label"] for word in found} for place, found in words.items()}
    assert {"job", "dims", "parts", "space"} <= labels["top"]
    assert {"outside", "slats", "caster", "mirror"} <= labels["parts"]
    assert {"width", "frame", "frame.od"} <= labels["values"]
