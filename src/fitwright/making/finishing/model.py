"""What is worked out for the finish: areas, grinding, coats, tins, waiting, weather."""

from __future__ import annotations

from dataclasses import dataclass, field

from fitwright.findings import Finding
from fitwright.making.finishing.tables import Product


@dataclass(frozen=True)
class PartArea:
    """The surface of all copies of one part [mm2].

    metal: else timber. outside: of the trimmed stock with its open ends; joints: of it covered by what is joined to it,
    ledges too; panels: covered by panels that stay on; rests: under panels that lift off, painted all the same.
    """

    part: str
    marks: tuple[str, ...]
    count: int
    metal: bool
    outside: float
    joints: float
    panels: float
    rests: float

    @property
    def bare(self) -> float:
        """What the first coat goes on: panels come later [mm2]."""
        return self.outside - self.joints

    @property
    def shown(self) -> float:
        """What is left to see once panels that stay are on: what top coats go on [mm2]."""
        return self.outside - self.joints - self.panels


@dataclass(frozen=True)
class Flush:
    """Welds to be ground flush: what, how many, length in all [mm]."""

    what: str
    count: int
    length: float


@dataclass(frozen=True)
class Grinding:
    """What is ground and with which grits, coarse to fine: welds that are to vanish, and then all of it."""

    flush: tuple[Flush, ...]
    flush_grits: tuple[int, ...]
    all_grits: tuple[int, ...]
    words: str
    basis: str


@dataclass(frozen=True)
class Coat:
    """One coat: on metal or timber, its area [m2], spread [m2/litre] before loss, loss a fraction, quantity [litre].

    wet, dry: film [micron], None where there is none. recoat, handle, hard: hours at the air it is planned for.
    """

    number: int
    metal: bool
    product: Product
    area_m2: float
    spread: float
    loss: float
    litres: float
    wet: float | None
    dry: float | None
    recoat: float
    handle: float
    hard: float


@dataclass(frozen=True)
class Tins:
    """What to buy of one product: needed [litre], tins as (how many, name, litres each), and what is left over."""

    product: str
    litres: float
    tins: tuple[tuple[int, str, float], ...]

    @property
    def bought(self) -> float:
        """Held by the tins together [litre]."""
        return sum(count * each for count, _, each in self.tins)


@dataclass(frozen=True)
class Air:
    """Air in the shop [C, %], and of the steel where it is colder than the air."""

    temperature: float = 20.0
    humidity: float = 50.0
    surface: float | None = None

    @property
    def steel(self) -> float:
        """Temperature of what is painted [C]."""
        return self.temperature if self.surface is None else self.surface


@dataclass(frozen=True)
class Consumable:
    """Something used up: what, how many, in which unit, and why."""

    what: str
    count: int
    basis: str


@dataclass(frozen=True, eq=False)
class FinishWork:
    """Everything about the finish of a piece; waits: by product, hours to recoat at each temperature of the table."""

    areas: tuple[PartArea, ...]
    grinding: Grinding | None
    sanding: Grinding | None
    cleaning: tuple[str, ...]
    coats: tuple[Coat, ...]
    sent_out: Product | None
    tins: tuple[Tins, ...]
    air: Air
    dew_point: float
    waits: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
    consumables: tuple[Consumable, ...]
    notes: tuple[str, ...]
    findings: tuple[Finding, ...] = field(default=())
    limits: tuple[str, ...] = field(default=())

    @property
    def metal_m2(self) -> float:
        """Bare metal to coat [m2]."""
        return sum(area.bare for area in self.areas if area.metal) / 1e6

    @property
    def timber_m2(self) -> float:
        """Timber to coat [m2]."""
        return sum(area.bare for area in self.areas if not area.metal) / 1e6

    def coats_on(self, metal: bool) -> tuple[Coat, ...]:
        """The coats on metal, or those on timber, in order."""
        return tuple(coat for coat in self.coats if coat.metal is metal)
