"""What the plan is told by the other trades, in plain data: lengths [mm], angles [rad], areas [m2], times [h]."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

SET_IN = "set in the metal"  # what is in the frame for good before paint, and is not put on afterwards


@dataclass(frozen=True)
class Line:
    """One line of a list to buy: what, its size in words, how many."""

    what: str
    size: str
    count: int


@dataclass(frozen=True)
class SawSetting:
    """One setting of a saw's stop: length, ends in words, marks, how many; timber: at the timber saw."""

    stock: str
    length: float
    ends: str
    marks: tuple[str, ...]
    count: int
    timber: bool


@dataclass(frozen=True)
class BendLine:
    """One bend: where its mark goes on the blank, bend to, to get.

    turn: how far the tube is turned from where it lay for the first, in the bend sheet's words; empty where it is not.
    drawn: which bend it is along the part as drawn.
    """

    number: int
    mark: float
    turn: str
    bend_to: float
    angle: float
    die: str
    drawn: int = 0


@dataclass(frozen=True)
class TrimLine:
    """An end to be cut after bending: allowance, and the length that stays, measured from a place; leg: as drawn."""

    end: str
    allowance: float
    measured: float
    place: str
    leg: int = 0


@dataclass(frozen=True)
class Bent:
    """A bent part: mark, name, stock, how many, blank, its bends in order, its trims, the title of its sheet.

    names: of its copies. spread: outside to outside between its two open ends, where a tape can tell [mm].
    """

    mark: str
    part: str
    stock: str
    count: int
    blank: float
    bends: tuple[BendLine, ...]
    trims: tuple[TrimLine, ...]
    sheet: str
    names: tuple[str, ...] = ()
    spread: float | None = None


@dataclass(frozen=True)
class Coped:
    """Ends cut with one template: mark, which end, what it is fitted to, how many, the title of its sheet."""

    mark: str
    end: str
    meets: tuple[str, ...]
    count: int
    sheet: str


@dataclass(frozen=True)
class CheckLine:
    """A number to read with a tape, and how far off it may be; of: as the job file's readings call it."""

    name: str
    length: float
    tolerance: float
    of: str = ""


@dataclass(frozen=True)
class SetUp:
    """One set-up on the bench: placing in words, checks, whether blocks of wood are used, the set-up it repeats."""

    name: str
    placing: tuple[str, ...]
    checks: tuple[CheckLine, ...]
    wood: bool
    same_as: str
    tacks: int
    sheet: str


@dataclass(frozen=True)
class Welded:
    """The welding: welds by what is alike in words, tacks, runs, seconds of arc, how it pulls in words."""

    welds: tuple[tuple[str, int], ...]
    tacks: int
    runs: int
    arc_seconds: float
    order: tuple[str, ...]
    movement: tuple[str, ...]
    sheet: str


@dataclass(frozen=True)
class PanelsGiven:
    """A batch of equal panels: part, how many, boards and glue joints in all, screws in all, order of work in words.

    openings: of each that is taken out, its name and the clear size that it drops into [mm], None where unknown.
    """

    part: str
    count: int
    boards: int
    joints: int
    screws: int
    screw: str
    gap: float
    order: tuple[str, ...]
    sheet: str
    openings: tuple[tuple[str, float | None], ...] = ()


@dataclass(frozen=True)
class DeckGiven:
    """A part that is sheets of metal: how many, of what size in words, and how each is welded down.

    lines: along which member, how many stitches; none where it is not welded. leg, stitch: in words.
    arc_seconds: that the arc burns, for all of them.
    """

    part: str
    count: int
    size: str
    lines: tuple[tuple[str, int], ...]
    leg: str
    stitch: str
    arc_seconds: float
    sheet: str


@dataclass(frozen=True)
class CoatGiven:
    """One coat: on metal or timber, its name, place among the coats there, area, quantity and wet film in words."""

    metal: bool
    name: str
    role: str
    number: int
    area: float
    quantity: str
    wet: str
    recoat: float
    handle: float
    hard: float
    rags: bool


@dataclass(frozen=True)
class FinishGiven:
    """The finish: lengths ground flush in words and mm, grits, areas, cleaning, coats; days at a coater's, if sent."""

    flush: tuple[tuple[str, int, float], ...]
    flush_grits: tuple[int, ...]
    metal_grits: tuple[int, ...]
    timber_grits: tuple[int, ...]
    metal: float
    timber: float
    cleaning: tuple[str, ...]
    coats: tuple[CoatGiven, ...]
    sent: str
    sent_days: int
    dew: str
    sheet: str


@dataclass(frozen=True)
class Fitted:
    """Something put on: what, its kind (caster, foot, fitting, screw, bolt, anchor), how many; threaded: into metal."""

    what: str
    kind: str
    count: int
    threaded: str


@dataclass(frozen=True)
class Given:
    """Everything that the plan is made of.

    blocks: for the bench, by stop setting. true: words that hold for the job, as cautions ask for them: galvanised,
    dipped, stainless, blocks, rags, heavy, heavy frame, anchored. care: what the job's rules ask for, as `fit shelves`.
    mass: of the piece [kg]. sizes, frame: width, depth and height of the piece, and of its welded frame by itself.
    feet: feet and casters. gaps: to what stands beside the piece: side in words, and what is wanted [mm], None where
    nothing is said. trials: how many bends are tried first, by die and stock; one where nothing is said.
    """

    buy: tuple[Line, ...] = ()
    saw: tuple[SawSetting, ...] = ()
    blocks: tuple[SawSetting, ...] = ()
    bent: tuple[Bent, ...] = ()
    coped: tuple[Coped, ...] = ()
    set_ups: tuple[SetUp, ...] = ()
    welded: Welded | None = None
    panels: tuple[PanelsGiven, ...] = ()
    decks: tuple[DeckGiven, ...] = ()
    finish: FinishGiven | None = None
    fitted: tuple[Fitted, ...] = ()
    true: frozenset[str] = frozenset()
    care: tuple[str, ...] = ()
    mass: float = 0.0
    sizes: tuple[tuple[str, float], ...] = ()
    frame: tuple[tuple[str, float], ...] = ()
    sheets: tuple[str, ...] = ()
    feet: int = 0
    gaps: tuple[tuple[str, float | None], ...] = ()
    trials: Mapping[tuple[str, str], int] = field(default_factory=dict)
