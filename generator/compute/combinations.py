"""Which sets of appliances, each at one of its steps, stay within a power.

Which supply that is, and how it is told to a reader, is left to ``mains``.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product
from math import prod

_MOST_ROWS = 12
_MOST_SETS = 5_000  # sets looked at; with more, the smallest appliances count as one
_NOISE_W = 1e-6


@dataclass(frozen=True, slots=True)
class Load:
    """An appliance and the power of each of its steps, rising; one step at least."""

    name: str
    steps_w: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Chosen:
    """A set: each load with the power of its step, in the order of the loads; those that are off are left out."""

    parts: tuple[tuple[Load, float], ...]

    @property
    def power_w(self) -> float:
        """Power of the whole set."""
        return sum(power for _, power in self.parts)

    def shown(self) -> str:
        """Return the set for a reader: "Fridge 125 W + Room heater 1000 W"."""
        return " + ".join(f"{load.name} {power:g} W" for load, power in self.parts) or "None of them"

    def full(self, loads: Iterable[Load]) -> bool:
        """Return whether every one of ``loads`` runs at its highest step."""
        return self.power_w >= sum(load.steps_w[-1] for load in loads) - _NOISE_W

    def without(self, load: Load) -> bool:
        """Return whether ``load`` is off."""
        return all(part != load for part, _ in self.parts)


def fitting(loads: tuple[Load, ...], limit_w: float) -> list[Chosen]:
    """Return the sets within ``limit_w`` to which no load and no higher step can be added.

    The sets with most appliances come first, among them those with most power.
    """
    loads = _folded(loads)
    options = [(0.0, *load.steps_w) for load in loads]
    found = [
        steps for steps in product(*(range(len(option)) for option in options)) if _largest(steps, options, limit_w)
    ]
    sets = [_chosen(loads, options, steps) for steps in found]
    return sorted(sets, key=lambda each: (-len(each.parts), -each.power_w, each.shown()))


def most(sets: list[Chosen]) -> list[Chosen]:
    """Return as many of ``sets`` as a reader can take in, the first ones."""
    return sets[:_MOST_ROWS]


def _largest(steps: tuple[int, ...], options: list[tuple[float, ...]], limit_w: float) -> bool:
    """Return whether ``steps`` fit and no single one can go up."""
    together = sum(option[step] for option, step in zip(options, steps, strict=True))
    if together > limit_w + _NOISE_W:
        return False
    rises = (
        option[step + 1] - option[step] for option, step in zip(options, steps, strict=True) if step + 1 < len(option)
    )
    return all(together + rise > limit_w + _NOISE_W for rise in rises)


def _chosen(loads: tuple[Load, ...], options: list[tuple[float, ...]], steps: tuple[int, ...]) -> Chosen:
    parts = zip(loads, options, steps, strict=True)
    return Chosen(tuple((load, option[step]) for load, option, step in parts if step))


def _folded(loads: tuple[Load, ...]) -> tuple[Load, ...]:
    """Return ``loads`` with the smallest taken together where there are very many.

    Counting every set of thirty appliances would take years, and no reader wants the list.
    """
    single = sorted(loads, key=lambda load: -load.steps_w[-1])
    small: list[Load] = []
    while len(single) > 1 and prod(len(load.steps_w) + 1 for load in single) > _MOST_SETS:
        small.append(single.pop())
    if len(small) < 2:
        return loads
    names = ", ".join(load.name.lower() for load in small)
    together = Load(f"All of {names}", (sum(load.steps_w[-1] for load in small),))
    return (*(load for load in loads if load in single), together)
