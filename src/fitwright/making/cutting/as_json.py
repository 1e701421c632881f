"""A cutting plan as plain data with units in the names, for reports and for other programs."""

from __future__ import annotations

from typing import Any

from fitwright.making.cutting.plan import CuttingPlan, PlannedBar

Json = dict[str, Any]


def plan_as_json(plan: CuttingPlan) -> Json:
    """The plan as numbers, texts and lists; money as numbers in the currency of the prices."""
    return {
        "cost": float(plan.cost),
        "bound": float(plan.bound),
        "proven": plan.proven,
        "waste_fraction": plan.waste_fraction,
        "bars": [_bar(bar) for bar in plan.bars],
        "buy": [
            {"stock": bar.label, "length_mm": bar.length, "price": float(bar.price), "quantity": quantity}
            for bar, quantity in plan.buy
        ],
    }


def _bar(planned: PlannedBar) -> Json:
    return {
        "stock": planned.bar.label,
        "length_mm": planned.bar.length,
        "price": float(planned.bar.price),
        "offcut": planned.bar.offcut,
        "cuts": [{"mark": cut.mark, "cut_length_mm": cut.length_mm} for cut in planned.cuts],
        "end_trim_mm": planned.end_trim,
        "kerf_lost_mm": planned.kerf_lost,
        "remnant_mm": planned.remnant,
    }
