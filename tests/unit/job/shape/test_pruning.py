from __future__ import annotations

from pydantic import ValidationError

from fitwright.job.reading import read_tree
from fitwright.job.shape.file import FileShape
from fitwright.job.shape.pruning import copied, cut
from fitwright.job.written import Mapped, plain

TEXT = """job: {name: a, unit: feet}
stock: {t: round tube 30 x 2}
parts:
  p: {stock: t, path: [[0, 0, 0], [0, 0]], radius: 3, raduis: 4}
  q: {slats: t, from: [0, 0, 0]}
  r: {stock: t, path: [[0, 0, 0], [0, 0, 9]]}
joints: [{between: [p, q], how: lapp}, {between: [p, r], how: lap}]
"""


def once_cut(text: str) -> tuple[Mapped, Mapped]:
    """The tree as written, and what is left of its copy after one cut."""
    root = read_tree(text, "").root
    copy = copied(root)
    assert isinstance(copy, Mapped)
    try:
        FileShape.model_validate(copy)
    except ValidationError as error:
        cut(copy, error.errors())
    return root, copy


def test_only_what_is_wrong_is_cut_and_the_original_stays() -> None:
    root, left = once_cut(TEXT)
    assert plain(left["parts"]) == {
        "p": {"stock": "t", "radius": "3"},
        "r": {"stock": "t", "path": [["0", "0", "0"], ["0", "0", "9"]]},
    }
    assert plain(left["joints"]) == [{"between": ["p", "r"], "how": "lap"}]
    assert plain(left["job"]) == {"name": "a"}
    assert plain(root) == plain(read_tree(TEXT, "").root)


def test_what_every_file_needs_is_stood_in_for() -> None:
    _, left = once_cut("dims: {a: 3}\n")
    assert plain(left) == {"dims": {"a": "3"}, "job": {}, "stock": {}, "parts": {}}
