"""What a client might have instead: heavier or lighter stock, one of something less, other wood, another finish."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from fitwright.job.model import Job, MemberSpec, PanelSpec
from fitwright.job.reading import read_tree
from fitwright.job.written import Mapped, Node, Written
from fitwright.pricing.exploring.trying import Point, Setting
from fitwright.shop import Shop
from fitwright.stock import Stock, StockError, materials, parse_stock
from fitwright.stock.materials import WOODS

AS_IT_IS = "as it is"
SAME = 1e-3
FEW = 2  # of something of which one can be left out


def alternatives_of(text: str, job: Job, shop: Shop) -> tuple[Point, ...]:
    """The job as it is, and the alternatives to it, each as values to set in its file.

    text: the job's file. Stock comes from what the shop lists; counts from dims that count copies of a part.
    """
    root = read_tree(text, "job.yaml").root
    found: list[Offer] = [(AS_IT_IS, ())]
    for one in (*_stocks(root, job, shop), *_counts(root, job), *_woods(root, job), *_finishes(root, job)):
        if one not in found:
            found.append(one)
    return tuple(Point(number, words, settings) for number, (words, settings) in enumerate(found))


Offer = tuple[str, tuple[Setting, ...]]


@cache
def _table() -> dict[str, Any]:
    text = files("fitwright.pricing").joinpath("data/alternatives.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _stocks(root: Mapped, job: Job, shop: Shop) -> Iterator[Offer]:
    """The next heavier and the next lighter stock of the same shape for each stock that members are made of."""
    used = dict.fromkeys(part.stock.key for part in job.parts if isinstance(part, MemberSpec))
    for name in used:
        stock = job.stock.get(name)
        if stock is None or not stock.material.is_metal:
            continue
        for word, other in zip(("heavier", "lighter"), neighbours(stock, _listed(shop, job)), strict=True):
            if other is not None:
                yield f"{word} {name}: {other.label}", (_stock_setting(root, name, other.label),)


def _listed(shop: Shop, job: Job) -> list[Stock]:
    """Stock that the shop can buy at a listed price."""
    found = []
    for label in dict.fromkeys(bar.label for bar in shop.stock_lengths):
        try:
            found.append(parse_stock(label, unit=job.style.unit))
        except StockError:  # listed by a shop of another unit, in words that this job reads otherwise
            continue
    return found


def neighbours(stock: Stock, listed: Sequence[Stock]) -> tuple[Stock | None, Stock | None]:
    """The next heavier and the next lighter of the same shape and material; of the same outside if there is one."""
    alike = [
        one for one in listed
        if one.section.shape == stock.section.shape and one.material.kind == stock.material.kind
        and abs(one.mass_per_m - stock.mass_per_m) > SAME
    ]  # fmt: skip
    heavier = [one for one in alike if one.mass_per_m > stock.mass_per_m]
    lighter = [one for one in alike if one.mass_per_m < stock.mass_per_m]
    return _nearest(stock, heavier), _nearest(stock, lighter)


def _nearest(stock: Stock, some: Sequence[Stock]) -> Stock | None:
    def apart(one: Stock) -> tuple[bool, float]:
        return not _same_outside(one, stock), abs(one.mass_per_m - stock.mass_per_m)

    return min(some, key=apart, default=None)


def _same_outside(one: Stock, other: Stock) -> bool:
    sizes = [{k: v for k, v in s.section.dimensions.items() if k not in ("wall", "thickness")} for s in (one, other)]
    mine, theirs = sizes
    return mine.keys() == theirs.keys() and all(abs(mine[k] - theirs[k]) < SAME or k == "id" for k in mine)


def _stock_setting(root: Mapped, name: str, words: str) -> Setting:
    entry = root["stock"][name]
    return Setting(("stock", name, "section") if isinstance(entry, Mapped) else ("stock", name), words)


def _counts(root: Mapped, job: Job) -> Iterator[Offer]:
    """One less of what a dim counts copies of."""
    counting = set(_counting(root.get("parts")))
    for name, dim in job.dims.items():
        if name in counting and not dim.is_length and float(dim.value).is_integer() and dim.value >= FEW:
            fewer = int(dim.value) - 1
            told = name.replace("_", " ")
            yield f"{told}: {fewer} instead of {int(dim.value)}", (Setting(("dims", name), str(fewer)),)


def _counting(node: Node | None, key: str = "") -> Iterator[str]:
    """The texts that stand as a count anywhere under a node."""
    if isinstance(node, Written):
        if key == "count":
            yield node.text.strip()
    elif isinstance(node, Mapped):
        for name, inner in node.items():
            yield from _counting(inner, name)
    elif node is not None:
        for inner in node:
            yield from _counting(inner)


def _woods(root: Mapped, job: Job) -> Iterator[Offer]:
    """All timber in another wood."""
    timber = [
        name for name in dict.fromkeys(_stock_names(job))
        if name in job.stock and job.stock[name].material.kind in WOODS
    ]  # fmt: skip
    if not timber:
        return
    other = _table()["timber"][job.stock[timber[0]].material.kind]
    changes = [_in_wood(root, job.stock[name], name, other) for name in timber]
    settings = tuple(setting for setting in changes if setting is not None)
    if settings:
        kind = next(one.kind for one in materials() if one.name == other)
        yield f"{kind}: all timber in {other}", settings


def _stock_names(job: Job) -> Iterator[str]:
    for part in job.parts:
        if isinstance(part, MemberSpec | PanelSpec):
            yield part.stock.key
        if isinstance(part, PanelSpec) and part.battens is not None:
            yield part.battens.stock.key


def _in_wood(root: Mapped, stock: Stock, name: str, other: str) -> Setting | None:
    entry = root["stock"][name]
    if isinstance(entry, Mapped):
        return Setting(("stock", name, "grade"), other) if "grade" in entry else None
    words = stock.label.replace(stock.material.name, other)
    return Setting(("stock", name), words) if words != stock.label else None


def _finishes(root: Mapped, job: Job) -> Iterator[Offer]:
    """Other finishes of what the job finishes."""
    for row in _table()["finish"]:
        how = job.finish.get(row["material"])
        if how is not None and row["known_by"] not in how.lower():
            yield row["words"], (Setting(("finish", row["material"]), row["how"]),)
