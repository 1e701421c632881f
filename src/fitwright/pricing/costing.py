"""What a job costs in a shop, line by line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitwright.job.model import Job
from fitwright.making.cutting import CuttingPlan
from fitwright.making.finishing import FinishWork
from fitwright.making.plan import Step
from fitwright.making.welding import WeldPlan
from fitwright.mechanics.variation import VirtualBuilds
from fitwright.pricing.buying import Bought
from fitwright.pricing.consuming import add_finish, add_wear, add_welding
from fitwright.pricing.labour import add_hours
from fitwright.pricing.material import Lines, add_bars, add_goods
from fitwright.pricing.model import Cost, Group, Kind
from fitwright.pricing.rework import add_rework
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt
from fitwright.stock import Stock

THERE_AND_BACK = 2


@dataclass(frozen=True, eq=False)
class Worked:
    """What has been worked out of a job that costs something."""

    plans: Mapping[str, CuttingPlan]
    stocks: Mapping[str, Stock]
    buying: Sequence[Bought]
    welding: WeldPlan | None
    finishing: FinishWork
    steps: tuple[Step, ...]
    builds: VirtualBuilds | None
    steel_kg: float
    learnt: Learnt | None = None


def cost_of(worked: Worked, job: Job, shop: Shop) -> Cost:
    """What the job costs the shop; every line is rounded to the shop's coin, and the cost is the sum of its lines.

    A price that is not given is `missing` and not in the sum.
    Holds for one piece made once.
    """
    found = Lines(shop)
    add_bars(found, worked.plans, worked.stocks, job.style)
    add_goods(found, worked.buying, worked.plans)
    add_welding(found, worked.welding)
    add_wear(found, worked.plans, worked.steps)
    add_finish(found, worked.finishing, worked.steel_kg)
    labour = add_hours(found, worked.steps, worked.learnt)
    _add_delivery(found, job)
    for extra in job.price.extras:
        found.add(Kind.EXTRAS, Group.EXTRAS, extra.what, "", extra.price, "job file: price")
    add_rework(found, worked.builds, worked.steps)
    _add_overhead(found)
    overhead = shop.prices.pricing.overhead
    return Cost(
        shop.currency, tuple(found.lines), tuple(found.missing), labour.hours, labour.money, labour.unsure, overhead
    )  # fmt: skip


def _add_delivery(found: Lines, job: Job) -> None:
    delivery = found.shop.prices.delivery
    way = delivery.way(job.price.distance_km)
    amount = delivery.each + delivery.per_distance * way * THERE_AND_BACK
    told = f"{way:.1f} {delivery.unit} there, and back"
    usual = "" if job.price.distance_km is not None else "; the shop's usual way, the job says none"
    found.add(Kind.DELIVERY, Group.DELIVERY, "the way", told, amount, f"shop file: delivery{usual}")


def _add_overhead(found: Lines) -> None:
    rate = found.shop.prices.pricing.overhead
    direct = sum((line.amount for line in found.lines), Decimal(0))
    if rate:
        told = f"{(100 * rate).normalize():f} % of {direct:.2f}"
        found.add(Kind.OVERHEAD, Group.WORK, "overhead", told, direct * rate, "shop file: pricing")
