"""The piece in its place, packed into bytes for the view in 3-D."""

from fitwright.web.packed.bent import packed_bent
from fitwright.web.packed.scene import packed_scene

__all__ = ["packed_bent", "packed_scene"]
