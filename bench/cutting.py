"""How many cutting problems are proven optimal within a time limit, by class, and how long shop-size plans take.

Run: python bench/cutting.py [seconds]
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from fitwright.making.cutting import Bar, Cut, plan_cuts

Reals = NDArray[np.float64]
Suite = Iterator[tuple[str, list[Cut], list[Bar], float]]


def one_stock(kind: str, capacity: int, sizes: Sequence[int]) -> tuple[str, list[Cut], list[Bar], float]:
    cuts = [Cut(str(size), float(size), count) for size, count in Counter(int(size) for size in sizes).items()]
    return kind, cuts, [Bar("bar", float(capacity), Decimal(1))], 0.0


def uniform() -> Suite:
    for seed in range(6):
        yield one_stock("20 to 100 in 150", 150, np.random.default_rng(100 + seed).integers(20, 101, 120).tolist())


def triplets() -> Suite:
    """Three pieces a bar, no waste at all."""
    for seed, bars in enumerate([20, 20, 40, 40, 40, 67, 67, 67]):
        draw = np.random.default_rng(200 + seed)
        sizes: list[int] = []
        while len(sizes) < 3 * bars:
            first, second = int(draw.integers(380, 491)), int(draw.integers(250, 380))
            if 250 <= 1000 - first - second <= 499:
                sizes += [first, second, 1000 - first - second]
        yield one_stock("triplets in 1000", 1000, sizes)


def any_size() -> Suite:
    shapes = [(100, 50), (120, 100), (150, 200), (300, 200), (500, 200), (1000, 50), (1000, 100), (1000, 200)]
    for seed, (capacity, pieces) in enumerate([*shapes, (2500, 50), (2500, 100), (2500, 150), (2500, 200)]):
        yield one_stock(
            "1 to capacity", capacity, np.random.default_rng(300 + seed).integers(1, capacity + 1, pieces).tolist()
        )


def quarter_to_half() -> Suite:
    shapes = [(100, 200), (500, 200), (1000, 50), (1000, 100), (1000, 150), (1000, 200)]
    for seed, (capacity, pieces) in enumerate([*shapes, (2500, 50), (2500, 100), (2500, 150), (2500, 200)]):
        draw = np.random.default_rng(400 + seed)
        yield one_stock("quarter to half", capacity, draw.integers(capacity // 4, capacity // 2 + 1, pieces).tolist())


def weibull() -> Suite:
    shapes = [(100, 200, 1.5), (1000, 100, 0.8), (1000, 100, 1.5), (1000, 200, 1.5), (1000, 200, 3.0)]
    for seed, (capacity, pieces, form) in enumerate([*shapes, (2500, 100, 1.5), (2500, 200, 0.8), (2500, 200, 3.0)]):
        sizes = np.random.default_rng(500 + seed).weibull(form, pieces) * capacity / 5
        yield one_stock("weibull", capacity, np.clip(np.rint(sizes), 1, capacity).astype(int).tolist())


def about_a_mean() -> Suite:
    for seed, (per_bar, spread) in enumerate([(n, part) for n in (3, 5, 7, 9) for part in (0.2, 0.5, 0.9)]):
        mean = 1000 / per_bar
        sizes = np.random.default_rng(600 + seed).uniform(
            mean * (1 - spread), mean * (1 + spread), [50, 100, 200][seed % 3]
        )
        yield one_stock("about a mean in 1000", 1000, np.clip(np.rint(sizes), 1, 1000).astype(int).tolist())


def fifth_to_third() -> Suite:
    for seed, (capacity, pieces) in enumerate(
        [(1000, 100), (1000, 160), (1000, 200), (2500, 100), (2500, 160), (2500, 200)]
    ):
        draw = np.random.default_rng(700 + seed)
        yield one_stock("0.2 to 0.35", capacity, draw.integers(capacity // 5, capacity * 7 // 20 + 1, pieces).tolist())


def shop_inches() -> Suite:
    """60 pieces of 12 lengths in sixteenths, 4 lengths to buy, 10 offcuts on hand."""
    sixteenth = 25.4 / 16
    for seed in range(10):
        draw = np.random.default_rng(800 + seed)
        lengths = draw.choice(np.arange(6 * 16, 90 * 16), 12, replace=False) * sixteenth
        bars = [
            Bar(f"{n} ft", n * 304.8, Decimal(p))
            for n, p in ((10, "18.90"), (12, "22.35"), (20, "34.80"), (24, "43.25"))
        ]
        offcuts = draw.choice(np.arange(12 * 16, 100 * 16), 10, replace=False) * sixteenth
        yield "shop, inches", *shop(draw, lengths, bars, offcuts, seed), 3.175


def shop_millimetres() -> Suite:
    """The same with lengths to 0.01 mm that have no common measure."""
    for seed in range(10):
        draw = np.random.default_rng(900 + seed)
        bars = [
            Bar(f"{n} mm", float(n), Decimal(p))
            for n, p in ((3000, "18.93"), (4000, "24.37"), (6000, "34.81"), (7500, "44.59"))
        ]
        yield (
            "shop, 0.01 mm",
            *shop(draw, draw.uniform(150, 2300, 12).round(2), bars, draw.uniform(300, 2800, 10).round(2), seed),
            3.2,
        )


def shop(
    draw: np.random.Generator, lengths: Reals, bars: list[Bar], offcuts: Reals, seed: int
) -> tuple[list[Cut], list[Bar]]:
    often = draw.multinomial(48, [1 / 12] * 12) + 1
    cuts = [
        Cut(f"A{i}", float(length), int(count)) for i, (length, count) in enumerate(zip(lengths, often, strict=True))
    ]
    rate = Decimal("0.003") if seed % 3 == 2 else Decimal(0)
    return cuts, bars + [Bar("offcut", float(n), (rate * int(n)).quantize(Decimal("0.05")), 1, True) for n in offcuts]


SUITES = (
    uniform,
    triplets,
    any_size,
    quarter_to_half,
    weibull,
    about_a_mean,
    fifth_to_third,
    shop_inches,
    shop_millimetres,
)


def main() -> None:
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 10.0
    print(f"{'class':<24}{'cases':>6}{'proven':>8}{'median s':>10}{'longest s':>11}")
    total = proven = 0
    for suite in SUITES:
        cases, times, done = list(suite()), [], 0
        for _, cuts, bars, kerf in cases:
            start = time.perf_counter()
            plan = plan_cuts(cuts, bars, kerf, seconds=seconds)
            times.append(time.perf_counter() - start)
            done += plan.proven
        total, proven = total + len(times), proven + done
        print(f"{cases[0][0]:<24}{len(times):>6}{done:>8}{np.median(times):>10.2f}{max(times):>11.2f}", flush=True)
    print(f"{'all':<24}{total:>6}{proven:>8}   within {seconds:g} s")


if __name__ == "__main__":
    main()
