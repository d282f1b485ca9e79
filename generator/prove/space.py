"""The vans a catalogue allows, as formulas: which kinds may meet, and what every trait means.

What must hold of them is left to ``statements``.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Generic, TypeVar

from generator.model.blocks import Guard
from generator.model.catalogue import Catalogue, Condition
from generator.prove.logic import Algebra

F = TypeVar("F")
AXLES = ("single-axle", "twin-axle")


@dataclass(frozen=True, slots=True)
class Space(Generic[F]):
    """Formulas over the vans that can be ordered.

    ``kinds`` by (slot, kind), ``points`` by (slot, kind, point) hold where the van has them; ``choices``
    are the market and axle variables by trait; ``allowed`` holds for every van the rules let through.
    """

    algebra: Algebra[F]
    catalogue: Catalogue
    kinds: Mapping[tuple[str, str], F]
    points: Mapping[tuple[str, str, str], F]
    choices: Mapping[str, F]
    traits: Mapping[str, F]
    allowed: F

    def where(self, all_of: Iterable[str], none_of: Iterable[str] = ()) -> F:
        """Return the formula of vans with all of the first traits and none of the second."""
        holding = [self.traits[trait] for trait in all_of]
        absent = [self.algebra.negate(self.traits[trait]) for trait in none_of]
        return self.algebra.both([*holding, *absent])

    def condition(self, condition: Condition) -> F:
        """Return the formula of the vans that a block applies to."""
        return self.where([trait.value for trait in condition.all], [trait.value for trait in condition.none])

    def guard(self, guard: Guard | None) -> F:
        """Return the formula of the vans a guard lets through; no guard lets all."""
        return self.where(guard.all, guard.none) if guard else self.algebra.both([])

    def of_slot(self, slot: str) -> Iterator[tuple[tuple[str, str], F]]:
        """Yield the kinds of a slot with their formulas."""
        return ((key, formula) for key, formula in self.kinds.items() if key[0] == slot)


def space(catalogue: Catalogue, markets: Sequence[str], algebra: Algebra[F]) -> Space[F]:
    """Return the space of all vans of ``catalogue`` in any of ``markets``.

    Args:
        catalogue: Slots, kinds, rules and derived traits.
        markets: Market ids; each van has exactly one, as it has one axle or two.
        algebra: Where the formulas are built.
    """
    choices = {name: algebra.atom(name) for name in (*(f"market-{market}" for market in markets), *AXLES)}
    kinds = {key: algebra.atom(f"{key[0]}/{key[1]}") for key in _ordered(catalogue)}
    points = {
        (*key, point): algebra.atom(f"{key[0]}/{key[1]}.{point}") if need == "optional" else kinds[key]
        for key in kinds
        for point, need in catalogue.kinds[key].points.items()
    }
    traits = _traits(catalogue, kinds, choices, algebra)
    optional = [
        algebra.either([algebra.negate(formula), kinds[slot, kind]])
        for (slot, kind, point), formula in points.items()
        if catalogue.kinds[slot, kind].points[point] == "optional"
    ]
    market_variables = [choices[f"market-{market}"] for market in markets]
    allowed = algebra.both(
        [
            *optional,
            *_slots(catalogue, kinds, algebra),
            _exactly_one(market_variables, algebra),
            _exactly_one([choices[name] for name in AXLES], algebra),
            *_rules(catalogue, traits, algebra),
        ]
    )
    return Space(algebra, catalogue, kinds, points, choices, traits, allowed)


def _ordered(catalogue: Catalogue) -> list[tuple[str, str]]:
    order = {slot: place for place, slot in enumerate(catalogue.slots)}
    return sorted(catalogue.kinds, key=lambda key: (order[key[0]], key[1]))


def _traits(
    catalogue: Catalogue, kinds: Mapping[tuple[str, str], F], choices: Mapping[str, F], algebra: Algebra[F]
) -> dict[str, F]:
    sources: dict[str, list[F]] = {slot.trait: [] for slot in catalogue.slots.values()}
    for key, formula in kinds.items():
        kind = catalogue.kinds[key]
        filled = [key[0], *(slot.value for slot in kind.also_fills)]
        for trait in [*(catalogue.slots[slot].trait for slot in filled), *(trait.value for trait in kind.traits)]:
            sources.setdefault(trait, []).append(formula)
    traits = {trait: algebra.either(formulas) for trait, formulas in sources.items()} | dict(choices)
    for derived in catalogue.derived:
        parts = [traits[trait.value] for trait in derived.all]
        parts += [algebra.negate(traits[trait.value]) for trait in derived.none]
        if derived.any:
            parts.append(algebra.either(traits[trait.value] for trait in derived.any))
        traits[derived.id] = algebra.both(parts)
    return traits


def _slots(catalogue: Catalogue, kinds: Mapping[tuple[str, str], F], algebra: Algebra[F]) -> Iterator[F]:
    for slot in catalogue.slots.values():
        fillers = [
            formula
            for key, formula in kinds.items()
            if key[0] == slot.id or slot.id in [other.value for other in catalogue.kinds[key].also_fills]
        ]
        if not slot.many:
            yield from (algebra.negate(algebra.both(pair)) for pair in combinations(fillers, 2))
        if slot.required:
            yield algebra.either(fillers)


def _exactly_one(variables: Sequence[F], algebra: Algebra[F]) -> F:
    clashes = [algebra.negate(algebra.both(pair)) for pair in combinations(variables, 2)]
    return algebra.both([algebra.either(variables), *clashes])


def _rules(catalogue: Catalogue, traits: Mapping[str, F], algebra: Algebra[F]) -> Iterator[F]:
    for rule in catalogue.rules:
        met = [algebra.negate(traits[trait.value]) for trait in rule.when]
        for needed in rule.need:
            yield algebra.either([*met, traits[needed.value]])
        for excluded in rule.exclude:
            yield algebra.either([*met, algebra.negate(traits[excluded.value])])
