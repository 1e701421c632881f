"""Where the frame is held."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.model import DOF, Bools, Floats, FrameError, FrameModel, Ints

WORDS = {"fixed": "ux uy uz rx ry rz", "pinned": "ux uy uz", "free": ""}


@dataclass(frozen=True, eq=False)
class Supports:
    """Held displacements and springs to the ground.

    held: (n, 6) true where the displacement is given (zero unless `solve` is told otherwise).
    spring_nodes: (s,); spring_stiffness: (s, 6, 6) global [N/mm, N, N mm].
    """

    held: Bools
    spring_nodes: Ints
    spring_stiffness: Floats


def supports(
    model: FrameModel, held: Mapping[int, str] | None = None, springs: Mapping[int, ArrayLike] | None = None
) -> Supports:
    """Supports from words: `{0: "fixed", 3: "pinned", 5: "uz rx"}`.

    springs: node to six stiffnesses (ux uy uz [N/mm], rx ry rz [N mm/rad]) or to a whole (6, 6) in global axes.

    Raises FrameError for a node that is not there or a word that is not known.
    """
    mask = np.zeros((model.node_count, 6), dtype=np.bool_)
    for node, words in (held or {}).items():
        _check_node(model, node)
        mask[node, _dofs(words)] = True
    nodes = np.array(list(springs or {}), dtype=np.intp)
    for node in nodes:
        _check_node(model, int(node))
    blocks = [_block(values) for values in (springs or {}).values()]
    return Supports(mask, nodes, np.array(blocks, dtype=np.float64).reshape(-1, 6, 6))


def _dofs(words: str) -> list[int]:
    names = WORDS.get(words, words).split()
    for name in names:
        if name not in DOF:
            raise FrameError(f"support {name!r} is not known: use fixed, pinned, or some of {' '.join(DOF)}")
    return [DOF.index(name) for name in names]


def _block(values: ArrayLike) -> Floats:
    array = np.asarray(values, dtype=np.float64)
    if array.shape not in ((6,), (6, 6)):
        raise FrameError(f"a spring of shape {array.shape}: give 6 stiffnesses or a (6, 6) matrix")
    return np.diag(array) if array.ndim == 1 else array


def _check_node(model: FrameModel, node: int) -> None:
    if not 0 <= node < model.node_count:
        raise FrameError(f"support at node {node}: the frame has nodes 0 to {model.node_count - 1}")
