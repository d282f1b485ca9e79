"""How a number, a table or a number per place is declared: what it says of itself, and its function.

Collecting, ordering and evaluating them is left to the engine.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Required, TypedDict, Unpack

from generator.compute.inputs import Inputs
from generator.compute.worked import Term
from generator.errors import Fault
from generator.model.caravan import Place
from generator.model.numbers import BarChart, Declared, Verdict, Worked
from generator.units import Quantity, Rounding


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the function of a number found; most return the bare quantity instead.

    ``shown`` replaces the rounded text where a number is more than one quantity; ``source`` the declared
    one where the market decides it. A value that is a term brings its own sum; ``worked`` replaces that where
    there is more than one.
    """

    value: Quantity | Term
    shown: str = ""
    limit: Quantity | None = None
    sentence: str = ""
    verdict: Verdict | None = None
    source: str = ""
    worked: tuple[Worked, ...] = ()
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """What the function of a table found.

    ``head`` replaces the declared one in a van with fewer columns.
    """

    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    head: tuple[str, ...] = ()
    chart: BarChart | None = None
    due: tuple[tuple[date, int] | None, ...] = ()
    worked: tuple[Worked, ...] = ()
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class NumberRecipe:
    """A number: its declaration, and the function that works it out."""

    declared: Declared
    work: Callable[[Inputs], Quantity | Term | Answer]


@dataclass(frozen=True, slots=True)
class TableRecipe:
    """A table: its declaration, and the function that fills it."""

    declared: Declared
    work: Callable[[Inputs], Rows]


@dataclass(frozen=True, slots=True)
class PlacesRecipe:
    """A number of each place; the function returns None where a place has none."""

    declared: Declared
    work: Callable[[Inputs, Place], Answer | None]


Recipe = NumberRecipe | TableRecipe | PlacesRecipe


class Said(TypedDict, total=False):
    """The fields of ``Declared`` that a module writes; see there what they mean."""

    group: Required[str]
    title: Required[str]
    all_of: tuple[str, ...]
    none_of: tuple[str, ...]
    needs: Required[tuple[str, ...]]
    optional: tuple[str, ...]
    uses: tuple[str, ...]
    assumes: tuple[str, ...]
    head: tuple[str, ...]
    unit: str
    rounding: Required[Rounding]
    digits: int
    method: Required[str]
    moves: str
    source: Required[str]


def number(id: str, **said: Unpack[Said]) -> Callable[[Callable[[Inputs], Quantity | Term | Answer]], NumberRecipe]:
    """Declare a number; its function gets ``Inputs`` and returns a quantity, a term or an ``Answer``."""
    return lambda work: NumberRecipe(Declared(id=id, form="number", **said), work)


def table(id: str, **said: Unpack[Said]) -> Callable[[Callable[[Inputs], Rows]], TableRecipe]:
    """Declare a table; its function gets ``Inputs`` and returns ``Rows`` of text."""
    return lambda work: TableRecipe(Declared(id=id, form="table", **said), work)


def places(id: str, **said: Unpack[Said]) -> Callable[[Callable[[Inputs, Place], Answer | None]], PlacesRecipe]:
    """Declare a number of each place; its function gets ``Inputs`` and the place."""
    return lambda work: PlacesRecipe(Declared(id=id, form="places", **said), work)
