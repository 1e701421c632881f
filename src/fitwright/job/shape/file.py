"""The shape of the whole file, and the JSON Schema by which an editor completes it."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field, Tag

from fitwright.job.shape.head import BriefShape, HeadShape
from fitwright.job.shape.making import ProgressShape, SubassemblyShape
from fitwright.job.shape.parts import PartShape
from fitwright.job.shape.photo import PhotoShape
from fitwright.job.shape.price import PriceShape
from fitwright.job.shape.readings import ReadingShape
from fitwright.job.shape.space import SpaceShape
from fitwright.job.shape.values import LengthText, OneOf, PartName, Shape, StockName, Text, by_form

JOINT_WORDS = ("mitre", "through", "butt", "bolted", "lap", "cross", "none")


class GradedShape(Shape):
    """Stock with its grade said."""

    section: Text = Field(description="The section, such as round tube 1 1/8 x 14 ga.")
    grade: Text | None = Field(None, description="The material, such as stainless 304 or white oak.")


StockEntry = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[GradedShape, Tag("<mapping>")],
    by_form("words such as round tube 32 x 2, or {section: lumber 1x4, grade: white pine}"),
]


class JointShape(Shape):
    """An override of how two parts meet."""

    between: Annotated[list[PartName], Field(min_length=2, max_length=2)] = Field(
        description="The names of the two parts."
    )
    how: Annotated[str, OneOf(JOINT_WORDS)] = Field(
        description="through: the first runs through and the second is trimmed to it; none: they do not meet."
    )
    sleeve: StockName | None = Field(None, description="The stock of a sleeve inside.")
    length: LengthText | None = Field(None, description="Length of the sleeve.")


class FileShape(Shape):
    """A job file."""

    job: HeadShape = Field(description="Name, client and unit.")
    brief: BriefShape | None = Field(None, description="What the piece is for, and what it has to stand.")
    space: SpaceShape | None = Field(None, description="The surveyed place.")
    dims: dict[str, LengthText] = Field(
        {}, description="Named dimensions: lengths, numbers, or arithmetic on other dims."
    )
    stock: dict[str, StockEntry] = Field(description="Short names for the sections and materials of the piece.")
    parts: dict[str, PartShape] = Field(description="The parts of the piece, by name.")
    joints: list[JointShape] = Field(
        [], description="Only where the joints found from the geometry are not the ones wanted."
    )
    finish: dict[str, Text] = Field({}, description="By material, such as steel and timber: how it is finished.")
    photo: PhotoShape | None = Field(None, description="The reference photo and the marks on it.")
    price: PriceShape | None = Field(None, description="What this job has of its own for its price.")
    readings: list[ReadingShape] = Field([], description="Measurements taken on the real parts while building.")
    subassemblies: dict[str, SubassemblyShape] = Field(
        {}, description="Set-ups on the bench, in order, where those found are not the ones wanted."
    )
    progress: list[ProgressShape] = Field([], description="Steps of the build that are done, and the hours they took.")


def job_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a job file, with a description of every key."""
    schema = FileShape.model_json_schema(by_alias=True)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": "Fitwright job file",
    }
