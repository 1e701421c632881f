"""The way in as pictures: walls and the piece at steps along its way, for paper and for the screen."""

from fitwright.sheets.way.frames import Frames, frames_of
from fitwright.sheets.way.scene import Scene, hands_of, scene_of

__all__ = ["Frames", "Scene", "frames_of", "hands_of", "scene_of"]
