"""What the entries of a shop file are made of: lengths as makers write them, money, names."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo, model_validator
from pydantic_core import PydanticCustomError

from fitwright.errors import FitwrightError
from fitwright.units import parse_length

LONGEST_MM = 100_000.0


def _length(value: Any, info: ValidationInfo) -> Any:
    try:
        return parse_length(value, unit_of(info))
    except FitwrightError as wrong:
        raise PydanticCustomError("length", "{message}", {"message": str(wrong)}) from None


def unit_of(info: ValidationInfo) -> str:
    """The unit of bare numbers."""
    return str((info.context or {}).get("unit", "mm"))


def one_of(words: tuple[str, ...]) -> Any:
    """A word of a list, else a mistake that offers the list."""

    def known(value: Any) -> Any:
        if value not in words:
            raise PydanticCustomError("unknown_word", "is not known", {"accepted": words})
        return value

    return BeforeValidator(known)


Length = Annotated[float, BeforeValidator(_length), Field(ge=0, le=LONGEST_MM)]
Size = Annotated[float, BeforeValidator(_length), Field(gt=0, le=LONGEST_MM)]
Offset = Annotated[float, BeforeValidator(_length), Field(ge=-LONGEST_MM, le=LONGEST_MM)]
Money = Annotated[Decimal, Field(ge=0, le=Decimal(10_000_000), allow_inf_nan=False)]
Name = Annotated[str, Field(min_length=1, max_length=80)]
Count = Annotated[int, Field(ge=1, le=1000)]


class Entry(BaseModel):
    """A map whose names may be written with spaces; a name that is not known is a mistake."""

    model_config = ConfigDict(extra="forbid")

    @model_validator(mode="before")
    @classmethod
    def _names(cls, value: Any) -> Any:
        if not isinstance(value, dict):
            return value
        return {name.strip().replace(" ", "_"): held for name, held in value.items()}
