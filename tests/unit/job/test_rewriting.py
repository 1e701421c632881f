from __future__ import annotations

import stat
from pathlib import Path
from typing import Any

import pytest

from fitwright.job import JobFile, JobFileError
from fitwright.job.reading import read_tree
from fitwright.job.written import plain

TEXT = """# A rack
job:   {name: Rack, unit: inch}   # keep me
dims:
  width:   31 1/2     # of the opening
  depth: 19

  # the shelves
  shelves: 4
stock: {frame: round tube 1 1/8 x 14 ga}
parts:
  hoop:
    stock: frame
    outside: [[0, 0, 6],
              [0, 0, 74]]   # two lines
    notes: |
      one
      two
  post:
      stock:    "frame"
joints:   # few
  - {between: [hoop, post], how: lap}
photo:
finish: {}
"""


def changed(path: Any, value: Any, text: str = TEXT) -> list[str]:
    """The lines after a change that were not there before it."""
    file = JobFile(text)
    file.set(path, value)
    before, after = text.splitlines(), file.text().splitlines()
    return [line for line in after if line not in before]


def test_only_the_value_changes_and_its_comment_stays() -> None:
    file = JobFile(TEXT)
    file.set_dim("width", "32 3/4 in")
    assert file.text() == TEXT.replace("31 1/2 ", "32 3/4 in ")


def test_a_new_dim_comes_last_among_the_dims() -> None:
    file = JobFile(TEXT)
    file.set_dim("pitch", "min(width, 3)")
    assert file.text() == TEXT.replace("  shelves: 4\n", "  shelves: 4\n  pitch: 'min(width, 3)'\n")


@pytest.mark.parametrize(
    ("path", "value", "lines"),
    [
        ("job.name", "Rack: two", ["job:   {name: 'Rack: two', unit: inch}   # keep me"]),
        ("job.client", "Club, the", ["job:   {name: Rack, unit: inch, client: 'Club, the'}   # keep me"]),
        ("dims.depth", 18.5, ["  depth: 18.5"]),
        ("dims.depth", -0.000001, ["  depth: -0.000001"]),
        ("parts.hoop.outside.0.2", "height / 2", ["    outside: [[0, 0, height / 2],"]),
        (("parts", "hoop", "outside", 2), [1, 2, "#3"], ["              [0, 0, 74], [1, 2, '#3']]   # two lines"]),
        ("parts.hoop.closed", True, ["    closed: true"]),
        ("parts.post.stock", "it's", ["      stock:    it's"]),
        ("joints.0.how", "cross", ["  - {between: [hoop, post], how: cross}"]),
        ("joints.1", {"between": ["a", "b"], "how": "none"}, ["  - {between: [a, b], how: none}"]),
        ("photo.marks", [[1, 2]], ["photo: {marks: [[1, 2]]}"]),
        ("finish.steel", "black", ["finish: {steel: black}"]),
        ("readings.feet", [1, 2], ["readings: {feet: [1, 2]}"]),
        (
            "job.notes",
            'a\nb\t"c" \\ é',
            ['job:   {name: Rack, unit: inch, notes: "a\\nb\\t\\"c\\" \\\\ é"}   # keep me'],
        ),
        ("job.notes", "", ["job:   {name: Rack, unit: inch, notes: ''}   # keep me"]),
        ("joints", [], ["joints: []   # few"]),
        ("parts.hoop.notes", "short", ["    notes: short"]),
    ],
)
def test_changes(path: Any, value: Any, lines: list[str]) -> None:
    assert changed(path, value) == lines


def test_an_entry_after_a_block_of_text() -> None:
    file = JobFile(TEXT)
    file.set("parts.hoop.radius", 4)
    assert "      two\n    radius: 4\n  post:" in file.text()


def test_changes_add_up() -> None:
    file = JobFile(TEXT)
    for number in range(5):
        file.set(("readings", number) if number else "readings", number if number else [0])
    assert file.text() == TEXT + "readings: [0, 1, 2, 3, 4]\n"


