"""The exact count of vans, against enumeration of every combination."""

from itertools import chain, combinations, product

from generator.load import load
from generator.model.catalogue import Catalogue
from generator.prove.counting import count_vans
from tests.conftest import BuildWorkspace


def test_count_equals_enumeration(build_workspace: BuildWorkspace) -> None:
    """Independent method: every combination is written out and judged by the rules one by one."""
    catalogue = load(build_workspace()).catalogue
    assert count_vans(catalogue, ["nz", "uk"]) == enumerate_vans(catalogue, ["nz", "uk"]) > 100


def test_a_rule_takes_vans_away(build_workspace: BuildWorkspace) -> None:
    """A compressor fridge that needs gas bottles can be ordered less often."""
    rules = "- {when: [fridge-compressor], need: [gas]}\n"
    free = load(build_workspace({"content/equipment/rules.yaml": "[]\n"})).catalogue
    bound = load(build_workspace({"content/equipment/rules.yaml": rules})).catalogue
    assert enumerate_vans(bound, ["uk"]) == count_vans(bound, ["uk"]) < count_vans(free, ["uk"])


def enumerate_vans(catalogue: Catalogue, markets: list[str]) -> int:
    """Count vans by trying every set of kinds a slot may hold, without any logic library."""
    per_slot = []
    for slot in catalogue.slots.values():
        kinds = [key for key in catalogue.kinds if key[0] == slot.id]
        sizes = range(len(kinds) + 1) if slot.many else range(min(len(kinds), 1) + 1)
        per_slot.append(list(chain.from_iterable(combinations(kinds, size) for size in sizes)))
    count = 0
    for chosen in product(*per_slot):
        fitted = [key for kinds in chosen for key in kinds]
        filled = [slot for key in fitted for slot in (key[0], *(f.value for f in catalogue.kinds[key].also_fills))]
        if any(filled.count(slot.id) > 1 for slot in catalogue.slots.values() if not slot.many):
            continue
        if any(slot.required and slot.id not in filled for slot in catalogue.slots.values()):
            continue
        optional = sum(list(catalogue.kinds[key].points.values()).count("optional") for key in fitted)
        for market, axles in product(markets, ("single-axle", "twin-axle")):
            traits = {f"market-{market}", axles, *(catalogue.slots[slot].trait for slot in filled)}
            traits |= {trait.value for key in fitted for trait in catalogue.kinds[key].traits}
            for derived in catalogue.derived:
                if (
                    (not derived.any or any(trait.value in traits for trait in derived.any))
                    and all(trait.value in traits for trait in derived.all)
                    and not any(trait.value in traits for trait in derived.none)
                ):
                    traits.add(derived.id)
            count += 2**optional if _allowed(catalogue, traits) else 0
    return count


def _allowed(catalogue: Catalogue, traits: set[str]) -> bool:
    return all(
        not all(trait.value in traits for trait in rule.when)
        or (
            all(trait.value in traits for trait in rule.need)
            and not any(trait.value in traits for trait in rule.exclude)
        )
        for rule in catalogue.rules
    )
