"""Measurements taken on solids by the modeller's kernel itself."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf

Floats = NDArray[np.float64]


def bounds(shape: Any) -> tuple[Floats, Floats]:
    """Low and high corners (3,) of the closest box round a solid [mm]."""
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    return np.array([low.X(), low.Y(), low.Z()]), np.array([high.X(), high.Y(), high.Z()])


def extent(shape: Any, along: Floats) -> float:
    """How long a solid is along a direction (3,) [mm]."""
    turn = gp_Trsf()
    turn.SetTransformation(gp_Ax3(gp_Pnt(0, 0, 0), gp_Dir(*along.tolist())))
    low, high = bounds(BRepBuilderAPI_Transform(shape, turn, True).Shape())
    return float(high[2] - low[2])
