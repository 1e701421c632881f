"""The finish of a piece, put together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.checks.asked import asked as uses_of
from fitwright.findings import Finding, Verdict, needs_input
from fitwright.job.model import Job
from fitwright.making.finishing.areas import areas_of
from fitwright.making.finishing.coating import BRUSH, coats_of, tins_of
from fitwright.making.finishing.errors import FinishError
from fitwright.making.finishing.model import Air, FinishWork, PartArea
from fitwright.making.finishing.preparing import cleaning_of, consumables_of, grinding_of, sanding_of
from fitwright.making.finishing.reading import Asked, asked_for, read_finish
from fitwright.making.finishing.tables import Product, products, table
from fitwright.making.finishing.weather import AREA, air_findings, dew_point, wait_at
from fitwright.piece.model import Piece

USUAL_AIR = Air()
NOTHING = Asked((), None, ())
LIMITS = (
    "Figures of paint and oil are typical ones: the data sheet of the tin that is bought goes first.",
    "Areas are the outside of tubes; what runs inside, and what hangs in a brush, is not in them.",
)


def finish_work(piece: Piece, job: Job, air: Air = USUAL_AIR, method: str = BRUSH) -> FinishWork:
    """Areas, grinding, cleaning, coats, tins, waits and weather for a piece.

    air: in the shop, 20 C and 50 % unless measured; method: "brush" or "spray".
    Raises FinishError for air or a method that cannot be.
    """
    if method not in ("brush", "spray"):
        raise FinishError(f"{method!r} is no way of putting on paint that is known here: brush or spray")
    areas = areas_of(piece)
    on = {metal: _asked(job, areas, metal) for metal in (True, False)}
    metal = tuple(coats_of(areas, on[True] or NOTHING, True, method, air, 1))
    coats = (*metal, *coats_of(areas, on[False] or NOTHING, False, method, air, 1))
    has = {kind: any(area.metal is kind for area in areas) for kind in (True, False)}
    grinding = grinding_of(piece, on[True] or NOTHING) if has[True] else None
    sanding = sanding_of() if has[False] else None
    used = tuple(dict.fromkeys(coat.product for coat in coats))
    return FinishWork(
        areas=areas,
        grinding=grinding,
        sanding=sanding,
        cleaning=cleaning_of(has[True], has[False]),
        coats=coats,
        sent_out=next((asked.sent for asked in on.values() if asked and asked.sent), None),
        tins=tins_of(coats, job.style.unit),
        air=air,
        dew_point=dew_point(air.temperature, air.humidity),
        waits=tuple(waits_of(used)),
        consumables=consumables_of(areas, grinding, sanding, len(used)),
        notes=tuple(note for asked in on.values() if asked for note in asked.notes),
        findings=tuple(_findings(job, on, has, air, used)),
        limits=LIMITS,
    )


def _asked(job: Job, areas: Sequence[PartArea], metal: bool) -> Asked | None:
    """What is asked for; None where there is nothing of that material, or the job file does not say."""
    text = asked_for(job.finish, metal)
    if text is None or not any(area.metal is metal for area in areas):
        return None
    return read_finish(text, metal)


def waits_of(used: Sequence[Product]) -> Iterator[tuple[str, tuple[tuple[float, float], ...]]]:
    """For each product, hours to the next coat at the temperatures of the table, where it may be put on at all."""
    for product in used:
        at = [float(t) for t in table("coatings")["waits"]["table"] if t >= product.least]
        yield product.name, tuple((t, wait_at(product.recoat, product.at, t)) for t in at)


def _findings(
    job: Job, on: dict[bool, Asked | None], has: dict[bool, bool], air: Air, used: tuple[Product, ...]
) -> Iterator[Finding]:
    for metal, word in ((True, "steel"), (False, "timber")):
        if has[metal] and on[metal] is None:
            yield needs_input(AREA, word, "what it is finished with", f"finish: {word}: such as 'two coats of enamel'")
    if used:
        yield from air_findings(air, used)
    for product in used:
        yield _fit(job, product)


def _fit(job: Job, product: Product) -> Finding:
    """Whether a product is fit for what the piece is used for."""
    wrong = [use for use in product.not_for if use in uses_of(job)]
    if not wrong:
        return Finding(AREA, product.name, "fit for its use", Verdict.HOLDS, basis=product.basis)
    better = [
        one.name
        for one in products()
        if one.role == product.role and one.timber == product.timber and not set(one.not_for) & uses_of(job)
    ]
    advice = f"take {' or '.join(better)}" if better else "ask a coating maker for one that is"
    return Finding(
        AREA, product.name, f"fit for {' and '.join(wrong)}", Verdict.FAILS, basis=product.basis, advice=advice
    )
