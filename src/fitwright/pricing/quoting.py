"""The quote as the client reads it: what is made, what it costs, what is not part of it, how to look after it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from fitwright.job.model import Job
from fitwright.piece import Piece
from fitwright.pricing.errors import PricingError
from fitwright.pricing.model import Cost
from fitwright.pricing.price import Price
from fitwright.pricing.sharing import shared
from fitwright.shop import Pricing, Shop


class PriceMissing(PricingError, LookupError):
    """A quote that lacks a price: it would say too little."""


@dataclass(frozen=True)
class Quote:
    """A quote.

    lines: what the client pays for, before tax; they add up to the price. tax: its name and rate.
    """

    shop: str
    client: str
    piece: str
    currency: str
    made_on: date
    valid_until: date
    scope: tuple[str, ...]
    lines: tuple[tuple[str, Decimal], ...]
    price: Price
    tax: tuple[str, Decimal]
    excluded: tuple[str, ...]
    care: tuple[str, ...]
    terms: tuple[str, ...]


def quote_of(cost: Cost, price: Price, job: Job, shop: Shop, piece: Piece, made_on: date) -> Quote:
    """The quote for a job at a price; each line has its part of overhead, rework and margin.

    Raises PriceMissing with every price that is not known.
    """
    if cost.missing:
        told = "; ".join(f"{one.what} ({one.where})" for one in cost.missing)
        raise PriceMissing(f"a quote cannot be made without these prices: {told}")
    terms, pricing = shop.prices.terms, shop.prices.pricing
    return Quote(
        shop=shop.name,
        client=job.client,
        piece=job.name,
        currency=cost.currency,
        made_on=made_on,
        valid_until=made_on + timedelta(days=terms.valid_days),
        scope=(*scope_of(job, piece), *job.price.scope),
        lines=client_lines(cost, price, pricing),
        price=price,
        tax=(pricing.tax_name, pricing.tax),
        excluded=(*job.price.excluded, *terms.excluded),
        care=tuple(words for word, words in terms.care.items() if _has(word, job, piece)),
        terms=terms.lines,
    )


def client_lines(cost: Cost, price: Price, pricing: Pricing) -> tuple[tuple[str, Decimal], ...]:
    """The price before tax shared out over the groups of cost, exactly."""
    groups = {group: amount for group, amount in cost.by_group.items() if amount > 0}
    if not groups:
        return (("the piece", price.net),) if price.net else ()
    coin = pricing.smallest
    if price.net % coin:
        coin = Decimal(1).scaleb(int(price.net.as_tuple().exponent))
    shares = shared(price.net, list(groups.values()), coin)
    return tuple((str(group), share) for group, share in zip(groups, shares, strict=True))


def scope_of(job: Job, piece: Piece) -> Iterator[str]:
    """What is made, in a few lines, from the piece itself."""
    style = job.style
    width, depth, height = (style.length(float(side)) for side in piece.envelope.high - piece.envelope.low)
    yield f"{job.name}: {width} wide, {depth} deep and {height} high over all, about {style.weight(piece.mass)}."
    frame = list(dict.fromkeys(member.stock.label for member in piece.members if member.sleeve_of is None))
    if frame:
        yield f"Frame of {_listed(frame)}."
    for part in dict.fromkeys(panel.part for panel in piece.panels):
        yield _panels(part, piece)
    stands = {item.label: 0 for item in piece.hardware if item.kind in ("caster", "foot")}
    for item in piece.hardware:
        if item.label in stands:
            stands[item.label] += item.each
    for label, count in stands.items():
        yield f"On {count} × {label}."
    for what, how in job.finish.items():
        yield f"Finish of the {what}: {how.split(';')[0].strip()}."
    yield "Made, finished, delivered and set in its place."


def _panels(part: str, piece: Piece) -> str:
    panels = [panel for panel in piece.panels if panel.part == part]
    lifts = ", lifting out" if panels[0].removable is not None else ""
    count = f"{len(panels)} × " if len(panels) > 1 else ""
    told = f"{count}{part} of {panels[0].stock.material.name}{lifts}."
    return told[0].upper() + told[1:]


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _has(word: str, job: Job, piece: Piece) -> bool:
    """Whether the piece has what a line of care is about, by its material, its finish or its parts."""
    wanted = word.lower().rstrip("s")
    materials = [member.stock.material for member in piece.members] + [panel.stock.material for panel in piece.panels]
    timber = any(one.is_timber for one in materials)
    said = [*(one.kind for one in materials), *(item.kind for item in piece.hardware), *job.finish.values()]
    said += [part.name for part in job.parts]
    return (wanted == "timber" and timber) or any(wanted in one.lower() for one in said)
