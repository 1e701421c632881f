"""How a factorised frame answers its loads: displacements, forces at element ends, reactions."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.assembly import link_blocks, link_deform, link_dofs
from fitwright.mechanics.axes import skew
from fitwright.mechanics.factor import Factor
from fitwright.mechanics.fixed_ends import fixed_end_forces
from fitwright.mechanics.loads import Loads
from fitwright.mechanics.model import Bools, Floats, FrameError, FrameModel, Ints
from fitwright.mechanics.releases import end_to_middle

if TYPE_CHECKING:
    from fitwright.mechanics.assembly import Matrix


@dataclass(frozen=True, eq=False)
class Response:
    """The answer to k load cases.

    displacements: (6n, k) global [mm, rad].
    """

    factor: Factor
    loads: Loads
    displacements: Floats

    @cached_property
    def by_node(self) -> Floats:
        """(n, 6, k) the displacements, node by node."""
        return self.displacements.reshape(self.factor.model.node_count, 6, -1)

    @cached_property
    def fixed_ends(self) -> Floats | None:
        """(m, 12, k) see `fixed_end_forces`."""
        return fixed_end_forces(self.factor.model, self.factor.elements, self.loads)

    @cached_property
    def middle(self) -> Floats:
        """(m, 6, k) forces of the midpoint springs, N Vy Vz T My Mz, without loads between the ends."""
        elements = self.factor.elements
        strain = elements.deform @ self.displacements[self.factor.model.element_dofs]
        if self.loads.gaps is not None:
            strain -= self.loads.gaps
        force: Floats = elements.stiffness @ strain
        return force

    @cached_property
    def end_forces(self) -> Floats:
        """(m, 12, k) forces of the nodes on the element ends, Fx Fy Fz Mx My Mz at end 1 then 2, local [N, N mm]."""
        ends: Floats = end_to_middle(self.factor.elements.length).transpose(0, 2, 1) @ self.middle
        return ends if self.fixed_ends is None else ends + self.fixed_ends

    @cached_property
    def reactions(self) -> Floats:
        """(6n, k) forces of the supports on the nodes, global, zero where nothing is held; ground springs apart."""
        factor = self.factor
        unbalanced = inner_forces(factor, self.displacements, _near_held(factor)) - nodal_forces(factor, self.loads)
        result = np.zeros_like(unbalanced)
        result[factor.held] = factor.to_carriers(unbalanced)[factor.held]
        return result

    @cached_property
    def spring_forces(self) -> Floats:
        """(s, 6, k) forces of the ground springs on their nodes, global [N, N mm]."""
        held = self.factor.supports
        return -np.asarray(held.spring_stiffness @ self.by_node[held.spring_nodes])

    @cached_property
    def link_forces(self) -> Floats:
        """(l, 6, k) forces that each link passes at its midpoint, as of its second node on its first, global."""
        model = self.factor.model
        strain = link_deform(model) @ self.displacements[link_dofs(model)]
        return np.asarray(model.link_stiffness @ strain)


def solve(factor: Factor, loads: Loads, prescribed: ArrayLike | None = None) -> Response:
    """The frame's answer to all load cases.

    prescribed: (6n, k) or (6n,) displacements of the held ones [mm, rad], zero if not given; the rest is not looked
    at.
    Holds for small displacements and linear elastic material; what yields or buckles is for the checks to say.
    Source: W. McGuire, R. Gallagher, R. Ziemian, Matrix Structural Analysis, 2nd ed. (2000), chapters 3 to 5 (from
    memory).
    """
    forces = nodal_forces(factor, loads)
    held = np.zeros_like(forces)
    if prescribed is not None:
        held[factor.held] = _prescribed(factor, prescribed, loads.cases)
        held = factor.to_all(held)
        forces = forces - inner_forces(factor, held)
    found = np.zeros_like(forces)
    found[factor.free] = factor.solve_free(factor.to_carriers(forces)[factor.free])
    return Response(factor, loads, factor.to_all(found) + held)


def sharpen(response: Response) -> Response:
    """The same response with one step of iterative refinement: rounding falls by one to four digits.

    Worth its cost (one more solve) where differences of large forces matter, as for feet that lift.
    Source: N. J. Higham, Accuracy and Stability of Numerical Algorithms, 2nd ed. (2002), chapter 12 (from memory).
    """
    factor = response.factor
    missing = nodal_forces(factor, response.loads) - inner_forces(factor, response.displacements)
    step = np.zeros_like(missing)
    step[factor.free] = factor.solve_free(factor.to_carriers(missing)[factor.free])
    return Response(factor, response.loads, response.displacements + factor.to_all(step))


def nodal_forces(factor: Factor, loads: Loads) -> Floats:
    """(6n, k) all loads as forces on nodes, global; includes what gaps would push."""
    model, elements = factor.model, factor.elements
    if loads.nodal.shape[0] != model.dof_count:
        raise FrameError(f"loads for {loads.nodal.shape[0]} displacements on a frame with {model.dof_count}")
    ends = fixed_end_forces(model, elements, loads)
    total = loads.nodal
    if ends is not None:
        total = total - gather(model.element_dofs, ends_to_nodes(model, elements.rotation, ends), model.dof_count)
    if loads.gaps is not None:
        push = elements.deform.transpose(0, 2, 1) @ (elements.stiffness @ loads.gaps)
        total = total + gather(model.element_dofs, push, model.dof_count)
    return total


def inner_forces(factor: Factor, displacements: Floats, only: Ints | None = None) -> Floats:
    """(6n, k) forces on the nodes that hold elements, links and ground springs in displacements (6n, k), global.

    only: (q,) elements to look at, all when None.
    """
    model, elements = factor.model, factor.elements
    pick = slice(None) if only is None else only
    deform, dofs = elements.deform[pick], model.element_dofs[pick]
    force = deform.transpose(0, 2, 1) @ (elements.stiffness[pick] @ (deform @ displacements[dofs]))
    total = gather(dofs, force, model.dof_count)
    if len(model.links):
        np.add.at(total, link_dofs(model), link_blocks(model) @ displacements[link_dofs(model)])
    if len(factor.supports.spring_nodes):
        dofs = factor.supports.spring_nodes[:, None] * 6 + np.arange(6)
        np.add.at(total, dofs, factor.supports.spring_stiffness @ displacements[dofs])
    return total


def _near_held(factor: Factor) -> Ints | None:
    """(q,) the elements at held nodes, the only ones that reactions depend on; None (all) where nodes are tied."""
    if factor.ties is not None:
        return None
    held: Bools = np.asarray(factor.supports.held.any(axis=1))
    return np.flatnonzero(held[factor.model.elements].any(axis=1))


def ends_to_nodes(model: FrameModel, rotation: Floats, ends: Floats) -> Floats:
    """(m, 12, k) end forces in local axes to forces at the nodes in global axes, arms included."""
    m, _, k = ends.shape
    turned = (rotation.transpose(0, 2, 1)[:, None] @ ends.reshape(m, 4, 3, k)).reshape(m, 2, 6, k)
    turned[:, :, 3:] += skew(model.offsets) @ turned[:, :, :3]
    return turned.reshape(m, 12, k)


def gather(dofs: Ints, at_elements: Floats, size: int) -> Floats:
    """(size, k) sums over elements of (m, 12, k) at their displacements dofs (m, 12)."""
    m, _, k = at_elements.shape
    return np.asarray(_incidence(dofs, size) @ at_elements.reshape(12 * m, k))


def _incidence(dofs: Ints, size: int) -> Matrix:
    from scipy.sparse import csc_array

    count = dofs.size
    return csc_array((np.ones(count), dofs.ravel(), np.arange(count + 1)), shape=(size, count))


def _prescribed(factor: Factor, prescribed: ArrayLike, cases: int) -> Floats:
    array = np.asarray(prescribed, dtype=np.float64)
    array = array.reshape(factor.model.dof_count, -1)
    return np.broadcast_to(array, (factor.model.dof_count, cases))[factor.held]
