"""A frame that can move without resistance, and which part of it does."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import numpy as np

from fitwright.errors import FitwrightError
from fitwright.mechanics.model import DOF, Bools, Floats, FrameModel, Ints
from fitwright.mechanics.supports import Supports

if TYPE_CHECKING:
    from fitwright.mechanics.assembly import Matrix

FREE = 1e-13
"""Stiffness, as a share of the diagonal, below which a movement meets none; rounding stands at 1e-16."""
SHARE = 0.2
"""A node takes part when it moves at least this share of the most that any node moves."""
NAMES = 6
TRIES = 12


class Mechanism(FitwrightError, ValueError):
    """The frame, or a part of it, can move without resistance.

    nodes, elements: labels of what moves.
    """

    def __init__(self, message: str, nodes: tuple[str, ...] = (), elements: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.nodes = nodes
        self.elements = elements


def refuse_loose(model: FrameModel, supports: Supports, matrix: Matrix, free: Ints) -> None:
    """Raise Mechanism, naming what moves, when `matrix` over the displacements `free` lets something move freely.

    Returns quietly for a frame that is only very flexible.
    """
    _refuse_bare(model, matrix, free)
    _refuse_floating(model, supports)
    shapes = _free_shapes(matrix)
    if shapes.shape[1]:
        _refuse_moving(model, shapes, free)


def _refuse_bare(model: FrameModel, matrix: Matrix, free: Ints) -> None:
    bare = free[matrix.diagonal() <= 0]
    if not len(bare):
        return
    nodes = _labels(model.node_labels, np.unique(bare // 6))
    moves = ", ".join(DOF[d] for d in np.unique(bare % 6))
    raise Mechanism(
        f"{_list(nodes)} can move freely ({moves}): nothing that is joined there resists it; "
        "join it to a member, release less, or hold it",
        nodes,
    )


def _refuse_floating(model: FrameModel, supports: Supports) -> None:
    piece = _pieces(model)
    held = set(piece[supports.held.any(axis=1)].tolist()) | set(piece[supports.spring_nodes].tolist())
    floating = [p for p in np.unique(piece).tolist() if p not in held]
    if not floating:
        return
    inside = np.flatnonzero(np.isin(piece[model.elements[:, 0]], floating))
    elements = _labels(model.element_labels, inside)
    nodes = _labels(model.node_labels, np.flatnonzero(np.isin(piece, floating)))
    raise Mechanism(
        f"{_list(elements or nodes)} floats: it is neither held nor joined to anything that is; "
        "join it to the rest or give it a support",
        nodes,
        elements,
    )


def _pieces(model: FrameModel) -> Ints:
    """(n,) number of the connected piece to which each node belongs."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    pairs = np.concatenate([model.elements, model.links, model.rigid])
    graph = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(model.node_count,) * 2)
    return np.asarray(connected_components(graph.tocsr(), directed=False)[1], dtype=np.intp)


def _free_shapes(matrix: Matrix) -> Floats:
    """(f, q) displacements that meet no resistance, by subspace iteration on the matrix made just regular."""
    from scipy.sparse import diags_array
    from scipy.sparse.linalg import splu

    scale = 1 / np.sqrt(matrix.diagonal())
    scaled = (diags_array(scale) @ matrix @ diags_array(scale)).tocsc()
    size = scaled.shape[0]
    lu = splu((scaled + diags_array(np.full(size, 1e-10))).tocsc(), permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0)
    basis = np.random.default_rng(1).standard_normal((size, min(TRIES, size)))
    for _ in range(4):
        basis = np.linalg.qr(lu.solve(basis))[0]
    values, mixes = np.linalg.eigh(basis.T @ np.asarray(scaled @ basis))
    shapes: Floats = scale[:, None] * (basis @ mixes[:, values < FREE])
    return shapes


def _refuse_moving(model: FrameModel, shapes: Floats, free: Ints) -> None:
    flat = np.zeros((model.dof_count, shapes.shape[1]))
    flat[free] = shapes
    moves = flat.reshape(model.node_count, 6, -1)
    reach = float(np.linalg.norm(model.ends[:, 1] - model.ends[:, 0], axis=1).mean())
    moves[:, 3:] *= reach
    size = np.sqrt((moves**2).sum(axis=2))
    taking_part = size.max(axis=1) > SHARE * size.max()
    kinds = ", ".join(name for name, most in zip(DOF, size.max(axis=0), strict=True) if most > SHARE * size.max())
    nodes = _labels(model.node_labels, np.flatnonzero(taking_part))
    elements = _labels(model.element_labels, _touching(model, taking_part))
    raise Mechanism(
        f"{_list(elements)} can move without resistance at {_list(nodes)} ({kinds}): "
        "hold the frame there, add a member or make a joint rigid",
        nodes,
        elements,
    )


def _touching(model: FrameModel, nodes: Bools) -> Ints:
    both = nodes[model.elements].all(axis=1)
    return np.flatnonzero(both if both.any() else nodes[model.elements].any(axis=1))


def _labels(names: tuple[str, ...], index: Iterable[int]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names[int(i)] for i in index))


def _list(names: tuple[str, ...]) -> str:
    shown = ", ".join(names[:NAMES])
    return shown if len(names) <= NAMES else f"{shown} and {len(names) - NAMES} more"
