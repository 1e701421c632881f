"""Virtual builds: the piece made very many times with the errors of a shop."""

from __future__ import annotations

from collections.abc import Callable

from fitwright.mechanics.variation.changes import changes
from fitwright.mechanics.variation.model import VariationError, VirtualBuilds
from fitwright.mechanics.variation.quick import FEW, built
from fitwright.mechanics.variation.setting import Variation
from fitwright.mechanics.variation.simulate import sample, scales, simulate


def virtual_builds(
    setting: Variation,
    n: int = 1_000_000,
    seed: int | None = 0,
    progress: Callable[[float], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> VirtualBuilds:
    """The piece made n times.

    progress: told the share done. stop: asked now and then; when it says yes, the answer is that of the builds made so
    far (`builds` says how many). The same seed gives the same answer.

    Raises VariationError for n below 1.
    Holds for normal errors that do not depend on one another, small enough to be linear; see `influences`.
    Source: Monte Carlo; for the frame Liu and Hu (1997), see `influences`.
    """
    if n < 1:
        raise VariationError(f"{n} builds asked for: give 1 or more")
    questions, felt = setting.decisive
    few = sample(felt, FEW, seed)
    bins = scales(questions, few)
    tally = simulate(felt, questions, bins, n, seed, progress, stop)
    return built(setting, seed, bins, tally, few, changes(setting, FEW, seed))
