"""A small set of vans in which every two kinds that may meet do meet."""

from collections.abc import Sequence
from itertools import combinations

from generator.model.catalogue import Catalogue
from generator.prove.logic import Clauses
from generator.prove.small_van import SmallVan
from generator.prove.space import AXLES, Space, space


def sample(catalogue: Catalogue, markets: Sequence[str]) -> list[SmallVan]:
    """Return vans that together hold every pair of kinds, markets and axle counts that may meet.

    Greedy: each van starts from the first pair not met yet and takes in as many more as it can, so the
    set is small but not the smallest; the same catalogue gives the same vans.
    """
    solver = Clauses()
    vans = space(catalogue, markets, solver)
    solver.require(vans.allowed)
    items = [*vans.kinds.values(), *vans.choices.values()]
    open_pairs = dict.fromkeys(pair for pair in combinations(items, 2) if solver.model(*pair) is not None)
    found = []
    while open_pairs:
        held = _fill_up(solver, next(iter(open_pairs)), items, open_pairs)
        model = solver.model(*held) or frozenset()
        for pair in list(open_pairs):
            if model.issuperset(pair):
                del open_pairs[pair]
        found.append(_as_van(vans, model))
    return found


def _fill_up(
    solver: Clauses, start: tuple[int, int], items: Sequence[int], open_pairs: dict[tuple[int, int], None]
) -> list[int]:
    held = list(start)
    wanted = dict.fromkeys(items, 0)
    for pair in open_pairs:
        for item in pair:
            wanted[item] += 1
    for item in sorted(items, key=lambda item: (-wanted[item], item)):
        if item not in held and solver.model(*held, item) is not None:
            held.append(item)
    return held


def _as_van(vans: Space[int], model: frozenset[int]) -> SmallVan:
    optional = [key for key, formula in vans.points.items() if formula != vans.kinds[key[0], key[1]]]
    return SmallVan(
        kinds=tuple(key for key, formula in vans.kinds.items() if formula in model),
        points=tuple(key for key in optional if vans.points[key] in model),
        market=next(
            trait.removeprefix("market-")
            for trait, formula in vans.choices.items()
            if trait not in AXLES and formula in model
        ),
        axles=2 if vans.choices["twin-axle"] in model else 1,
    )
