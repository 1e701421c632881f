"""The piece in its place, and the way there."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from fitwright.assess.given import Given
from fitwright.piece import Member, Piece, Sketch, checked, sketch
from fitwright.piece.mesh import Mesh, meshes
from fitwright.piece.model import Mark
from fitwright.place import Fit, fit

if TYPE_CHECKING:
    from fitwright.place.photo.answering import PhotoAnswer
    from fitwright.place.route import Carry, Route
    from fitwright.place.route.whole import Progress as RouteProgress


class Shaped(Given):
    """The piece, placed and trimmed, in its place and on its way in; the old one on its photo."""

    @cached_property
    def photo(self) -> PhotoAnswer | None:
        """What the photo of the old piece says; None without one. Reads and looks through the picture."""
        from fitwright.place.photo.answering import photo_answer

        return photo_answer(self.job, self.shop, self.beside)

    @cached_property
    def piece(self) -> Piece:
        """The parts, placed and trimmed."""
        return checked(self.sketch)

    @cached_property
    def sketch(self) -> Sketch:
        """The parts placed and trimmed, before it is known whether they can be built so: enough for a picture."""
        return sketch(self.job, self.moves)

    @cached_property
    def fit(self) -> Fit | None:
        """The piece in its opening; None without a survey."""
        return fit(self.job, self.piece)

    @cached_property
    def route(self) -> Route | None:
        """The way in, leg by leg; None where the job says no route. Seconds where it is tight."""
        return self._find_way(None)

    def find_way(self, progress: RouteProgress) -> Route | None:
        """`route`, told how far the search is and stopped by its answer; kept like any other property."""
        if "route" not in self.__dict__:
            self.__dict__["route"] = self._find_way(progress)
        return self.route

    def _find_way(self, progress: RouteProgress | None) -> Route | None:
        if not self.job.space.route:
            return None
        from fitwright.place.route import find_route

        opening = self.job.space.opening
        tops = [height for _, height in opening.tops] if opening is not None else []
        return find_route(self.job.space.route, self.piece, progress, height=min(tops, default=None))

    @cached_property
    def carries(self) -> tuple[Carry, ...]:
        """What is carried through each leg of the way in, by how many, and held where."""
        if self.route is None:
            return ()
        from fitwright.place.route import carries

        return tuple(one for way in self.route.shown for one in carries(way, self.piece))

    @cached_property
    def meshes(self) -> tuple[Mesh, ...]:
        """Bodies for drawings and for the view in space."""
        return meshes(self.sketch.piece)

    @cached_property
    def made(self) -> Mapping[str, Member]:
        """One member for each mark, in order of the marks."""
        by_name = {member.name: member for member in self.piece.members}
        return {mark.mark: by_name[mark.names[0]] for mark in self.member_marks}

    @property
    def member_marks(self) -> tuple[Mark, ...]:
        """The marks of members."""
        return tuple(mark for mark in self.piece.marks if mark.kind == "member")
