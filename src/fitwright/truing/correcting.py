"""What to do to what is made: of everything that could be done the least that brings it within its limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.truing.options import Option
from fitwright.truing.wanting import Wants

MOST_TOUCHES = 10
ROUNDS = 4
LAST = ("shim",)


@dataclass(frozen=True, eq=False)
class Chosen:
    """An option and how much of it, in its unit."""

    option: Option
    amount: float


def chosen(wants: Wants, off: Floats, possible: Sequence[Option]) -> tuple[Chosen, ...]:
    """The corrections worth making, least effort first, but the feet last, for everything else moves them.

    off: (o,) how far each outcome probably is off [mm]. What is due comes first; then one is taken after another, each
    time that which takes off most of the squared shares of what is allowed, less its effort; each time all amounts
    together are set anew and rounded to what can be done.
    Holds for corrections that are linear and do not hinder one another.
    Source: forward selection and least squares (T. Hastie, R. Tibshirani, J. Friedman, The Elements of Statistical
    Learning, 2nd ed. (2009), section 3.3.2, from memory).
    """
    share = wants.forms @ off
    felt = np.array([wants.forms @ option.effect for option in possible]).reshape(len(possible), len(share))
    picked = [Chosen(option, _doable(option, 0.0)) for option in possible if option.due]
    for _ in range(MOST_TOUCHES):
        left = share + sum((one.amount * wants.forms @ one.option.effect for one in picked), np.zeros(len(share)))
        best = _best(left, felt, possible, {one.option.key for one in picked})
        if best is None:
            break
        picked = _together(share, [*picked, best], wants)
    return tuple(sorted(picked, key=lambda one: (one.option.kind in LAST, one.option.effort)))


def _best(left: Floats, felt: Floats, possible: Sequence[Option], taken: set[str]) -> Chosen | None:
    """The option that takes off most beyond its effort; None where none does."""
    best, gain = None, 0.0
    for option, row in zip(possible, felt, strict=True):
        strength = float(row @ row)
        if option.key in taken or strength <= 0:
            continue
        amount = _doable(option, -float(left @ row) / strength)
        taken_off = float(left @ left) - float(np.sum((left + amount * row) ** 2)) - option.effort
        if amount and taken_off > gain:
            best, gain = Chosen(option, amount), taken_off
    return best


def _together(share: Floats, picked: Sequence[Chosen], wants: Wants) -> list[Chosen]:
    """Amounts set together, each in turn for what the others leave, and what is no longer worth its effort dropped."""
    rows = [wants.forms @ one.option.effect for one in picked]
    amounts = [one.amount for one in picked]
    for _ in range(ROUNDS):
        for i, (one, row) in enumerate(zip(picked, rows, strict=True)):
            others = share + sum((amounts[j] * rows[j] for j in range(len(rows)) if j != i), np.zeros(len(share)))
            amounts[i] = _doable(one.option, -float(others @ row) / float(row @ row))
    kept = []
    for i, (one, row) in enumerate(zip(picked, rows, strict=True)):
        others = share + sum((amounts[j] * rows[j] for j in range(len(rows)) if j != i), np.zeros(len(share)))
        gain = float(others @ others) - float(np.sum((others + amounts[i] * row) ** 2))
        if amounts[i] and (one.option.due or gain > one.option.effort):
            kept.append(replace(one, amount=amounts[i]))
    return kept


def _doable(option: Option, amount: float) -> float:
    """An amount in whole steps, no more than can be done."""
    if option.only is not None:
        return float(np.clip(option.only, -option.most, option.most))
    low = 0.0 if option.one_way else -option.most
    return float(np.clip(round(amount / option.step) * option.step, low, option.most))