def test_windows_lines_and_a_missing_last_line_end_are_kept() -> None:
    file = JobFile("job: {name: a}\r\ndims:\r\n  a: 1")
    file.set_dim("b", "2")
    assert file.text() == "job: {name: a}\r\ndims:\r\n  a: 1\r\n  b: 2"


def test_a_marked_value_keeps_its_mark() -> None:
    file = JobFile("a: &x 3\nb: 1\n")
    file.set("a", 4)
    assert file.text() == "a: &x 4\nb: 1\n"


def test_a_value_that_others_repeat_is_not_changed_behind_their_backs() -> None:
    file = JobFile("a: &x {c: 3}\nb: *x\n")
    with pytest.raises(JobFileError, match="other values of the file repeat it"):
        file.set("a.c", 4)
    assert file.text() == "a: &x {c: 3}\nb: *x\n"
    file.set("b", 5)
    assert file.text() == "a: &x {c: 3}\nb: 5\n"


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("dims.width.more", '"31 1/2" is a single value'),
        ("joints.5", "not a place in a list of 1"),
        ("joints.x", "not a place in a list of 1"),
        ("", "name what to set"),
        ("dims..a", "name what to set"),
    ],
)
def test_paths_that_lead_nowhere(path: str, says: str) -> None:
    file = JobFile(TEXT)
    with pytest.raises(JobFileError, match=says):
        file.set(path, 1)
    assert file.text() == TEXT


def test_what_is_written_reads_back() -> None:
    file = JobFile(TEXT)
    value: Any = {
        "a b": ["x", {"y": "z: #"}],
        "- c": "- d",
        "?": "!e",
        "f": "@g",
        "h": "%i",
        "j": "[k]",
        "l": "~",
        "m": " n ",
    }
    file.set("readings", value)
    assert plain(read_tree(file.text(), "").root["readings"]) == value


def test_a_file_that_cannot_be_read_cannot_be_changed(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="given twice"):
        JobFile("a: 1\na: 2\n")
    with pytest.raises(JobFileError, match="cannot be read"):
        JobFile.read(tmp_path / "none.yaml")


def test_saving_replaces_the_file_whole_and_keeps_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_bytes("\ufeff# é\r\njob: {name: a}\r\n".encode())
    path.chmod(0o600)
    file = JobFile.read(path)
    file.set("job.name", "b")
    file.save(path)
    assert path.read_bytes() == "\ufeff# é\r\njob: {name: b}\r\n".encode()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert list(tmp_path.iterdir()) == [path]


def test_a_save_that_fails_leaves_the_old_file_and_no_other(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(TEXT)
    file = JobFile.read(path)
    file.set_dim("width", "1")

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        file.save(path)
    assert path.read_text() == TEXT
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("job: a\n", "job: a\nreadings:\n  - {of: x}\n  - {of: y}\n"),
        ("readings: []   # none yet\njob: a\n", "readings:\n  - {of: x}   # none yet\n  - {of: y}\njob: a\n"),
        ("readings:\njob: a\n", "readings:\n  - {of: x}\n  - {of: y}\njob: a\n"),
        ("readings:\n- {of: w}\n# end\n", "readings:\n- {of: w}\n- {of: x}\n- {of: y}\n# end\n"),
        ("readings: [{of: w}]\n", "readings: [{of: w}, {of: x}, {of: y}]\n"),
        ("{job: a}\n", "{job: a, readings: [{of: x}, {of: y}]}\n"),
        ("job: a\r\n", "job: a\r\nreadings:\r\n  - {of: x}\r\n  - {of: y}\r\n"),
    ],
)
def test_entries_are_appended_each_on_its_line(before: str, after: str) -> None:
    file = JobFile(before)
    file.append("readings", {"of": "x"})
    file.append("readings", {"of": "y"})
    assert file.text() == after


def test_nothing_is_appended_to_what_is_no_list() -> None:
    with pytest.raises(JobFileError):
        JobFile("readings: {of: x}\n").append("readings", {"of": "y"})
    with pytest.raises(JobFileError):
        JobFile("readings: soon\n").append("readings", {"of": "y"})
