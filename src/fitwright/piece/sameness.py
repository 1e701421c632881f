"""Which members are the same piece of work, which are mirror images, and the marks that say so."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Board, Hardware, Mark, Panel
from fitwright.piece.path import Arc
from fitwright.piece.sections import outline_of
from fitwright.piece.solid import Trimmed
from fitwright.piece.trim import stops

Floats = NDArray[np.float64]

SAME_MM = 0.05
ALIKE_DECIMALS = 4
ROUND_STEPS = 72


@dataclass(frozen=True, eq=False)
class Candidate:
    """A trimmed member up for comparison."""

    name: str
    part: str
    label: str
    solid: Trimmed
    length: float


def member_marks(candidates: list[Candidate]) -> list[Mark]:
    """One mark for each distinct member: a letter for the drawn part, a number within it.

    Two members are the same when a turn carries one onto the other within 0.05 mm, either way round.
    """
    groups: list[list[Candidate]] = []
    moved: dict[tuple[object, ...], list[Candidate]] = {}  # repeats are the same but for where they stand
    for candidate in candidates:
        seen = _in_itself(candidate)
        group = moved.get(seen) or next((g for g in groups if same(g[0], candidate, mirrored=False)), None)
        if group is None:
            groups.append(group := [])
        group.append(candidate)
        moved[seen] = group
    marks = _lettered([(group[0].part, tuple(c.name for c in group)) for group in groups], "member")
    return [_with_mirror(k, marks, groups) for k in range(len(groups))]


def board_marks(panels: list[Panel], taken: int) -> tuple[list[Mark], dict[tuple[str, int], str]]:
    """Marks of the boards, equal boards together, and the mark of each board by panel name and place in it."""
    groups: dict[tuple[object, ...], list[tuple[str, int]]] = {}
    parts: dict[tuple[object, ...], str] = {}
    for panel in panels:
        for k, board in enumerate(panel.boards):
            key = (panel.part, *_board_key(board))
            groups.setdefault(key, []).append((panel.name, k))
            parts[key] = panel.part
    rows = [
        (parts[key], tuple(f"{name} {_role(panels, name, k)} {k + 1}" for name, k in group))
        for key, group in groups.items()
    ]
    marks = _lettered(rows, "board", taken)
    where = {place: mark.mark for mark, group in zip(marks, groups.values(), strict=True) for place in group}
    return marks, where


def hardware_marks(hardware: list[Hardware], taken: int) -> list[Mark]:
    """Marks of the hardware: one for each drawn part."""
    parts = list(dict.fromkeys(item.part for item in hardware))
    rows = [(part, tuple(item.name for item in hardware if item.part == part)) for part in parts]
    return _lettered(rows, "hardware", taken)


def letters(count: int) -> str:
    """A, B, … Z, AA, AB, … for 0, 1, …; I and O are left out, since they read as digits."""
    alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    name = ""
    count += 1
    while count > 0:
        count, rest = divmod(count - 1, len(alphabet))
        name = alphabet[rest] + name
    return name


def same(first: Candidate, second: Candidate, *, mirrored: bool) -> bool:
    """Whether a turn (or a turn and a reflection) carries one member onto the other within 0.05 mm."""
    if first.label != second.label or abs(first.length - second.length) > SAME_MM:
        return False
    if len(first.solid.body.path.segments) != len(second.solid.body.path.segments):
        return False
    if first.solid.body.path.closed != second.solid.body.path.closed:
        return False
    handed = _handed(first.solid) * _handed(second.solid) * (-1 if mirrored else 1)
    views = _views(first.solid, reverse=False)
    return any(
        _matches(
            first.solid, views, second.solid, _views(second.solid, reverse=reverse), handed * (-1 if reverse else 1)
        )
        for reverse in (False, True)
    )


def _in_itself(candidate: Candidate) -> tuple[object, ...]:
    """A member as its own start sees it; equal for two alike far within `SAME_MM`, but for where they stand."""
    solid = candidate.solid
    start = solid.body.path.start
    cuts = [
        (
            *(_bytes(plane.normal, [(plane.point - start) @ plane.normal]) for plane in solid.planes[end]),
            *(_beside(other, start) for other in solid.copes[end]),
        )
        for end in (0, 1)
    ]
    return candidate.label, _beside(solid.body, start), *cuts


def _beside(body: Body, start: Floats) -> tuple[object, ...]:
    path = body.path
    return body.section, path.closed, path.seam, _bytes(path.vertices - start, path.radii, body.frame)


def _bytes(*numbers: ArrayLike) -> bytes:
    """Numbers as they are but for the last digits."""
    return b"".join((np.round(np.asarray(one, dtype=float), ALIKE_DECIMALS) + 0.0).tobytes() for one in numbers)


def _handed(solid: Trimmed) -> int:
    """+1 when u, v and the way along the path are right-handed at the start."""
    return 1 if float(np.cross(*solid.body.frame) @ -solid.body.outward(0)) > 0 else -1


def _role(panels: list[Panel], name: str, k: int) -> str:
    return next(panel.boards[k].role for panel in panels if panel.name == name)


def _board_key(board: Board) -> tuple[object, ...]:
    return (board.role, board.stock.label, *(round(x / SAME_MM) for x in (board.length, board.width, board.thickness)))


def _lettered(rows: list[tuple[str, tuple[str, ...]]], kind: str, taken: int = 0) -> list[Mark]:
    parts = list(dict.fromkeys(part for part, _ in rows))
    marks = []
    for k, part in enumerate(parts):
        own = [names for row, names in rows if row == part]
        marks += [Mark(f"{letters(taken + k)}{number}", kind, names) for number, names in enumerate(own, 1)]
    order = [names for _, names in rows]
    return sorted(marks, key=lambda mark: order.index(mark.names))


def _with_mirror(k: int, marks: list[Mark], groups: list[list[Candidate]]) -> Mark:
    for earlier in range(k):
        if same(groups[earlier][0], groups[k][0], mirrored=True):
            return Mark(marks[k].mark, marks[k].kind, marks[k].names, marks[earlier].mark)
    return marks[k]


def _key_points(solid: Trimmed) -> Floats:
    """Start, tangent points and end of the path (k, 3) [mm]."""
    segments = solid.body.path.segments
    middles = [s.at(np.array([s.angle / 2]))[0] for s in segments if isinstance(s, Arc)]
    return np.array([segments[0].start, *(s.end for s in segments), *middles])


def _views(solid: Trimmed, *, reverse: bool) -> tuple[int, int]:
    return (1, 0) if reverse else (0, 1)


def _seen(solid: Trimmed, order: tuple[int, int]) -> Floats:
    """Key points (k, 3) of the material seen from one end, worked out once: one member is held against many.

    They are cut back to where the material really ends, so that how far a path was overdrawn does not matter.
    """
    if ("seen", order) not in solid.worked_out:
        solid.worked_out["seen", order] = _from_tip(solid, order, _local(solid, order))
    found: Floats = solid.worked_out["seen", order]
    return found


def _local(solid: Trimmed, order: tuple[int, int]) -> Floats:
    """Key points (k, 3) seen from the end `order[0]`: along u, along v, along the member."""
    points = _key_points(solid)
    middles = sum(isinstance(s, Arc) for s in solid.body.path.segments)
    run, arcs = points[: len(points) - middles], points[len(points) - middles :]
    if order[0] == 1:
        run, arcs = run[::-1], arcs[::-1]
    body = solid.body
    axes = np.vstack([body.frame_at(order[0]), -body.outward(order[0])])
    return np.asarray((np.vstack([run, arcs]) - body.point_at(order[0])) @ axes.T)


def _profile(solid: Trimmed, end: int, uv: Floats) -> Floats:
    if not solid.planes[end] and not solid.copes[end]:
        return np.zeros(len(uv))
    return stops(solid.body, end, uv, solid.planes[end], solid.copes[end])


def _matches(first: Trimmed, order: tuple[int, int], second: Trimmed, other: tuple[int, int], handed: int) -> bool:
    here, there = _seen(first, order), _seen(second, other)
    return any(
        _carried(first, order, here, second, other, there, turn)
        for turn in _turns(first, second, order, other, here, there, handed)
    )


def _from_tip(solid: Trimmed, order: tuple[int, int], points: Floats) -> Floats:
    outline = outline_of(solid.body.section, 72)
    near = float(_profile(solid, order[0], outline).max())
    far = float(_profile(solid, order[1], outline).max())
    count = len(solid.body.path.segments)
    moved = points.copy()
    moved[1:] += [0, 0, near]
    end_axes = np.vstack([solid.body.frame_at(order[0]), -solid.body.outward(order[0])])
    moved[count] += far * (end_axes @ solid.body.outward(order[1]))
    return moved


def _turns(
    first: Trimmed,
    second: Trimmed,
    order: tuple[int, int],
    other: tuple[int, int],
    here: Floats,
    there: Floats,
    handed: int,
) -> list[Floats]:
    """Maps (2, 2) of the section onto itself to try, proper or improper as the handedness asks."""
    section = first.body.section
    if not section.is_round:
        return [turn for turn in section.symmetries() if np.sign(np.linalg.det(turn)) == handed]
    flip = np.diag([1.0, float(handed)])
    anchor = _anchor(first, order, here)
    target = _anchor(second, other, there)
    if anchor is None or target is None:
        return [flip] if anchor is target else []
    turns = []
    for a in anchor:
        for b in target:
            angle = b - handed * a
            turns.append(np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]]) @ flip)
    return turns


def _anchor(solid: Trimmed, order: tuple[int, int], points: Floats) -> list[float] | None:
    """Angles round a round section that its first bend, or else its cuts, single out; None when nothing does."""
    sideways = np.hypot(points[:, 0], points[:, 1])
    if sideways.max() > SAME_MM:
        at = int(np.argmax(sideways > SAME_MM))
        return [float(np.arctan2(points[at, 1], points[at, 0]))]
    angles = np.linspace(0, 2 * np.pi, ROUND_STEPS, endpoint=False)
    ring = solid.body.reach * np.column_stack([np.cos(angles), np.sin(angles)])
    for end in order:
        profile = _profile(solid, end, ring)
        spectrum = np.fft.rfft(profile - profile.mean()) / ROUND_STEPS
        for wave in (1, 2):
            if abs(spectrum[wave]) > SAME_MM / 4:
                phase = -float(np.angle(spectrum[wave])) / wave
                turned = phase if end == order[0] else _seen_from(solid, order, phase)
                return [turned + 2 * np.pi * k / wave for k in range(wave)]
    return None


def _seen_from(solid: Trimmed, order: tuple[int, int], phase: float) -> float:
    """An angle in the frame of the far end, in the frame of the near end of a straight member."""
    direction = np.array([np.cos(phase), np.sin(phase)]) @ solid.body.frame_at(order[1])
    u, v = solid.body.frame_at(order[0]) @ direction
    return float(np.arctan2(v, u))


def _carried(
    first: Trimmed,
    order: tuple[int, int],
    here: Floats,
    second: Trimmed,
    other: tuple[int, int],
    there: Floats,
    turn: Floats,
) -> bool:
    moved = here.copy()
    moved[:, :2] = here[:, :2] @ turn.T
    if np.abs(moved - there).max() > SAME_MM:
        return False
    uv = outline_of(first.body.section, 72)
    ends = zip(order, other, strict=True)
    for k, (a, b) in enumerate(ends):
        carried = uv @ turn.T if k == 0 else uv @ _far_turn(first, order, second, other, turn).T
        mine, theirs = _profile(first, a, uv), _profile(second, b, carried)
        if np.abs((mine - mine.max()) - (theirs - theirs.max())).max() > SAME_MM:
            return False
    return True


def _far_turn(first: Trimmed, order: tuple[int, int], second: Trimmed, other: tuple[int, int], turn: Floats) -> Floats:
    """The map of the section at the far end that goes with a map at the near end."""
    near = np.vstack([first.body.frame_at(order[0]), -first.body.outward(order[0])])
    image = np.vstack([second.body.frame_at(other[0]), -second.body.outward(other[0])])
    whole = np.eye(3)
    whole[:2, :2] = turn
    space = image.T @ whole @ near
    return np.asarray(second.body.frame_at(other[1]) @ space @ first.body.frame_at(order[1]).T)
