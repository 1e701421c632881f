"""Marks that are to be snapped, looked up in the picture itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fitwright.job.marks import EdgeMark, Photo, Spot
from fitwright.place.photo.picture import Picture
from fitwright.place.photo.snapping import snapped
from fitwright.place.photo.usual import usual_click

REACH_CLICKS = 4.0
LEAST_REACH = 6.0


def looked_up(photo: Photo, picture: Picture) -> tuple[Photo, tuple[str, ...]]:
    """The photo with places found along each edge that asks for it, and what was not found.

    The clicks at the ends stay, so that corners shared with other edges keep their places; the picture is also taken to
    be cropped when its shape is not the one that its camera made.
    """
    spots, edges, lost = dict(photo.spots), [], []
    reach = max(LEAST_REACH, REACH_CLICKS * (photo.click or usual_click(*picture.size)))
    for number, edge in enumerate(photo.edges, 1):
        found = _found(edge, photo, picture, reach) if edge.snap else {}
        if edge.snap and not found:
            lost.append(
                f"no edge was found within {reach:.0f} px of edge {number} ({edge.spots[0]} to {edge.spots[-1]})"
            )
        names = {f"edge {number}.{k}": spot for k, spot in enumerate(found.values(), 1)}
        spots.update(names)
        edges.append(replace(edge, spots=(*edge.spots, *names)))
    cropped = photo.cropped if photo.cropped is not None or picture.whole else True
    return replace(photo, spots=spots, edges=tuple(edges), cropped=cropped), tuple(lost)


def _found(edge: EdgeMark, photo: Photo, picture: Picture, reach: float) -> dict[int, Spot]:
    if not all(name in photo.spots for name in edge.spots):
        return {}
    ends = [photo.spots[name] for name in (edge.spots[0], edge.spots[-1])]
    start, finish = (np.array([end.u, end.v]) for end in ends)
    snap = snapped(picture.grey, start, finish, reach)
    return {k: Spot(float(u), float(v), click=snap.sigma) for k, (u, v) in enumerate(snap.spots)}
