"""Traits of a van with their reasons, and the rules between them."""

from collections.abc import Iterable, Mapping

from generator.errors import Source
from generator.model.caravan import Equipment, Trait
from generator.model.catalogue import Catalogue, DerivedTrait, Rule
from generator.model.sourced import Fact
from generator.model.specs import Spec
from generator.resolve.faults import KINDS, Faults

_GIVING = ("fitted", KINDS, "market", "axles")  # what traits come from


class Traits:
    """Traits as they are found, each with its reason and the place in a file that brought it."""

    def __init__(self) -> None:
        self.found: dict[str, Trait] = {}
        self.sources: dict[str, Source] = {}

    def add(self, name: str, reason: str, source: Source) -> None:
        """Add a trait; the first reason stands."""
        self.found.setdefault(name, Trait(id=name, reason=reason))
        self.sources.setdefault(name, source)


def read_traits(spec: Spec, equipment: Iterable[Equipment], facts: Mapping[str, Fact], catalogue: Catalogue) -> Traits:
    """Return all traits of a van.

    Args:
        spec: The merged build sheet.
        equipment: What is fitted.
        facts: Facts by path, for the number of axles.
        catalogue: Derived traits.
    """
    traits = Traits()
    for item in equipment:
        _add_equipment(item, catalogue, traits)
    if spec.market:
        traits.add(f"market-{spec.market.value}", f"market: {spec.market.value}", spec.market.source)
    axles = facts["axles"]
    traits.add("twin-axle" if axles.value == 2 else "single-axle", f"axles: {axles.value}", axles.source)
    for derived in catalogue.derived:
        _derive(derived, traits, spec.source)
    return traits


def _add_equipment(item: Equipment, catalogue: Catalogue, traits: Traits) -> None:
    reason = f"{item.slot.id}: {item.kind.id}"
    also = [catalogue.slots[slot.value].trait for slot in item.kind.also_fills if slot.value in catalogue.slots]
    for name in (item.slot.trait, *also, *(trait.value for trait in item.kind.traits)):
        traits.add(name, reason, item.source)


def _derive(derived: DerivedTrait, traits: Traits, source: Source) -> None:
    """Add a derived trait where it holds; its position is that of the first trait it follows from."""
    every = [trait.value for trait in derived.all]
    some = [trait.value for trait in derived.any if trait.value in traits.found]
    none = [trait.value for trait in derived.none]
    holds = all(name in traits.found for name in every) and not any(name in traits.found for name in none)
    if holds and (some or not derived.any):
        because = [*some, *every, *(f"no {name}" for name in none)]
        origin = next((traits.sources[name] for name in (*some, *every)), source)
        traits.add(derived.id, f"{derived.id}: {', '.join(because)}", origin)


def hold_rules(rules: Iterable[Rule], traits: Traits, source: Source, faults: Faults) -> None:
    """Add a fault for each rule that a van breaks, at the equipment that brings it under the rule.

    Args:
        rules: The rules of the catalogue.
        traits: All traits of the van.
        source: Where to point when no equipment is to blame.
        faults: Takes the faults.
    """
    for rule in rules:
        when = [trait.value for trait in rule.when]
        if all(name in traits.found for name in when):
            at = next((traits.sources[name] for name in when), source)
            _hold(rule, ", ".join(when), traits, at, faults)


def _hold(rule: Rule, when: str, traits: Traits, at: Source, faults: Faults) -> None:
    for need in (trait.value for trait in rule.need if trait.value not in traits.found):
        hint = f'"{when}" needs "{need}", which nothing fitted gives'
        faults.absent(rule.why or f"{when} needs {need}", at, hint, of=_GIVING)
    for exclude in (trait.value for trait in rule.exclude if trait.value in traits.found):
        hint = f'"{when}" excludes "{exclude}"'
        faults.absent(rule.why or f"{when} excludes {exclude}", traits.sources[exclude], hint, of=_GIVING)
