"""The smallest van in which something holds: what shows a finding to a person."""

from collections.abc import Sequence
from dataclasses import dataclass

from generator.model.catalogue import Catalogue
from generator.prove.logic import Clauses
from generator.prove.space import AXLES, Space, space


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallVan:
    """The least that makes up a van: its kinds, the optional points it has, its market and axles."""

    kinds: tuple[tuple[str, str], ...]
    points: tuple[tuple[str, str, str], ...]
    market: str
    axles: int


def smallest(space: Space[int], solver: Clauses, wanted: Sequence[int]) -> SmallVan | None:
    """Return the smallest van that can be ordered in which all of ``wanted`` hold, or None."""
    optional = [(key, formula) for key, formula in space.points.items() if formula != space.kinds[key[0], key[1]]]
    few = [*space.kinds.values(), *(formula for _, formula in optional), *space.choices.values()]
    model = solver.smallest(wanted, few)
    if model is None:
        return None
    return SmallVan(
        kinds=tuple(key for key, formula in space.kinds.items() if formula in model),
        points=tuple(key for key, formula in optional if formula in model),
        market=next(
            trait.removeprefix("market-")
            for trait, formula in space.choices.items()
            if trait not in AXLES and formula in model
        ),
        axles=2 if space.choices["twin-axle"] in model else 1,
    )


def complete(
    catalogue: Catalogue, markets: Sequence[str], kinds: Sequence[tuple[str, str]], market: str, axles: int
) -> SmallVan | None:
    """Return the smallest van with all of ``kinds`` that can be ordered in a market, or None."""
    solver = Clauses()
    vans = space(catalogue, markets, solver)
    solver.require(vans.allowed)
    wanted = [*(vans.kinds[key] for key in kinds), vans.choices[f"market-{market}"], vans.choices[AXLES[axles - 1]]]
    return smallest(vans, solver, wanted)
