"""Shape of the section about the price: what a job has of its own."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from fitwright.job.shape.values import MoneyText, Shape, ShareText, Text


class ExtraShape(Shape):
    """Something charged on top."""

    what: Text = Field(description="What it is, as the client reads it.")
    price: MoneyText = Field(description="What it costs you, before overhead and margin.")


class PriceShape(Shape):
    """price: what a job has of its own for its price; the rest comes from the shop."""

    distance: Text | None = Field(None, description="The way to the place, one way, as 14 km or 9 miles.")
    margin: ShareText | None = Field(None, description="Of the price before tax; the shop's own when not given.")
    extras: Annotated[list[ExtraShape], Field(max_length=40)] = Field([], description="What is charged besides.")
    scope: Annotated[list[Text], Field(max_length=20)] = Field([], description="More lines of what is included.")
    excluded: Annotated[list[Text], Field(max_length=20)] = Field([], description="More lines of what is not.")
