from __future__ import annotations

import pytest

from fitwright.shop.yaml_lines import DEEPEST, LARGEST_FILE, MOST_VALUES, read_tree


def test_values_stay_text_and_keep_their_lines() -> None:
    tree = read_tree("a: 1/2\nb:\n  - yes\n  - {c: 010, d: ~}\n")
    assert tree.root == {"a": "1/2", "b": ["yes", {"c": "010", "d": None}]}
    assert tree.line_of(("b", "1", "c")) == 4
    assert tree.line_of(("b", "1", "nothing", "here")) == 4
    assert tree.line_of(("nothing",)) == 1


def test_quotes_keep_a_word_that_means_nothing() -> None:
    assert read_tree("a: 'null'\n").root == {"a": "null"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: b: c", "not YAML"),
        ("a: 1\n---\nb: 2\n", "a second document"),
        ("? [a]\n: b\n", "cannot be a list or a map"),
        ("a: &here [1]\n", "anchors"),
        ("x" * (LARGEST_FILE + 1), "characters"),
        ("[" * (DEEPEST + 5), "nested too deep"),
        ("[" + "1," * MOST_VALUES + "1]", "too many values"),
        ("a: 1\na: 2\n", "given twice"),
        ("a: \x00\n", "not YAML"),
    ],
)
def test_what_is_refused(text: str, said: str) -> None:
    assert any(said in str(mistake) for mistake in read_tree(text).mistakes)
