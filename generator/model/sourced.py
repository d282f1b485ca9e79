"""Values together with where they were written and where they come from."""

from dataclasses import dataclass
from enum import Enum
from typing import Annotated, Generic, TypeVar

from generator.errors import Source
from generator.units import Quantity

T = TypeVar("T")


class Unknown(Enum):
    """The value "not known", written ``unknown``: a number that needs it says what to read."""

    UNKNOWN = "unknown"


UNKNOWN = Unknown.UNKNOWN


class Origin(Enum):
    """Who vouches for a value."""

    PLATE = "plate"  # the build sheet: plates and type labels of this van
    MEASURED = "measured"  # weighed or measured on this very van
    CATALOGUE = "catalogue"  # the file of the kind
    MARKET = "market"
    ASSUMPTION = "assumption"


@dataclass(frozen=True, slots=True)
class Given(Generic[T]):
    """A value an author wrote, with its position, for the stages that may refuse it."""

    value: T
    source: Source


@dataclass(frozen=True, slots=True)
class Unit:
    """Marks a field read by ``load`` as a quantity convertible to ``name``, or ``unknown``."""

    name: str


Mass = Annotated[Given[Quantity | Unknown], Unit("kg")]
Length = Annotated[Given[Quantity | Unknown], Unit("m")]
Pressure = Annotated[Given[Quantity | Unknown], Unit("bar")]
Torque = Annotated[Given[Quantity | Unknown], Unit("N*m")]
Force = Annotated[Given[Quantity | Unknown], Unit("kN")]
Area = Annotated[Given[Quantity | Unknown], Unit("mm2")]
Current = Annotated[Given[Quantity | Unknown], Unit("A")]
Duration = Annotated[Given[Quantity], Unit("min")]


@dataclass(frozen=True, slots=True)
class Fact:
    """One input a number may use: a quantity, count or word, with its origin and position."""

    value: Quantity | int | str | Unknown
    origin: Origin
    source: Source
