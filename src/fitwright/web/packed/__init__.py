"""The piece in its place, packed into bytes for the view in 3-D."""

from fitwright.web.packed.bent import packed_bent
from fitwright.web.packed.part_sizes import part_sizes
from fitwright.web.packed.pulled import PulledShape, pulled_shape
from fitwright.web.packed.scene import packed_lines, packed_scene, packed_sizes

__all__ = ["PulledShape", "packed_bent", "packed_lines", "packed_scene", "packed_sizes", "part_sizes", "pulled_shape"]
