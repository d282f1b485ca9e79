"""What a finding says to the writer: which van shows it, which traits never meet, which guard would cure it.

Every answer is asked of the solver, so that a hint holds in all vans.
"""

from collections.abc import Iterable, Iterator, Sequence

from generator.model.blocks import Block, Guard
from generator.model.catalogue import Condition
from generator.prove.logic import Clauses
from generator.prove.small_van import SmallVan, smallest
from generator.prove.space import AXLES, Space

_MOST_KINDS = 4  # named in a sentence; the build sheet that is printed has them all


class Wording:
    """Finds words for vans, conditions and cures in one space."""

    def __init__(self, space: Space[int], solver: Clauses) -> None:
        self._space, self._solver = space, solver
        self._plain: SmallVan | None = None

    def van(self, van: SmallVan) -> str:
        """Return how ``van`` differs from the plainest one that can be ordered: "a van with fuse_box/blade-fuses"."""
        if self._plain is None:
            self._plain = smallest(self._space, self._solver, [])
        plain = self._plain
        kinds = [f"{slot}/{kind}" for slot, kind in van.kinds if plain is None or (slot, kind) not in plain.kinds]
        if len(kinds) > _MOST_KINDS:
            kinds = [*kinds[:_MOST_KINDS], f"{len(kinds) - _MOST_KINDS} more"]
        kinds += [f"{slot}.{point}" for slot, _, point in van.points]
        parts = [*kinds, *(["two axles"] if van.axles == 2 else []), f"market {van.market}"]
        return f"a van with {', '.join(parts)}"

    def clash(self, conditions: Iterable[Condition | Guard]) -> str:
        """Return which traits of conditions that never hold together cannot meet, as few as possible."""
        core = {word: self._space.where(*_sides(word)) for word in _words(conditions)}
        for word in list(core):
            rest = [literal for other, literal in core.items() if other != word]
            if self._solver.model(*rest) is None:
                del core[word]
        words = list(core)
        if len(words) < 2:
            return f"no van has {words[0]}" if words else ""
        return f"{', '.join(words[:-1])} and {words[-1]} never meet"

    def guard(self, wanted: Sequence[int], missing: int, blocks: Iterable[Block], traits: Iterable[str]) -> str:
        """Return the guard under which nothing is missing any more, where a short one exists.

        Args:
            wanted: Where the line is printed.
            missing: What must not hold then.
            blocks: Whose conditions may be guards.
            traits: More traits that may be guards.
        """
        conditions = [block.applies for block in blocks]
        single = dict.fromkeys((*traits, *_words(conditions)))
        whole = [", ".join(_words([condition])) for condition in conditions]
        for words in (*single, *whole):
            held = self._space.where(*_sides(words)) if words else 1
            shown = self._solver.model(*wanted, held) is not None
            if words and shown and self._solver.model(*wanted, held, missing) is None:
                return f"guard it with {{{words}}}"
        return ""

    def lacking(self, block: Block, van: SmallVan) -> str:
        """Return why ``block`` is not in ``van``: "needs mains"."""
        held = self._traits_of(van)
        needs = [f"needs {trait.value}" for trait in block.applies.all if trait.value not in held]
        needs += [f"excludes {trait.value}" for trait in block.applies.none if trait.value in held]
        return f"{block.id} {' and '.join(needs)}" if needs else ""

    def _traits_of(self, van: SmallVan) -> frozenset[str]:
        space = self._space
        fixed = [formula if key in van.kinds else -formula for key, formula in space.kinds.items()]
        fixed += [space.choices[f"market-{van.market}"], space.choices[AXLES[van.axles - 1]]]
        model = self._solver.model(*fixed) or frozenset()
        return frozenset(trait for trait, formula in space.traits.items() if _true(formula, model))


def _true(literal: int, model: frozenset[int]) -> bool:
    return literal in model if literal > 0 else -literal not in model


def _words(conditions: Iterable[Condition | Guard]) -> Iterator[str]:
    """Yield the traits of conditions as they are written in a guard, in order: "gas", "not mains"."""
    for condition in conditions:
        for trait in condition.all:
            yield trait if isinstance(trait, str) else trait.value
        for trait in condition.none:
            yield f"not {trait if isinstance(trait, str) else trait.value}"


def _sides(words: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the traits wanted and unwanted in "one, not other"."""
    parts = [part.strip() for part in words.split(",")]
    wanted = tuple(part for part in parts if not part.startswith("not "))
    return wanted, tuple(part.removeprefix("not ") for part in parts if part.startswith("not "))
