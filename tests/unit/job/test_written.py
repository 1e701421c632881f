from __future__ import annotations

from fitwright.job.reading import read_tree
from fitwright.job.written import is_empty, place_of, plain


def test_plain_keeps_texts_as_they_were_written() -> None:
    root = read_tree("a: [1.50, {b: 'x y'}]\nc:\n", "").root
    assert plain(root) == {"a": ["1.50", {"b": "x y"}], "c": None}


def test_spans_cover_the_value_as_written() -> None:
    text = "a: [1, 22]   # note\nb:\n  c: |\n    x\n    y\n\n  d: 'e'\n"
    root = read_tree(text, "").root
    spans = {"a": "[1, 22]", "b": "c: |\n    x\n    y\n\n  d: 'e'"}
    assert {key: text[span.start : span.end] for key, span in root.spans.items()} == spans
    assert text[root["b"].spans["c"].start : root["b"].spans["c"].end] == "|\n    x\n    y"
    assert text[root["a"].spans[1].start : root["a"].spans[1].end] == "22"


def test_an_alias_is_spanned_where_it_stands() -> None:
    text = "a: &x 1\nb: *x\n"
    root = read_tree(text, "").root
    assert text[root.spans["b"].start : root.spans["b"].end] == "*x"
    assert place_of(root["b"]).line == 1


def test_empty() -> None:
    root = read_tree("a:\nb: {}\n", "").root
    assert is_empty(root["a"])
    assert not is_empty(root["b"])
