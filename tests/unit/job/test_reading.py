from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.job import JobFileError
from fitwright.job.reading import read_text, read_tree
from fitwright.job.written import Listed, Mapped, Written, plain


def tree(text: str) -> Mapped:
    return read_tree(text, "job.yaml").root


def told(text: str) -> JobFileError:
    with pytest.raises(JobFileError) as error:
        tree(text)
    return error.value


def test_every_value_is_text_at_its_place() -> None:
    root = tree("a: 1\nb:\n  c: [0x10, yes, '2']\n")
    assert plain(root) == {"a": "1", "b": {"c": ["0x10", "yes", "2"]}}
    listed = root["b"]["c"]
    assert isinstance(listed, Listed)
    item = listed[1]
    assert isinstance(item, Written)
    assert (item.where, item.place.line, item.place.column) == ("b.c[2]", 3, 13)
    assert root.keys_at["b"].line == 2


def test_nothing_written_is_empty_but_quotes_are_a_text() -> None:
    root = tree("a:\nb: ~\nc: null\nd: ''\n")
    assert [root[key].empty for key in "abcd"] == [True, True, True, False]


def test_an_alias_stands_for_what_it_marks() -> None:
    assert plain(tree("a: &x [1, 2]\nb: *x\n")) == {"a": ["1", "2"], "b": ["1", "2"]}


def test_a_byte_order_mark_and_windows_lines_are_read_over() -> None:
    assert plain(tree("\ufeffa: 1\r\nb: 2\r\n")) == {"a": "1", "b": "2"}


def test_every_repeated_key_is_told_with_both_lines() -> None:
    error = told("a: 1\nb: 2\na: 3\nb: 4\n")
    assert [mistake.line for mistake in error.mistakes] == [3, 4]
    assert "given twice, on line 1 and on line 3" in error.mistakes[0].what


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("a: 1\nb: [1, 2\nc: 3\n", 3, "lacks a comma or its closing ]"),
        ("a: {b: 1\nc: 2\n", 2, "lacks a comma or its closing }"),
        ("a: b: c\n", 1, "second ': '"),
        ("a:\n  b: 1\n c: 2\n", 3, "indented differently"),
        ("a: 'b\n", 2, "never closed"),
        ("a: 1\n\tb: 2\n", 2, "a tab begins the line"),
        ("a: 1\nb: [1,\t2]\t\n", 2, "a tab stands here"),
        ("a: @b\n", 1, "put the value in quotes"),
        ("a: *b\n", 1, "not marked"),
        ("a: 1\nb\nc: 2\n", 3, "has no|second"),
        ("a: !!int 3\n", 1, "tag"),
        ("- a\n", 1, "sections"),
        ("a: 1\n---\nb: 2\n", 2, "second document"),
    ],
)
def test_what_is_not_yaml_is_told_in_plain_words(text: str, line: int, says: str) -> None:
    mistake = told(text).mistakes[0]
    assert mistake.line == line
    assert any(word in mistake.what for word in says.split("|")), mistake.what


def test_bytes_that_are_not_text(tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_bytes(b"a: 1\nb: caf\xe9\n")
    with pytest.raises(JobFileError, match="not UTF-8") as error:
        read_text(path)
    assert (error.value.mistakes[0].line, error.value.mistakes[0].column) == (2, 7)


def test_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="cannot be read: no such file"):
        read_text(tmp_path / "job.yaml")
