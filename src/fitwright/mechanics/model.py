"""The frame as arrays: nodes, straight beam elements between them, and what each is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fitwright.errors import FitwrightError

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

DOF = ("ux", "uy", "uz", "rx", "ry", "rz")


class FrameError(FitwrightError, ValueError):
    """Frame data that cannot be used: wrong shape, a section without stiffness, an element without length."""


@dataclass(frozen=True, eq=False)
class FrameModel:
    """A 3-D frame; n nodes, m straight prismatic elements. Made by `frame_model`, which fills in what is usual.

    An element runs from one end to the other along its centroid line, local x; y and z are across it. An end
    lies at its node plus `offsets`. Every node has six displacements (ux uy uz rx ry rz) in global axes.

    nodes: (n, 3) [mm].
    elements: (m, 2) the nodes at the two ends.
    y_axis: (m, 3) where local y points, as near as a right angle to the element allows.
    e, g: (m,) moduli [MPa].
    area: (m,) [mm2].
    i_y, i_z, i_yz: (m,) integrals of z2, y2 and yz over the section about its centroid [mm4].
    j: (m,) St Venant torsion constant [mm4].
    shear_y, shear_z: (m,) shear areas [mm2]; infinite where shear flexibility is left out.
    softening: (m,) how many times softer in bending than the straight section; see `bends`.
    offsets: (m, 2, 3) node to element end, global [mm]; rigid.
    shear_centre: (m, 2) centroid to shear centre, in local y and z [mm].
    releases: (m, 12) true where the end does not pass that force to its node (Fx Fy Fz Mx My Mz, local, end 1
        then end 2).
    mass_per_mm: (m,) [kg/mm].
    links: (l, 2) nodes tied by a spring; link_stiffness: (l, 6, 6) between them at their midpoint, global
        [N/mm, N mm].
    rigid: (r, 2) nodes tied rigidly: (carried, carrier).
    node_labels, element_labels: what errors call them.
    """

    nodes: Floats
    elements: Ints
    y_axis: Floats
    e: Floats
    g: Floats
    area: Floats
    i_y: Floats
    i_z: Floats
    i_yz: Floats
    j: Floats
    shear_y: Floats
    shear_z: Floats
    softening: Floats
    offsets: Floats
    shear_centre: Floats
    releases: Bools
    mass_per_mm: Floats
    links: Ints
    link_stiffness: Floats
    rigid: Ints
    node_labels: tuple[str, ...]
    element_labels: tuple[str, ...]

    @property
    def node_count(self) -> int:
        """n."""
        return len(self.nodes)

    @property
    def element_count(self) -> int:
        """m."""
        return len(self.elements)

    @property
    def dof_count(self) -> int:
        """6 n."""
        return 6 * len(self.nodes)

    @cached_property
    def element_dofs(self) -> Ints:
        """(m, 12) numbers of the displacements at the two nodes of each element."""
        dofs = self.elements[:, :, None] * 6 + np.arange(6)
        return dofs.reshape(-1, 12)

    @cached_property
    def ends(self) -> Floats:
        """(m, 2, 3) where the elements really start and stop [mm]."""
        ends: Floats = self.nodes[self.elements] + self.offsets
        return ends


def frame_model(
    nodes: ArrayLike,
    elements: ArrayLike,
    *,
    e: ArrayLike,
    g: ArrayLike,
    area: ArrayLike,
    i_y: ArrayLike,
    i_z: ArrayLike,
    j: ArrayLike,
    i_yz: ArrayLike = 0.0,
    y_axis: ArrayLike | None = None,
    z_axis: ArrayLike | None = None,
    shear_y: ArrayLike = np.inf,
    shear_z: ArrayLike = np.inf,
    softening: ArrayLike = 1.0,
    offsets: ArrayLike | None = None,
    shear_centre: ArrayLike = 0.0,
    releases: ArrayLike = False,
    mass_per_mm: ArrayLike = 0.0,
    links: ArrayLike | None = None,
    link_stiffness: ArrayLike | None = None,
    rigid: ArrayLike | None = None,
    node_labels: Sequence[str] | None = None,
    element_labels: Sequence[str] | None = None,
) -> FrameModel:
    """A checked `FrameModel`; a single number or row holds for every element.

    Give y_axis or z_axis, (m, 3) or (3,); with neither, local z points up, or along -X where the element is upright
    (y then along Y).

    Raises FrameError naming the element whose data cannot be used.
    """
    points = np.array(nodes, dtype=np.float64).reshape(-1, 3)
    pairs = np.array(elements, dtype=np.intp).reshape(-1, 2)
    m = len(pairs)
    names = tuple(element_labels) if element_labels is not None else tuple(f"element {i}" for i in range(m))
    node_names = tuple(node_labels) if node_labels is not None else tuple(f"node {i}" for i in range(len(points)))
    _check_pairs("element", pairs, len(points))
    tied = _rows(links, 2)
    carried = _rows(rigid, 2)
    _check_pairs("link", tied, len(points))
    _check_pairs("rigid tie", carried, len(points))
    model = FrameModel(
        nodes=points,
        elements=pairs,
        y_axis=_y_hints(points, pairs, y_axis, z_axis),
        e=_spread(e, (m,)),
        g=_spread(g, (m,)),
        area=_spread(area, (m,)),
        i_y=_spread(i_y, (m,)),
        i_z=_spread(i_z, (m,)),
        i_yz=_spread(i_yz, (m,)),
        j=_spread(j, (m,)),
        shear_y=_spread(shear_y, (m,)),
        shear_z=_spread(shear_z, (m,)),
        softening=_spread(softening, (m,)),
        offsets=_spread(0.0 if offsets is None else offsets, (m, 2, 3)),
        shear_centre=_spread(shear_centre, (m, 2)),
        releases=np.broadcast_to(np.asarray(releases, dtype=np.bool_), (m, 12)).copy(),
        mass_per_mm=_spread(mass_per_mm, (m,)),
        links=tied,
        link_stiffness=_spread(0.0 if link_stiffness is None else link_stiffness, (len(tied), 6, 6)),
        rigid=carried,
        node_labels=node_names,
        element_labels=names,
    )
    _check(model)
    return model


def _spread(values: ArrayLike, shape: tuple[int, ...]) -> Floats:
    array = np.asarray(values, dtype=np.float64)
    try:
        return np.broadcast_to(array, shape).copy()
    except ValueError:
        raise FrameError(
            f"frame data of shape {array.shape} does not fit {shape}: give one value, or one row an element"
        ) from None


def _rows(values: ArrayLike | None, width: int) -> Ints:
    return np.array([] if values is None else values, dtype=np.intp).reshape(-1, width)


def _y_hints(nodes: Floats, pairs: Ints, y_axis: ArrayLike | None, z_axis: ArrayLike | None) -> Floats:
    if y_axis is not None:
        return _spread(y_axis, (len(pairs), 3))
    along = nodes[pairs[:, 1]] - nodes[pairs[:, 0]]
    if z_axis is not None:
        return np.cross(_spread(z_axis, (len(pairs), 3)), along)
    upright = np.hypot(along[:, 0], along[:, 1]) < 1e-9 * np.abs(along[:, 2])
    hints = np.cross(np.array([0.0, 0.0, 1.0]), along)
    hints[upright] = (0.0, 1.0, 0.0)
    return hints


def _check_pairs(what: str, pairs: Ints, count: int) -> None:
    bad = np.flatnonzero((pairs < 0).any(axis=1) | (pairs >= count).any(axis=1) | (pairs[:, 0] == pairs[:, 1]))
    if len(bad):
        raise FrameError(
            f"{what} {bad[0]} joins nodes {tuple(pairs[bad[0]].tolist())}: "
            f"give two different nodes between 0 and {count - 1}"
        )


def _check(model: FrameModel) -> None:
    if len(model.element_labels) != model.element_count or len(model.node_labels) != model.node_count:
        raise FrameError("give one label for each element and one for each node")
    positive = {"e": model.e, "g": model.g, "area": model.area, "i_y": model.i_y, "i_z": model.i_z, "j": model.j}
    positive |= {"shear_y": model.shear_y, "shear_z": model.shear_z}
    for name, values in positive.items():
        _demand(model, values > 0, f"{name} must be more than 0", values)
    squares = model.i_y * model.i_z - model.i_yz**2
    _demand(model, squares > 0, "i_y i_z must be more than i_yz squared", squares)
    _demand(model, model.softening >= 1, "softening must be at least 1", model.softening)
    finite = positive | {"node": model.nodes[model.elements], "offset": model.offsets, "y_axis": model.y_axis}
    for name in finite.keys() - {"shear_y", "shear_z"}:
        _demand(model, _finite(finite[name]), f"{name} must be finite", finite[name])


def _finite(values: Floats) -> Bools:
    good: Bools = np.asarray(np.isfinite(values).reshape(len(values), -1).all(axis=1))
    return good


def _demand(model: FrameModel, good: Bools, rule: str, values: Floats) -> None:
    bad = np.flatnonzero(~good)
    if len(bad):
        raise FrameError(f"{model.element_labels[bad[0]]}: {rule}; it is {values[bad[0]]}")
