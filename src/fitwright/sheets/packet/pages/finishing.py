"""The finish sheet: areas, grinding, coats and tins, waiting, and whether the air lets one paint."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess import Assessment
from fitwright.making.finishing import Coat, FinishWork, least_surface
from fitwright.making.handing import film, temperature, used_up, volume
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.units import FOOT, Style

TITLE = "Finish"
AIR_C = (10.0, 15.0, 20.0, 25.0, 30.0)
HUMIDITY = (30, 40, 50, 60, 70, 80)
SEVERAL = 2


def finish_page(assessment: Assessment) -> Page | None:
    """Everything about the finish on one sheet; None for a piece with nothing to coat."""
    work, style = assessment.finishing, assessment.job.style
    if not work.areas:
        return None
    content: Json = {
        "asked": [f"{what}: {how}." for what, how in assessment.job.finish.items()],
        "grinding": list(_grinding(work, style)),
        "cleaning": list(work.cleaning),
        "coats": _coats(work, style) if work.coats else None,
        "sent": f"{work.sent_out.name.capitalize()}: done elsewhere." if work.sent_out else None,
        "tins": _tins(work, style) if work.tins else None,
        "consumables": _consumables(work, style),
        "waits": _waits(work, style) if work.waits else None,
        "dew": _dew(style),
        "fields": ["air", "humidity", "steel", "dew point"],
        "areas": _areas(work, style),
        "notes": [*work.notes, *work.limits],
    }
    return Page("finish", TITLE, content)


def _grinding(work: FinishWork, style: Style) -> Iterator[str]:
    if work.grinding is not None:
        for one in work.grinding.flush:
            yield (
                f"{one.count} {one.what}, {style.length(one.length)} in all: flush, grits "
                f"{_grits(work.grinding.flush_grits)} in this order."
            )
        if not work.grinding.flush:
            yield "No weld is ground flush: spatter off, wire brush, leave the bead."
        yield f"Then all metal, grits {_grits(work.grinding.all_grits)}: {work.grinding.words}."
    if work.sanding is not None:
        yield f"Timber, grits {_grits(work.sanding.all_grits)}: {work.sanding.words}."


def _grits(grits: tuple[int, ...]) -> str:
    return ", ".join(str(grit) for grit in grits)


def _coats(work: FinishWork, style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("coat", "mark", None), ("on", "text", None), ("what", "text", 1.6), ("area", "number", None),
        ("quantity", "number", None), ("wet film", "number", None), ("next after", "number", None),
        ("done", "boxes", None),
    ]  # fmt: skip
    return table(columns, [_coat(coat, style) for coat in work.coats])


def _coat(coat: Coat, style: Style) -> tuple[object, ...]:
    return (
        str(coat.number),
        "metal" if coat.metal else "timber",
        coat.product.name,
        area(coat.area_m2, style),
        volume(coat.litres, style),
        "" if coat.wet is None else film(coat.wet, style),
        f"{coat.recoat:.0f} h",
        1,
    )


def area(m2: float, style: Style) -> str:
    """An area as the shop reads it.

    >>> area(1.0, Style.inch()), area(1.0, Style.metric())
    ('10.8 ft²', '1.00 m²')
    """
    return f"{m2 * 1e6 / FOOT**2:.1f} ft²" if style.unit == "inch" else f"{m2:.2f} m²"


def _tins(work: FinishWork, style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("buy", "text", 1.2),
        ("tins", "text", 2),
        ("needed", "number", None),
        ("left", "number", None),
    ]
    rows = [
        (
            one.product,
            " + ".join(f"{count} × {name}" for count, name, _ in one.tins),
            volume(one.litres, style),
            volume(one.bought - one.litres, style),
        )
        for one in work.tins
    ]
    return table(columns, rows)


def _consumables(work: FinishWork, style: Style) -> str:
    told = (used_up(one, style) for one in work.consumables)
    return "Used up: " + ", ".join(f"{count} × {what}" if count > 1 else what for what, count in told) + "."


def _waits(work: FinishWork, style: Style) -> Json:
    shown = sorted({at for _, hours in work.waits for at, _ in hours})
    columns: list[ColumnTold] = [
        ("hours to the next coat at", "text", 1),
        *((temperature(at, style), "number", None) for at in shown),
    ]
    rows = [(name, *(_hours(dict(hours), at) for at in shown)) for name, hours in work.waits]
    return table(columns, rows)


def _hours(hours: dict[float, float], at: float) -> str:
    return f"{hours[at]:.0f}" if at in hours else "too cold"


def _dew(style: Style) -> Json:
    """The coldest steel that may be painted, by air and humidity."""
    columns: list[ColumnTold] = [("air", "number", None), *((f"{h} %", "number", 1.0) for h in HUMIDITY)]
    rows = [(temperature(t, style), *(temperature(least_surface(t, h), style) for h in HUMIDITY)) for t in AIR_C]
    return table(columns, rows)


def _areas(work: FinishWork, style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("part", "text", 1.4), ("mark", "mark", None), ("outside", "number", None), ("under joints", "number", None),
        ("under panels", "number", None), ("first coat", "number", None),
    ]  # fmt: skip
    rows = [
        (
            one.part if one.count < SEVERAL else f"{one.part}, all {one.count}",
            " ".join(one.marks),
            area(one.outside / 1e6, style),
            area(one.joints / 1e6, style),
            area(one.panels / 1e6, style),
            area(one.bare / 1e6, style),
        )
        for one in work.areas
    ]
    return table(columns, rows)
