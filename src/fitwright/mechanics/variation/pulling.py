"""Setting a finished piece right by a pull: where it yields, what stays when the pull is let go, what springs back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fitwright.mechanics.framing.sections import outline_points
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.influences import influences, pulled
from fitwright.mechanics.variation.reading import rows_of
from fitwright.mechanics.variation.setting import Variation, pulls_of

SPREAD = 0.05
"""Places that are stressed to within this share of the most stressed one yield with it."""
BEYOND = 1.15
"""How far past first yield a pull goes before it sets: the shape factor of a thin tube is 1.27, of which half is spent
where so little set is wanted (common practice)."""


@dataclass(frozen=True, eq=False)
class Pull:
    """Two places of the finished piece drawn together (or pushed apart) until it sets.

    name: as the corrections of `Variation` call it. force: at which the most stressed place yields [N]. elastic:
    by how much the two then have come together [mm], all of it sprung back. set: (o,) change of each outcome [mm] for
    1 rad of kink at each place that yields, drawn together; own: how much nearer the two places then stay [mm].
    kinks: (m, 6) gaps at the elements' midpoints for that radian. places: names of the parts that yield.
    """

    name: str
    force: float
    elastic: float
    set: Floats
    own: float
    kinks: Floats
    places: tuple[str, ...]


@lru_cache(maxsize=4)
def pulls(setting: Variation) -> tuple[Pull, ...]:
    """Every pull between two corners of the finished piece.

    Holds for parts that yield by bending and twisting at a section before anything buckles or a weld cracks; sets small
    beside the piece. The yield surface is (My/Wy)2 + (Mz/Wz)2 + 3 (T/Wt)2 = fy2 and the kink is square to it.
    Source: associated flow rule, W.-F. Chen, D. J. Han, Plasticity for Structural Engineers (1988) (from memory).
    """
    named = pulls_of(setting)
    done = [i for stage in setting.stages for i in stage.meetings]
    shape, inner = pulled(setting.parts, done, named.forces)
    answers = influences(setting.parts, setting.stages, rows_of(setting.parts, setting.readings), named.forces)
    own = -np.einsum("ip,ip->p", named.forces, shape)
    sections = _moduli(setting)
    gaps = answers.finished_gaps[: len(setting.readings)]
    back = _own_gaps(setting, named.forces, done)
    found = []
    for p, name in enumerate(named.names):
        stress, direction = _yielding(inner[:, 3:, p], sections, setting)
        if stress.max() <= 0:
            continue
        force = 1.0 / float(stress.max())
        which = np.flatnonzero(stress >= (1 - SPREAD) * stress.max())
        kinks = np.zeros((len(stress), 6))
        kinks[which, 3:] = direction[which]
        places = tuple(
            dict.fromkeys(setting.framed.piece.members[int(setting.framed.member_of[m])].name for m in which)
        )
        found.append(
            Pull(
                name,
                force,
                BEYOND * force * -float(own[p]),
                gaps @ kinks.ravel(),
                float(back[p] @ kinks.ravel()),
                kinks,
                places,
            )
        )
    return tuple(found)


def _own_gaps(setting: Variation, forces: Floats, done: Sequence[int]) -> Floats:
    """(p, 6m) how much nearer the two places of each pull come for unit gaps at the elements' midpoints."""
    _, inner = pulled(setting.parts, done, forces)
    return np.asarray(inner.reshape(-1, forces.shape[1]).T)


def _yielding(moments: Floats, moduli: Floats, setting: Variation) -> tuple[Floats, Floats]:
    """(m,) stress over yield stress for 1 N, and (m, 3) unit turns (T, My, Mz) in which each place gives."""
    fy = np.array([setting.framed.stocks[int(k)].material.fy or np.inf for k in setting.framed.member_of])
    weighed = moments / moduli * np.sqrt([3.0, 1.0, 1.0])
    stress = np.linalg.norm(weighed, axis=1) / fy
    normal = moments / moduli**2 * np.array([3.0, 1.0, 1.0])
    size = np.linalg.norm(normal, axis=1, keepdims=True)
    return stress, np.asarray(normal / np.where(size > 0, size, 1.0))


def _moduli(setting: Variation) -> Floats:
    """(m, 3) section moduli for twisting and for bending about local y and z [mm3]."""
    model, found = setting.parts.model, np.zeros((setting.parts.model.element_count, 3))
    for m, (k, turned) in enumerate(
        zip(setting.framed.member_of.tolist(), setting.framed.turned.tolist(), strict=True)
    ):
        section = setting.framed.stocks[k].section
        half = np.abs(outline_points(section, turned)).max(axis=0)
        thin = float(section.dimensions.get("thickness", section.dimensions.get("wall", min(half))))
        closed = section.bore(8) is not None or section.is_round
        found[m] = (
            model.j[m] / (float(max(half)) if closed else thin),
            model.i_y[m] / half[1],
            model.i_z[m] / half[0],
        )
    return found
