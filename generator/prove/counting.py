"""How many different vans the catalogue allows, counted exactly on a decision diagram."""

from collections.abc import Sequence

from generator.model.catalogue import Catalogue
from generator.prove.logic import Diagrams
from generator.prove.space import space


def count_vans(catalogue: Catalogue, markets: Sequence[str]) -> int:
    """Return the number of vans that can be ordered.

    Two vans differ where a slot holds another kind, an optional point is there or not, or market or
    axles differ; values such as masses do not count.
    """
    diagrams = Diagrams()
    return diagrams.count(space(catalogue, markets, diagrams).allowed)
