"""The single values of a job file: what an editor is told of each, and words from a fixed set."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Discriminator, GetCoreSchemaHandler, GetJsonSchemaHandler, WithJsonSchema
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from fitwright.job.mistakes import excerpt, nearest
from fitwright.job.written import Listed, Mapped, Written, as_written


class Shape(BaseModel):
    """A mapping of the job file; a key that it does not know is a mistake."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


def _told(*types: str, **more: Any) -> WithJsonSchema:
    return WithJsonSchema({"type": list(types) if len(types) > 1 else types[0], **more})


Text = Annotated[Written, _told("string", "number")]
LengthText = Annotated[
    Written,
    _told("string", "number", examples=["31 1/2", '9 3/8"', "238.1 mm", "width - 2 * frame.od"], title="length"),
]
NumberText = Annotated[Written, _told("string", "number", examples=["4", "1.67", "shelves"], title="number")]
CountText = Annotated[Written, _told("string", "integer", examples=[4, "shelves"], title="whole number")]
ShareText = Annotated[Written, _told("string", "number", examples=["10 %", "1/2", 0.1], title="share of one")]
LoadText = Annotated[Written, _told("string", "number", examples=["40 lb", "250 N", "25 kg"], title="load")]
MassText = Annotated[Written, _told("string", "number", examples=["1 lb 4 oz", "0.6 kg"], title="mass")]
MoneyText = Annotated[Written, _told("string", "number", examples=["450", "12.50"], title="money")]
DateText = Annotated[Written, _told("string", format="date", examples=["2026-03-14"], title="date")]
StockName = Annotated[Written, _told("string", examples=["frame"], title="short name under stock")]
PartName = Annotated[Written, _told("string", examples=["hoop"], title="name of a part")]

DIRECTION_WORDS = ("left", "right", "front", "back", "up", "down", "x", "-x", "+x", "y", "-y", "+y", "z", "-z", "+z")


@dataclass(frozen=True)
class OneOf:
    """A word from a fixed set; a wrong one is told with the set and the nearest right word."""

    words: tuple[str, ...]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"enum": list(self.words)}

    def check(self, value: object) -> str:
        """The word; raises PydanticCustomError."""
        word = as_written(value).text.strip().lower()
        if word in self.words:
            return word
        raise PydanticCustomError(
            "wrong_word",
            "{said} is not a word for this",
            {"said": excerpt(word), "accepted": self.words, "nearest": nearest(word, self.words)},
        )


SWITCH_WORDS = {"true": True, "yes": True, "on": True, "false": False, "no": False, "off": False}


class _Switch:
    """Yes or no."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": "boolean"}

    def check(self, value: object) -> bool:
        """True or False; raises PydanticCustomError."""
        word = as_written(value).text.lower()
        if word in SWITCH_WORDS:
            return SWITCH_WORDS[word]
        raise PydanticCustomError(
            "wrong_word", "{said} is neither yes nor no", {"said": excerpt(word), "accepted": ("true", "false")}
        )


Switch = Annotated[bool, _Switch()]
Axis = Annotated[str, OneOf(("x", "y", "z"))]


def form_of(value: object) -> str | None:
    """Which form a value has, for keys that may be written in several; what pydantic picks a branch by."""
    if isinstance(value, Mapped):
        return "<mapping>"
    return "<list>" if isinstance(value, Listed) else "<value>"


def by_form(accepted: str) -> Discriminator:
    """Picks a branch by the form of what is written; accepted: the forms there are, told where it has none of them."""
    return Discriminator(form_of, custom_error_type="wrong_form", custom_error_message=accepted)


@dataclass(frozen=True)
class _Direction:
    """A word such as left or -z, or a vector of three numbers; kept as written, worked out later."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        vector = {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 3, "maxItems": 3}
        return {"title": "direction", "anyOf": [{"enum": list(DIRECTION_WORDS)}, vector]}

    def check(self, value: object) -> Written | Listed:
        """The word, known to be one, or the list of three; raises PydanticCustomError."""
        if isinstance(value, Listed):
            if len(value) != 3 or not all(isinstance(item, Written) for item in value):
                raise PydanticCustomError("direction", "a direction as a list is three numbers: x, y, z")
            return value
        word = as_written(value).text.strip().lower()
        if word not in DIRECTION_WORDS:
            raise PydanticCustomError(
                "wrong_word",
                "{said} is not a direction",
                {
                    "said": excerpt(word),
                    "accepted": (*DIRECTION_WORDS[:6], "a list of three numbers"),
                    "nearest": nearest(word, DIRECTION_WORDS),
                },
            )
        return as_written(value)


Direction = Annotated[Written | Listed, _Direction()]


@dataclass(frozen=True)
class Fixed:
    """A list of exactly so many values."""

    size: int
    what: str

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_before_validator_function(self.check, handler(source))

    def check(self, value: object) -> object:
        """The value, when it is a list of the right size."""
        if isinstance(value, Listed) and len(value) == self.size:
            return value
        raise PydanticCustomError(
            "wrong_size", "{what} belongs here: a list of {size}", {"what": self.what, "size": self.size}
        )


Point = Annotated[list[LengthText], Fixed(3, "a point [x, y, z]")]
PointOnPlan = Annotated[list[LengthText], Fixed(2, "a point on plan [x, y]")]
