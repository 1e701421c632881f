"""Shapes of the sections about the client's side: job and brief."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, Tag

from fitwright.job.shape.values import (
    DateText,
    LengthText,
    LoadText,
    MoneyText,
    NumberText,
    OneOf,
    Shape,
    ShareText,
    Text,
    by_form,
)

CARE = (
    "trim after bending",
    "one stop",
    "match frames",
    "shim",
    "level",
    "fit shelves",
    "check bends",
)
"""What a shop can do about the errors of making; the virtual builds say what each is worth."""


class HeadShape(Shape):
    """job: what the commission is called and how it is measured."""

    name: Text = Field(description="What the piece is called, on every sheet.")
    unit: Annotated[str, OneOf(("inch", "mm", "cm"))] = Field(
        description="What a bare number means, and how lengths print."
    )
    client: Text | None = Field(None, description="Whom it is for.")
    due: DateText | None = Field(None, description="The day it is wanted, as 2026-03-14.")
    fraction: Text | None = Field(None, description="The printed step: 1/16, 1/32 or 1/64 of an inch; 0.5 or 0.1 mm.")
    notes: Text | None = Field(None, description="Anything to be printed on the cover.")


class PushShape(Shape):
    """A push by hand, level, from any side."""

    force: LoadText = Field(description="How hard.")
    height: LengthText = Field(description="How high above the floor.")


class RulesShape(Shape):
    """brief.rules: the job's own limits."""

    safety: NumberText | None = Field(None, description="Yield over stress, at least; 1.67 when not given.")
    tight: ShareText | None = Field(
        None, description="A margin below this share of the limit is tight; 10 % when not given."
    )
    sag: Text | None = Field(None, description="Sag at most span over this: L/240 or 240, which is also the default.")
    clear_tight: LengthText | None = Field(
        None, description="A gap within this of the one wanted is tight; 1/8 in or 3 mm."
    )
    chance: ShareText | None = Field(
        None, description="How likely it has to fit, stand flat and take its shelves as made; 95 % when not given."
    )
    rock: LengthText | None = Field(None, description="A foot may be this far off the floor; 1/32 in or 1 mm.")
    care: list[Annotated[str, OneOf(CARE)]] = Field(
        [], description="What is done while making, so that it comes out right."
    )


class RollsOverShape(Shape):
    """brief.rolls_over: what the casters have to cross."""

    threshold: LengthText | None = Field(None, description="A step up, its height; 0 where there is none.")
    gap: LengthText | None = Field(None, description="A joint or grate, its width along the way.")


Load = Annotated[
    Annotated[LoadText, Tag("<value>")] | Annotated[PushShape, Tag("<mapping>")],
    by_form("a load such as 40 kg, or a push such as {force: 80 N, height: 900 mm}"),
]
Cautions = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[list[Text], Tag("<list>")],
    by_form("one word, or a list such as [floor, heat]"),
]


class BriefShape(Shape):
    """brief: what the piece is for and what it has to stand."""

    use: Text | None = Field(None, description="What the piece is for.")
    loads: dict[str, Load] = Field(
        {},
        description="By part name, the load spread over each copy; push: {force, height} for a push from the side.",
    )
    rules: RulesShape | None = Field(None, description="The job's own limits, where the usual ones do not do.")
    budget: MoneyText | None = Field(None, description="What the client will spend.")
    rolls_over: RollsOverShape | None = Field(None, description="What its casters have to cross.")
    cautions: Cautions | None = Field(
        None, description="Words for cautions that apply, such as food, floor, heat, children."
    )
