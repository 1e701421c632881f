"""The bench: which parts are tacked together in which set-up, and how each lies between stops without measuring."""

from fitwright.making.bench.blocks import blocks_to_cut
from fitwright.making.bench.errors import BenchError, BenchStopped
from fitwright.making.bench.model import (
    BenchPlan,
    Block,
    Check,
    Clamp,
    GroupWish,
    Outline,
    Spacer,
    SquareUp,
    Stop,
    Subassembly,
    Support,
)
from fitwright.making.bench.plan import bench_plans

__all__ = [
    "BenchError",
    "BenchPlan",
    "BenchStopped",
    "Block",
    "Check",
    "Clamp",
    "GroupWish",
    "Outline",
    "Spacer",
    "SquareUp",
    "Stop",
    "Subassembly",
    "Support",
    "bench_plans",
    "blocks_to_cut",
]
