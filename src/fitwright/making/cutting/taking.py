"""What cutting plans take from the rack, and what they leave."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from fitwright.making.cutting.plan import CuttingPlan, PlannedBar
from fitwright.shop.records.rack import BarUsed

SAME_MM = 0.01


def bars_used(
    plans: Mapping[str, CuttingPlan], later: Mapping[str, CuttingPlan], heats: Mapping[str, str], drop: str
) -> tuple[BarUsed, ...]:
    """Every bar that is cut, with what is left of it in the end [mm].

    plans: of the parts, by the stock's label; later: of what is cut afterwards, where a bar called `drop` is what a
    plan left over. heats: on the rack, by label.
    """
    used = [_used(label, one, heats) for label, plan in plans.items() for one in plan.bars]
    for label, plan in later.items():
        for one in plan.bars:
            if one.bar.label == drop:
                place = _place(used, label, one.bar.length)
                used[place] = replace(used[place], remnant=one.remnant)
            else:
                used.append(_used(label, one, heats))
    return tuple(used)


def _used(label: str, one: PlannedBar, heats: Mapping[str, str]) -> BarUsed:
    on_hand = one.bar.on_hand is not None
    return BarUsed(label, one.bar.length, one.remnant, on_hand, heats.get(label, ""), one.bar.price)


def _place(used: list[BarUsed], label: str, length: float) -> int:
    """Where the bar stands that left a drop of this length."""
    return next(k for k, bar in enumerate(used) if bar.label == label and abs(bar.remnant - length) < SAME_MM)
