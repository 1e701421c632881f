"""Feet and casters that push but do not pull: they lift off the floor when the load asks for it.

Factorise the frame with every foot held. Each foot's reaction, as a function of how far the feet are off the floor, is
r = r0 + P g, with P the stiffness of the whole frame seen from its feet. Then g >= 0, r >= 0 and r g = 0 is a linear
complementarity problem of the size of the number of feet, whose solution by `lemke` ends with proof: either the feet's
state, or a movement that costs nothing and lets the load fall, which is the piece tipping over. Nothing is factorised
again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.factor import Factor
from fitwright.mechanics.lemke import lemke
from fitwright.mechanics.loads import Loads, forces
from fitwright.mechanics.mechanism import Mechanism
from fitwright.mechanics.model import DOF, Bools, Floats, FrameError, FrameModel, Ints
from fitwright.mechanics.response import Response, sharpen, solve
from fitwright.mechanics.supports import Supports

SLIP = 1e-10
LIFTED_MM = 1e-9


@dataclass(frozen=True, eq=False)
class Feet:
    """Contacts with a floor or a wall.

    nodes: (c,). axis: (c,) 0, 1 or 2 for X, Y or Z. sign: (c,) +1 where the support pushes in the positive direction.
    gap: (c,) how far the foot is off the support before loading [mm]; below zero where it stands on something.
    stick: (c,) true where friction holds the foot sideways for as long as it is down.
    """

    nodes: Ints
    axis: Ints
    sign: Floats
    gap: Floats
    stick: Bools

    @property
    def pushing(self) -> Ints:
        """(c,) the displacements against which the supports push."""
        dofs: Ints = self.nodes * 6 + self.axis
        return dofs

    @property
    def sideways(self) -> Ints:
        """(c, 2) the displacements across the push."""
        across = np.array([[1, 2], [0, 2], [0, 1]])
        dofs: Ints = self.nodes[:, None] * 6 + across[self.axis]
        return dofs


@dataclass(frozen=True, eq=False)
class Floor:
    """The frame as its feet feel it.

    dofs: (d,) pushing displacements of all feet, then the sideways ones of those that stick.
    owner: (d,) the foot of each.
    shapes: (6n, d) displacements of the whole frame for a unit displacement of each.
    stiffness: (d, d) force at each for a unit displacement of each [N/mm].
    """

    factor: Factor
    feet: Feet
    dofs: Ints
    owner: Ints
    shapes: Floats
    stiffness: Floats


@dataclass(frozen=True, eq=False)
class Stance:
    """How the frame stands in k load cases.

    response: displacements and forces; not a number in the cases that tip.
    lift: (c, k) how far each foot is off its support [mm]. force: (c, k) how hard each support pushes [N].
    tips: (k,) true where no state of the feet holds the load. In those cases `lift` is the movement, of any size, by
    which it goes over.
    """

    response: Response
    lift: Floats
    force: Floats
    tips: Bools


def feet(
    nodes: ArrayLike, axis: str = "uz", sign: ArrayLike = 1.0, gap: ArrayLike = 0.0, stick: ArrayLike = False
) -> Feet:
    """Feet at nodes (c,), on the floor unless told otherwise; one value holds for all."""
    which = np.asarray(nodes, dtype=np.intp).reshape(-1)
    if axis not in DOF[:3]:
        raise FrameError(f"feet along {axis!r}: use ux, uy or uz")
    c = len(which)
    return Feet(
        which,
        np.full(c, DOF.index(axis)),
        np.broadcast_to(np.sign(np.asarray(sign, dtype=np.float64)), c).copy(),
        np.broadcast_to(np.asarray(gap, dtype=np.float64), c).copy(),
        np.broadcast_to(np.asarray(stick, dtype=np.bool_), c).copy(),
    )


def on_feet(model: FrameModel, supports: Supports, feet: Feet) -> Supports:
    """The supports with all feet down, which is how the frame has to be factorised for `floor`."""
    held = supports.held.copy().reshape(model.dof_count)
    held[feet.pushing] = True
    held[feet.sideways[feet.stick]] = True
    return replace(supports, held=held.reshape(-1, 6))


def floor(factor: Factor, feet: Feet) -> Floor:
    """The frame seen from its feet; factor: with all feet held, see `on_feet`.

    Raises FrameError when a foot is not held in the factorised frame.
    """
    rows = np.flatnonzero(feet.stick)
    dofs = np.concatenate([feet.pushing, feet.sideways[rows].ravel()])
    owner = np.concatenate([np.arange(len(feet.nodes)), np.repeat(rows, 2)])
    if not np.isin(dofs, factor.held).all():
        raise FrameError("a foot is not held: factorise the frame with the supports from on_feet")
    moved = np.zeros((factor.model.dof_count, len(dofs)))
    moved[dofs, np.arange(len(dofs))] = 1.0
    answer = sharpen(solve(factor, forces(factor.model, np.zeros_like(moved)), moved))
    seen = answer.reactions[dofs]
    return Floor(factor, feet, dofs, owner, answer.displacements, (seen + seen.T) / 2)


def stand(ground: Floor, loads: Loads) -> Stance:
    """How the frame stands under each load case, feet lifting as they must.

    A foot that lifts also loses its friction, and does not get it back when it comes down again within the same case
    (on the safe side); so each case takes at most as many rounds as there are feet, each with an end that is proven.
    Sliding is not followed: a foot that sticks, sticks however hard it is pushed; the checks compare the forces.

    Raises Mechanism when lifted feet leave nothing to keep the piece from sliding.
    Holds for small movements, on a level support that does not give way.
    """
    feet, count = ground.feet, len(ground.feet.nodes)
    down = np.zeros((ground.factor.model.dof_count, loads.cases))
    down[feet.pushing] = (-feet.sign * feet.gap)[:, None]
    all_down = solve(ground.factor, loads, down)
    first = all_down.reactions[ground.dofs]
    outcome = [_stand(ground, first[:, k]) for k in range(loads.cases)]
    moved = np.stack([move for move, _ in outcome], axis=1)
    tips = np.array([tipped for _, tipped in outcome])
    stays = np.where(tips, np.nan, moved)
    response = Response(ground.factor, loads, all_down.displacements + ground.shapes @ stays)
    force = first[:count] + ground.stiffness[:count] @ stays
    return Stance(response, feet.sign[:, None] * moved[:count], feet.sign[:, None] * force, tips)


def _stand(ground: Floor, first: Floats) -> tuple[Floats, bool]:
    """Movements (d,) of the contact displacements from all feet down, and whether the piece tips."""
    count = len(ground.feet.nodes)
    sign, move = ground.feet.sign, np.zeros(len(first))
    lifted = np.zeros(count, dtype=np.bool_)
    while True:
        loose = np.flatnonzero(lifted[ground.owner] & (np.arange(len(first)) >= count))
        seen, start, slide = _let_slide(ground, first, loose)
        answer = lemke(seen * np.outer(sign, sign), start * sign)
        move[:count] = sign * answer.z
        move[loose] = slide[:, 0] + slide[:, 1:] @ move[:count]
        off = answer.z > LIFTED_MM
        if not answer.solved or not (off & ~lifted)[ground.feet.stick].any():
            return move, not answer.solved
        lifted |= off


def _let_slide(ground: Floor, first: Floats, loose: Ints) -> tuple[Floats, Floats, Floats]:
    """Stiffness (c, c) and forces (c,) at the feet when `loose` displacements are free, and how these follow.

    The last: (l, 1 + c) movement of the loose ones: what they do at once, and for a unit lift of each foot.
    """
    count = len(ground.feet.nodes)
    k = ground.stiffness
    normal = k[:count, :count]
    if not len(loose):
        return normal, first[:count], np.zeros((0, 1 + count))
    held = k[np.ix_(loose, loose)]
    if np.linalg.eigvalsh(held)[0] < SLIP * np.abs(np.diag(ground.stiffness)).max():
        names = tuple(dict.fromkeys(ground.factor.model.node_labels[d // 6] for d in ground.dofs[loose]))
        raise Mechanism(
            f"nothing keeps the piece from sliding once {', '.join(names)} is off the floor: "
            "hold another foot sideways",
            names,
        )
    slide: Floats = -np.asarray(np.linalg.solve(held, np.column_stack([first[loose], k[loose, :count]])))
    across = k[:count, loose]
    return normal + across @ slide[:, 1:], first[:count] + across @ slide[:, 0], slide
