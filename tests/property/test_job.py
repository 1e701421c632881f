"""Of the job file, for any input: one kind of error, arithmetic like Python's own, changes that read back."""

from __future__ import annotations

import math
from typing import Any

from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from fitwright.job import JobFile, JobFileError, parse_job
from fitwright.job.arithmetic import ArithmeticFault, Quantity, evaluate, parse
from fitwright.job.arithmetic.formula import Name
from fitwright.job.reading import read_tree
from fitwright.job.written import plain

FILE = """job: {name: Test, unit: mm}   # first
dims:
  width: 800   # the width
  shelves: 3
stock: {tube: round tube 30 x 2, board: board 20 x 95 oak}
parts:
  post: {stock: tube, path: [[0, 0, 0], [0, 0, width]], repeat: {x: {every: 9, count: shelves}}}
  shelf:
    slats: board
    from: [0, 0, 9]
    to: [width, 95, 9]
  wheel: {caster: {height: 90}, at: [0, 0, 90]}
"""


def worked(text: str, values: dict[str, float] | None = None, power: int = 0) -> Quantity:
    def look(name: Name) -> Quantity:
        if name.name not in (values or {}):
            raise ArithmeticFault(name.at, "no such dim")
        return Quantity((values or {})[name.name], power)

    return evaluate(parse(text), look, 25.4)


def fault_of(text: str) -> ArithmeticFault | None:
    """What is wrong with some arithmetic without names, None when it has a value."""
    try:
        worked(text)
    except ArithmeticFault as fault:
        return fault
    return None


def error_of(text: str) -> JobFileError | None:
    """What is wrong with a job file, None when it loads; any other exception fails the test."""
    try:
        parse_job(text)
    except JobFileError as error:
        return error
    return None


def refusal(file: JobFile, path: tuple[str, ...], value: Any) -> JobFileError | None:
    """Why a change was refused, None when it was made."""
    try:
        file.set(path, value)
    except JobFileError as error:
        return error
    return None


numbers = st.integers(0, 999).map(lambda n: (str(n), float(n))) | st.builds(
    lambda whole, top: (f"{whole} {top}/16", whole + top / 16), st.integers(0, 99), st.integers(1, 15)
)
Pair = tuple[str, float]


def together(pairs: tuple[Pair, str, Pair]) -> Pair:
    """Two formulas as one, with what Python makes of it; brackets, so that both read it the same way."""
    (left, a), sign, (right, b) = pairs
    text = f"({left}) {sign} ({right})"
    if sign == "/":
        return text, a / b if b else math.nan
    return text, a + b if sign == "+" else a - b if sign == "-" else a * b


formulas = st.recursive(
    numbers,
    lambda inner: (
        st.tuples(inner, st.sampled_from("+-*/"), inner).map(together)
        | inner.map(lambda pair: (f"-({pair[0]})", -pair[1]))
    ),
    max_leaves=8,
)


@given(formulas)
def test_arithmetic_is_arithmetic(pair: Pair) -> None:
    text, value = pair
    assume(math.isfinite(value) and abs(value) < 1e11 and len(text) < 200)
    fault = fault_of(text)
    if fault is not None:  # an inner value beyond the bounds, though the whole is within them
        assert "larger than" in fault.what or "divides by zero" in fault.what
    else:
        assert math.isclose(worked(text).value, value, rel_tol=1e-9, abs_tol=1e-9)


@given(st.lists(st.integers(1, 50), min_size=1, max_size=9), st.lists(st.sampled_from("+-*"), min_size=8, max_size=8))
def test_without_brackets_signs_bind_as_in_school(values: list[int], signs: list[str]) -> None:
    text = str(values[0]) + "".join(f" {sign} {value}" for sign, value in zip(signs, values[1:], strict=False))
    expected = eval(text)  # numbers and signs of this test's own making
    assume(abs(expected) < 1e11)
    assert math.isclose(worked(text).value, expected, abs_tol=1e-6)


@given(st.floats(0.1, 1000), st.floats(0.1, 1000), st.sampled_from(["a + b", "a - b", "max(a, b)", "min(a, b)"]))
def test_lengths_add_up_to_lengths_in_any_unit(a: float, b: float, text: str) -> None:
    lengths = worked(text, {"a": a * 25.4, "b": b * 25.4}, power=1)
    bare = worked(text, {"a": a, "b": b})
    assert lengths.power == 1
    assert math.isclose(lengths.value, bare.value * 25.4, abs_tol=1e-6)


@given(st.text(max_size=60))
@example("1" * 50 + "e5")
@example("3/8/2 in")
@example("9⅜⅜″")
def test_arithmetic_of_any_text_has_a_value_or_a_fault_at_a_character(text: str) -> None:
    fault = fault_of(text)
    if fault is not None:
        assert 0 <= fault.at <= len(text)
    else:
        assert math.isfinite(worked(text).value)


YAML_PIECES = st.sampled_from(
    [
        "a",
        "b:",
        "- ",
        "[",
        "]",
        "{",
        "}",
        ",",
        ": ",
        "\n",
        "  ",
        "&x ",
        "*x",
        "!t ",
        "'",
        '"',
        "#",
        "|",
        ">",
        "%",
        "\t",
        "? ",
        "---\n",
        "é",
        "1",
    ]
)


@given(st.text(max_size=200) | st.lists(YAML_PIECES, max_size=40).map("".join))
@settings(max_examples=200)
def test_any_text_is_a_job_or_one_kind_of_error(text: str) -> None:
    error = error_of(text)
    if error is not None:
        assert error.mistakes
        assert all(mistake.what for mistake in error.mistakes)
        assert len(str(error)) < 50_000


@given(
    st.integers(0, len(FILE) - 1),
    st.integers(0, 12),
    st.sampled_from(["", "x", "[", "}", ":", "\n", " 1/0 ", "#", "'", "- "]),
)
@settings(max_examples=300)
def test_a_good_file_spoilt_anywhere_is_a_job_or_one_kind_of_error(at: int, gone: int, put: str) -> None:
    error = error_of(FILE[:at] + put + FILE[at + gone :])
    lines = FILE.count("\n") + 2
    assert error is None or all(0 <= mistake.line <= lines for mistake in error.mistakes)


words = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\ufeff"), max_size=12)
values: st.SearchStrategy[Any] = st.recursive(
    words | st.integers(-999, 999) | st.booleans(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words.filter(bool), inner, max_size=3),
    max_leaves=6,
)


def as_text(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: as_text(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [as_text(inner) for inner in value]
    return str(value).lower() if isinstance(value, bool) else str(value)


PATHS = [
    ("job", "name"),
    ("readings",),
    ("photo", "marks"),
    ("parts", "shelf", "to"),
    ("parts", "shelf", "new"),
    ("dims",),
]


@given(st.lists(st.tuples(st.sampled_from(PATHS), values), min_size=1, max_size=4))
def test_changes_read_back_and_leave_the_other_lines_alone(changes: list[tuple[tuple[str, ...], Any]]) -> None:
    file = JobFile(FILE)
    for path, value in changes:
        refused = refusal(file, path, value)
        if refused is not None:
            assert "single value" in str(refused)
            continue
        node: Any = plain(read_tree(file.text(), "").root)
        for step in path:
            node = node[step]
        assert node == as_text(value)
    assert (
        "  post: {stock: tube, path: [[0, 0, 0], [0, 0, width]], repeat: {x: {every: 9, count: shelves}}}\n"
        in file.text()
    )
    assert "stock: {tube: round tube 30 x 2, board: board 20 x 95 oak}\n" in file.text()
