"""Looks up what a van has: points at places, sentences of its kinds, trade words of its market.

A miss is an answer here (nothing found); what it means for an author is said where it was asked for.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.blocks import Block, Guard
from generator.model.caravan import Caravan, Equipment, Place
from generator.model.catalogue import Condition
from generator.model.content import Terms
from generator.model.numbers import Numbers
from generator.model.sourced import Given


@dataclass(frozen=True, slots=True)
class Van:
    """A caravan with its numbers, places in walking order (outside, then inside) and trade words."""

    caravan: Caravan
    numbers: Numbers
    terms: Terms
    places: tuple[Place, ...]
    by_code: Mapping[str, Place]
    by_slot: Mapping[str, tuple[Equipment, ...]]  # a kind may fill a second slot beside its own

    @classmethod
    def of(cls, caravan: Caravan, numbers: Numbers, terms: Terms) -> "Van":
        """Arrange ``caravan`` for looking things up."""
        # sorted() is stable: within outside and inside the order of the build sheet stands.
        places = tuple(sorted(caravan.places, key=lambda place: place.where == "inside"))
        by_slot: dict[str, tuple[Equipment, ...]] = {}
        for one in caravan.equipment:
            for slot in dict.fromkeys((one.slot.id, *_values(one.kind.also_fills))):
                by_slot[slot] = (*by_slot.get(slot, ()), one)
        return cls(caravan, numbers, terms, places, {place.code: place for place in places}, by_slot)

    def meets(self, condition: Condition) -> bool:
        """Return whether a block's ``applies`` holds here."""
        return self.caravan.has(_values(condition.all), _values(condition.none))

    def keeps(self, guard: Guard | None) -> bool:
        """Return whether what ``guard`` opens stands in this van's manual."""
        return guard is None or self.caravan.has(guard.all, guard.none)

    def fitted(self, slot: str) -> tuple[Equipment, ...]:
        """Return what fills ``slot``."""
        return self.by_slot.get(slot, ())

    def where(self, point: str) -> tuple[Place, ...]:
        """Return the places of ``slot.point``: none, one, or several where a slot takes many kinds."""
        slot, _, name = point.partition(".")
        codes = dict.fromkeys(one.at[name] for one in self.fitted(slot) if name in one.at)
        return tuple(self.by_code[code] for code in codes if code in self.by_code)

    def say(self, key: str) -> tuple[Given[str], ...]:
        """Return the sentences that the kinds in a slot provide for ``slot.key``."""
        slot, _, name = key.partition(".")
        return tuple(one.kind.say[name] for one in self.fitted(slot) if name in one.kind.say)

    def term(self, name: str) -> str | None:
        """Return the trade word of this market, or the word for every market, or nothing."""
        words = self.terms.trade.get(name, {})
        return words.get(self.caravan.market.id, words.get("default"))

    def first_place(self, block: Block) -> Place | None:
        """Return the place of the first point of ``block`` that this van has."""
        places = self.places_of(block)
        return places[0] if places else None

    def places_of(self, block: Block) -> tuple[Place, ...]:
        """Return the places of all points of ``block`` that this van has, each once."""
        found = {place.code: place for point in block.at for place in self.where(point.value)}
        return tuple(found.values())


def _values(given: tuple[Given[str], ...]) -> tuple[str, ...]:
    return tuple(one.value for one in given)
