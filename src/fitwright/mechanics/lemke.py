"""The linear complementarity problem: find z with z >= 0, w = q + M z >= 0 and z w = 0 throughout."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Floats, FrameError, Ints

ZERO = 1e-10
"""Pivots of the scaled problem below this are rounding."""
TIE = 1e-13
EXCHANGES = 1000
"""Exchanges for each unknown; a handful is usual, more can only come from rounding."""


@dataclass(frozen=True, eq=False)
class Complementarity:
    """The outcome: z (n,) is the solution, or when `solved` is false a ray that proves that there is none."""

    solved: bool
    z: Floats


def lemke(m: Floats, q: Floats) -> Complementarity:
    """Solve for z (n,) with M (n, n) symmetric and positive semidefinite.

    Lemke's method with the lexicographic rule visits no basis twice, so it ends after finitely many exchanges. For a
    positive semidefinite M (more widely, copositive plus) it ends in a solution, or in a ray u >= 0 with M u = 0 and
    q u < 0, which proves that there is none.

    Raises FrameError if rounding should keep it going for longer than any real problem takes.
    Holds for entries of q and M within ten digits of each other after scaling M to a diagonal of ones.
    Source: R. W. Cottle, J.-S. Pang, R. E. Stone, The Linear Complementarity Problem (1992), section 4.4 (algorithm and
    both theorems from memory).

    >>> lemke(np.array([[2.0, 1.0], [1.0, 2.0]]), np.array([-5.0, -6.0])).z.round(6).tolist()
    [1.333333, 2.333333]
    """
    n = len(q)
    if (q >= 0).all():
        return Complementarity(True, np.zeros(n))
    diagonal = np.diag(m)
    scale = 1 / np.sqrt(np.where(diagonal > 0, diagonal, 1.0))
    size = float(np.abs(q * scale).max())
    # columns: w, z, the artificial variable, the right-hand side; the first n columns stay the inverse of the basis
    table = np.hstack([np.eye(n), -m * np.outer(scale, scale), -np.ones((n, 1)), (q * scale / size)[:, None]])
    solved, z = _run(table, n)
    return Complementarity(solved, z * scale * (size if solved else 1.0))


def _run(table: Floats, n: int) -> tuple[bool, Floats]:
    basis = np.arange(n)
    row, enters = _least(table, np.arange(n), np.ones(n), n), 2 * n
    for _ in range(EXCHANGES * n):
        leaves = int(basis[row])
        _exchange(table, row, enters)
        basis[row] = enters
        if leaves == 2 * n:
            return True, _read(basis, table[:, -1], n)
        enters = leaves + n if leaves < n else leaves - n
        column = table[:, enters]
        open_rows = np.flatnonzero(column > ZERO)
        if not len(open_rows):
            ray = _read(basis, -column, n)
            if enters >= n:
                ray[enters - n] += 1.0
            return False, ray
        row = _least(table, open_rows, column, n)
    raise FrameError(f"the state of {n} contacts was not found: look for stiffnesses or gaps far apart in size")


def _least(table: Floats, rows: Ints, column: Floats, n: int) -> int:
    """The row among `rows` whose [right-hand side, inverse of basis] over `column` comes first in the dictionary."""
    keys = np.column_stack([table[rows, -1], table[rows, :n]]) / column[rows, None]
    left = np.arange(len(rows))
    for place in range(n + 1):
        key = keys[left, place]
        left = left[key <= key.min() + TIE]
        if len(left) == 1:
            break
    return int(rows[left[0]])


def _exchange(table: Floats, row: int, column: int) -> None:
    table[row] /= table[row, column]
    factors = table[:, column].copy()
    factors[row] = 0.0
    table -= np.outer(factors, table[row])


def _read(basis: Ints, values: Floats, n: int) -> Floats:
    """(n,) z among the basis variables, rounding below zero removed."""
    z = np.zeros(n)
    of_z = (basis >= n) & (basis < 2 * n)
    z[basis[of_z] - n] = np.maximum(values[of_z], 0.0)
    return z
