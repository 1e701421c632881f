from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.job.marks import Photo
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.pages.photo.marking import added, appended, marks_in, moved, place_in, taken_out, with_picture

BARE = """job: {name: Test, unit: inch}
stock: {bar: square bar 1}   # solid
parts: {post: {stock: bar, path: [[0, 0, 0], [0, 0, 30]]}}
"""
MARKED = f"""{BARE}
photo:                       # the old one
  picture: old.jpg
  spots:
    a: [100, 100]            # top left
    b: {{at: [500, 110], click: 2}}
  edges:
    - {{along: x, marks: [a, b]}}   # the top
    - {{along: z, marks: [[120.5, 390], a]}}
  measures: {{side: {{from: a, to: [120.5, 390]}}}}
  known:
    top: {{from: a, to: b, is: 24}}
finish: {{steel: black}}
"""


def photo(text: str) -> Photo:
    found = parse_job(text).photo
    assert found is not None
    return found


def test_a_named_spot_moves_and_every_comment_stays() -> None:
    text = moved(MARKED, "a", 101.25, 99.0)
    assert text == MARKED.replace("a: [100, 100] ", "a: [101.25, 99] ")
    text = moved(MARKED, "b", 501.0, 110.5)
    assert text == MARKED.replace("at: [500, 110]", "at: [501, 110.5]")


def test_a_spot_written_in_place_moves_wherever_it_stands() -> None:
    text = moved(MARKED, "[120.5, 390]", 121.0, 391.0)
    assert text == MARKED.replace("[120.5, 390]", "[121, 391]")


def test_a_spot_that_is_not_there() -> None:
    with pytest.raises(NotThere):
        moved(MARKED, "c", 1.0, 1.0)
    with pytest.raises(NotTaken, match="no photo yet"):
        moved(BARE, "a", 1.0, 1.0)


def test_an_edge_is_appended_on_a_line_of_its_own() -> None:
    text = appended(MARKED, "edges", {"along": "y", "marks": ["b", ["510", "300"]]})
    assert "    - {along: y, marks: [b, [510, 300]]}\n" in text
    assert len(photo(text).edges) == 3
    assert "# the top" in text


def test_a_section_that_is_not_there_begins_on_lines_of_its_own() -> None:
    text = added(MARKED, "planes", "floor", {"across": "z", "marks": ["a", "b"]})
    assert "  planes:\n    floor: {across: z, marks: [a, b]}\nfinish" in text
    assert set(photo(text).planes) == {"floor"}


def test_a_section_in_brackets_is_opened() -> None:
    text = added(MARKED, "measures", "top edge", {"from": "a", "to": "b"})
    assert set(photo(text).measures) == {"side", "top edge"}
    assert "  measures:\n    side: " in text


def test_an_entry_of_the_same_name_is_replaced() -> None:
    text = added(MARKED, "known", "top", {"from": "a", "to": "b", "is": "25"})
    assert photo(text).known["top"].value == pytest.approx(25 * 25.4)


def test_marks_are_taken_out() -> None:
    text = taken_out(MARKED, "edges", "1")
    assert "# the top" not in text
    assert [edge.along for edge in photo(text).edges] == ["z"]
    assert taken_out(text, "edges", "1").count("edges") == 0
    assert photo(taken_out(MARKED, "known", "top")).known == {}
    assert photo(taken_out(MARKED, "measures", "side")).measures == {}
    with pytest.raises(NotThere):
        taken_out(MARKED, "edges", "9")
    with pytest.raises(NotThere):
        taken_out(MARKED, "known", "nothing")
    with pytest.raises(NotTaken):
        taken_out(MARKED, "parts", "post")


def test_a_photo_section_begins_with_its_picture() -> None:
    text = with_picture(BARE, "photos/old.jpg")
    assert text == f"{BARE}\nphoto:\n  picture: photos/old.jpg\n"
    text = appended(text, "edges", {"along": "x", "marks": [["1", "2"], ["30", "4"]]})
    text = added(text, "measures", "it", {"from": ["1", "2"], "to": ["30", "4"]})
    assert len(photo(text).edges) == 1
    assert with_picture(MARKED, "new.jpg") == MARKED.replace("old.jpg", "new.jpg")
    assert "size" not in with_picture(MARKED.replace("spots:", "size: [640, 480]\n  spots:", 1), "new.jpg")


def test_spots_as_a_maker_taps_them() -> None:
    marks = photo(MARKED)
    assert marks_in("a; 312, 845\n [1, 2]", marks) == ["a", ["312", "845"], ["1", "2"]]
    assert marks_in("103, 98; 122, 391; 300, 300", marks, near=4.0) == ["a", ["120.5", "390"], ["300", "300"]]
    with pytest.raises(NotTaken, match="neither a spot"):
        marks_in("nothing", marks)
    with pytest.raises(NotTaken, match="at most"):
        marks_in("1, 1;" * 50, marks)


@pytest.mark.parametrize("word", ["", "1", "1, 2, 3", "a, b", "1e5, 2", "nan, 1"])
def test_what_is_no_place(word: str) -> None:
    assert place_in(word) is None
