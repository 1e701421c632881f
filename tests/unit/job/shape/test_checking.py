from __future__ import annotations

import pytest

from fitwright.job import JobFileError, Mistake, parse_job

HEAD = "job: {name: a, unit: mm}\nstock: {t: round tube 30 x 2}\n"
PATH = "path: [[0, 0, 0], [0, 0, 9]]"


def told(text: str) -> tuple[Mistake, ...]:
    with pytest.raises(JobFileError) as error:
        parse_job(text)
    return error.value.mistakes


def told_of_part(keys: str) -> tuple[Mistake, ...]:
    return told(f"{HEAD}parts: {{p: {{{keys}}}}}\n")


def test_an_unknown_key_gets_its_line_what_is_accepted_and_the_nearest() -> None:
    (mistake,) = told(f"{HEAD}parts:\n  p:\n    stock: t\n    {PATH}\n    raduis: 3\n")
    assert (mistake.line, mistake.column, mistake.where) == (7, 5, "parts.p")
    assert mistake.nearest == "radius"
    assert {"radius", "ends", "stock"} <= set(mistake.accepted)


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("jobb: {}\n", "job"),
        ("brief: {lods: {}}\n", "loads"),
        ("brief: {rules: {safty: 2}}\n", "safety"),
        ("brief: {loads: {push: {forze: 3 lb, force: 2 lb, height: 3}}}\n", "force"),
        ("space: {opening: {lean: {lft: 2}}}\n", "left"),
        ("space: {opening: {width: [{at: 1, is: 2, aat: 3}]}}\n", "at"),
        ("space: {neighbours: {bench: {side: left, hight: 3}}}\n", "height"),
        ("joints: [{between: [p, p], how: lap, slevee: t}]\n", "sleeve"),
    ],
)
def test_the_nearest_key_wherever_it_is(text: str, nearest: str) -> None:
    (mistake,) = told(f"{HEAD}parts: {{p: {{stock: t, {PATH}}}}}\n{text}")
    assert mistake.nearest == nearest
    assert mistake.line == 4


def test_a_missing_key_that_is_there_misspelt_is_one_mistake() -> None:
    (mistake,) = told_of_part(f"stok: t, {PATH}")
    assert mistake.nearest == "stock"


def test_a_part_with_two_kinds() -> None:
    (mistake,) = told_of_part(f"stock: t, {PATH}, slats: t")
    assert "path and slats say what the part is" in mistake.what


def test_a_part_of_no_kind() -> None:
    (mistake,) = told_of_part("stock: t")
    assert "nothing says what the part is" in mistake.what
    assert {"path", "slats", "caster", "opening"} <= set(mistake.accepted)


def test_a_part_whose_kind_is_misspelt_is_read_as_that_kind() -> None:
    (mistake,) = told_of_part("castor: {height: 9}, at: [0, 0, 9]")
    assert mistake.nearest == "caster"


@pytest.mark.parametrize(
    ("keys", "where", "says"),
    [
        ("stock: t, path: [[0, 0, 0], [0, 0]]", "parts.p.path[2]", "a point [x, y, z] belongs here: a list of 3"),
        ("stock: t, path: [[0, 0, 0]]", "parts.p.path", "at least 2"),
        ("stock: t, path: 3", "parts.p.path", 'a list in [ ] belongs here, not "3"'),
        (f"stock: [t], {PATH}", "parts.p.stock", "one value belongs here, not a list"),
        (f"stock: t, {PATH}, repeat: 3", "parts.p.repeat", "keys with values belong here"),
        (f"stock: t, {PATH}, repeat: {{x: 3}}", "parts.p.repeat.x", "may not be written in this form"),
        (f"stock: t, {PATH}, radius: ", "parts.p.radius", "nothing is written here"),
        (f"stock: t, {PATH}, closed: perhaps", "parts.p.closed", "neither yes nor no"),
        (f"stock: t, {PATH}, fastened: glued", "parts.p.fastened", "not a word for this"),
        (f"stock: t, {PATH}, wide: [1, 2]", "parts.p.wide", "three numbers"),
        (f"stock: t, {PATH}, wide: upp", "parts.p.wide", "not a direction"),
        (f"stock: t, {PATH}, ends: [square]", "parts.p.ends", "at least 2"),
    ],
)
def test_wrong_forms_in_plain_words(keys: str, where: str, says: str) -> None:
    (mistake,) = told_of_part(keys)
    assert mistake.where == where
    assert says in mistake.what


@pytest.mark.parametrize(
    ("keys", "accepted"),
    [
        (f"stock: t, {PATH}, repeat: {{z: shelves at pitch}}", "{every: 10, count: 3}"),
        (f"stock: t, {PATH}, radius: {{a: 3}}", "a list such as [4, 0, 4]"),
        ("bolt: [M6], at: [0, 0, 0]", "{thread: M6, length: 40 mm}"),
    ],
)
def test_a_wrong_form_is_told_with_the_forms_there_are(keys: str, accepted: str) -> None:
    (mistake,) = told_of_part(keys)
    assert any(accepted in one for one in mistake.accepted)


def test_sections_left_empty_are_not_there() -> None:
    assert parse_job(f"{HEAD}dims:\nspace:\nbrief: ~\njoints:\nparts: {{p: {{stock: t, {PATH}}}}}\n").parts


def test_sections_that_have_to_be_there() -> None:
    assert [mistake.what for mistake in told("dims: {a: 3}\n")] == [
        "job is missing",
        "stock is missing",
        "parts is missing",
    ]


def test_mistakes_of_shape_and_of_arithmetic_are_told_together() -> None:
    text = f"""job: {{name: a, unit: mm, clint: b}}
stock: {{t: rund tube 30 x 2}}
dims: {{width: 3 +, a: b, b: a}}
brief: {{loads: {{q: 3 lb}}}}
parts:
  p: {{stock: t, {PATH}, radius: widht, ends: sqare}}
  q2: {{slats: t, from: [0, 0, 0]}}
  r: {{screw: a, count: 1 1/2}}
joints: [{{between: [p, q2], how: lapp}}, {{between: [p, q3], how: lap}}]
"""
    assert [(mistake.line, mistake.where) for mistake in told(text)] == [
        (1, "job"),
        (2, "stock.t"),
        (3, "dims.width"),
        (3, "dims.a"),
        (4, "brief.loads.q"),
        (6, "parts.p.radius"),
        (6, "parts.p.ends"),
        (7, "parts.q2"),
        (8, "parts.r.count"),
        (9, "joints[1].how"),
        (9, "joints[2].between[2]"),
    ]
