"""The seven statements about every van the catalogue allows, and the order of marked actions.

Each question is put to the solver as "is there a van in which this goes wrong"; the answer is a finding
with the smallest such van, or none.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from generator.errors import Source
from generator.model.blocks import Block, Call, Guard, Step, TopicLink
from generator.model.catalogue import Kind
from generator.model.content import Content, OrderRule, Terms
from generator.model.numbers import Declared
from generator.prove.logic import Clauses
from generator.prove.space import AXLES, Space
from generator.prove.uses import Use, guarded, steps, uses


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallVan:
    """The least that makes up a van: its kinds, the optional points it has, its market and axles."""

    kinds: tuple[tuple[str, str], ...]
    points: tuple[tuple[str, str, str], ...]
    market: str
    axles: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A statement that does not hold: what is wrong, where, and the smallest van that shows it.

    ``van`` is None where something stands in no van at all.
    """

    statement: int  # 1 to 7, 8 for the order of marked actions
    message: str
    source: Source
    van: SmallVan | None


class Statements:
    """Puts every statement to the solver and collects the findings."""

    def __init__(self, space: Space[int], content: Content, declared: Mapping[str, Declared]) -> None:
        assert isinstance(space.algebra, Clauses)
        self._space = space
        self._solver = space.algebra
        self._content = content
        self._declared = declared
        self._applies = {block.id: space.condition(block.applies) for block in content.blocks}
        topics: dict[str, list[int]] = {}
        for block in content.blocks:
            topics.setdefault(block.topic.value, []).append(self._applies[block.id])
        outlined = {
            topic.value for section in content.outline.sections for page in section.pages for topic in page.topics
        }
        self._answered = {
            topic: self._solver.either(formulas) for topic, formulas in topics.items() if topic in outlined
        }

    def findings(self) -> list[Finding]:
        """Return what breaks any statement, in the order of statements and files."""
        checks: list[Callable[[], Iterator[Finding]]] = [
            self._everything_appears,
            self._everything_pulled_in_is_there,
            self._must_answer,
            self._no_topic_twice,
            self._hazards_printed,
            self._points_covered,
            self._inputs_given,
            self._order_kept,
        ]
        return [finding for check in checks for finding in check()]

    # --- the statements -------------------------------------------------------------------------------

    def _everything_appears(self) -> Iterator[Finding]:
        for block in self._content.blocks:
            applies = self._applies[block.id]
            if self._solver.model(applies) is None:
                yield self._nowhere(f"block {block.id} applies to no van that can be ordered", block.source)
                continue
            for part in guarded(block):
                if self._solver.model(applies, self._under(part.guards)) is None:
                    yield self._nowhere(f"the guard of this {part.what} is true in no van of the block", part.source)
            if block.form == "procedure":
                shown = self._solver.either(self._step(step) for step in steps(block))
                message = f"procedure {block.id} has no step in this van"
                yield from self._never(1, [applies, -shown], message, block.source)

    def _everything_pulled_in_is_there(self) -> Iterator[Finding]:
        for block in self._content.blocks:
            for use in uses(block):
                there = self._there(use)
                if there is None:
                    continue
                present, name = there
                wanted = [self._applies[block.id], self._under(use.guards), -present]
                message = f"block {block.id} pulls in {name}, which this van does not have"
                yield from self._never(2, wanted, message, use.source)

    def _must_answer(self) -> Iterator[Finding]:
        for key, kind in self._kinds():
            asked = [(topic.value, topic.source) for topic in kind.must_answer]
            asked += [
                (control.means.value, control.means.source) for control in kind.controls.values() if control.means
            ]
            for topic, source in asked:
                wanted = [self._space.kinds[key], -self._answered.get(topic, -1)]
                message = f"no block answers {topic} where {key[0]} is {kind.id}"
                yield from self._never(3, wanted, message, source)

    def _no_topic_twice(self) -> Iterator[Finding]:
        by_topic: dict[str, list[Block]] = {}
        for block in self._content.blocks:
            by_topic.setdefault(block.topic.value, []).append(block)
        for topic, blocks in by_topic.items():
            for first, second in combinations(blocks, 2):
                wanted = [self._applies[first.id], self._applies[second.id]]
                message = f"blocks {first.id} and {second.id} both answer {topic}"
                yield from self._never(4, wanted, message, second.source)

    def _hazards_printed(self) -> Iterator[Finding]:
        printed: dict[str, list[int]] = {}
        for block in self._content.blocks:
            for hazard in block.hazards:
                printed.setdefault(hazard.value, []).append(self._applies[block.id])
            for use in uses(block):
                if isinstance(use.thing, Call) and use.thing.name == "safety":
                    formula = self._solver.both([self._applies[block.id], self._under(use.guards)])
                    printed.setdefault(use.thing.argument, []).append(formula)
        for key, kind in self._kinds():
            for hazard in kind.hazards:
                shown = self._solver.either(printed.get(hazard.value, ()))
                message = f"no block prints {hazard.value} where {key[0]} is {kind.id}"
                yield from self._never(5, [self._space.kinds[key], -shown], message, hazard.source)

    def _points_covered(self) -> Iterator[Finding]:
        covered: dict[str, list[int]] = {}
        for block in self._content.blocks:
            for stands in block.at:
                covered.setdefault(stands.value, []).append(self._applies[block.id])
        for (slot, kind, point), formula in self._space.points.items():
            shown = self._solver.either(covered.get(f"{slot}.{point}", ()))
            message = f"no block stands at {slot}.{point} where {slot} is {kind}"
            source = self._space.catalogue.kinds[slot, kind].source
            yield from self._never(6, [formula, -shown], message, source)

    def _inputs_given(self) -> Iterator[Finding]:
        for number in self._declared.values():
            applies = self._number_applies(number)
            for need in number.needs:
                slot, _, parameter = need.partition(".")
                if slot not in self._space.catalogue.slots or "*" in need:
                    continue
                given = self._solver.either(
                    formula for key, formula in self._space.of_slot(slot) if self._gives(key, parameter)
                )
                message = f"number {number.id} needs {need}, which this van does not give"
                source = self._space.catalogue.slots[slot].source
                yield from self._never(7, [applies, -given], message, source)

    def _order_kept(self) -> Iterator[Finding]:
        for block in self._content.blocks:
            marked = [(place, step) for place, step in enumerate(steps(block)) if step.mark]
            for rule in self._content.order:
                yield from self._rule_kept(block, rule, marked)

    def _rule_kept(self, block: Block, rule: OrderRule, marked: Sequence[tuple[int, Step]]) -> Iterator[Finding]:
        applies = self._applies[block.id]
        firsts = [(place, self._step(step)) for place, step in marked if step.mark == rule.first.value]
        for place, step in marked:
            if step.mark != rule.then.value:
                continue
            before = self._solver.either(shown for at, shown in firsts if at < place)
            after = self._solver.either(shown for at, shown in firsts if at > place)
            late = [applies, self._step(step), -before, after]
            message = f'"{rule.first.value}" comes after "{rule.then.value}": {rule.why}'
            yield from self._never(8, late, message, step.source)
            if rule.always:
                where = self._space.where(trait.value for trait in rule.where)
                missing = [applies, self._step(step), where, -before, -after]
                message = f'"{rule.then.value}" without "{rule.first.value}" before it: {rule.why}'
                yield from self._never(8, missing, message, step.source)

    # --- helpers --------------------------------------------------------------------------------------

    def _there(self, use: Use) -> tuple[int, str] | None:
        thing = use.thing
        if isinstance(thing, TopicLink):
            return self._answered.get(thing.topic, -1), f"topic {thing.topic}"
        match thing.name:
            case "place":
                slot, _, point = thing.argument.partition(".")
                having = [formula for key, formula in self._space.points.items() if (key[0], key[2]) == (slot, point)]
                return self._solver.either(having), f"point {thing.argument}"
            case "say":
                slot, _, key_name = thing.argument.partition(".")
                saying = [
                    formula
                    for key, formula in self._space.of_slot(slot)
                    if key_name in self._space.catalogue.kinds[key].say
                ]
                return self._solver.either(saying), f"the words {thing.argument}"
            case "number" | "table":
                number = self._declared.get(thing.argument)
                return (self._number_applies(number) if number else -1), f"{thing.name} {thing.argument}"
            case "term":
                return self._term(thing.argument, self._content.terms), f"term {thing.argument}"
            case "safety":
                return (1 if thing.argument in self._content.safety else -1), f"message {thing.argument}"
            case _:
                return None

    def _term(self, term: str, terms: Terms) -> int:
        words = terms.trade.get(term, {})
        if "default" in words:
            return 1
        return self._solver.either(
            formula
            for trait, formula in self._space.choices.items()
            if trait not in AXLES and trait.removeprefix("market-") in words
        )

    def _number_applies(self, number: Declared) -> int:
        return self._space.where(number.all_of, number.none_of)

    def _gives(self, key: tuple[str, str], parameter: str) -> bool:
        kind = self._space.catalogue.kinds[key]
        if parameter == "mass":
            return kind.mass is not None
        return parameter in kind.parameters and not kind.parameters[parameter].optional

    def _kinds(self) -> Iterable[tuple[tuple[str, str], Kind]]:
        return ((key, self._space.catalogue.kinds[key]) for key in self._space.kinds)

    def _under(self, guards: Sequence[Guard]) -> int:
        return self._solver.both(self._space.guard(guard) for guard in guards)

    def _step(self, step: Step) -> int:
        return self._space.guard(step.guard)

    def _never(self, statement: int, wanted: Sequence[int], message: str, source: Source) -> Iterator[Finding]:
        if -1 in wanted or self._solver.model(*wanted) is None:
            return
        yield Finding(statement=statement, message=message, source=source, van=self._smallest(wanted))

    def _nowhere(self, message: str, source: Source) -> Finding:
        return Finding(statement=1, message=message, source=source, van=None)

    def _smallest(self, wanted: Sequence[int]) -> SmallVan:
        optional = [
            (key, formula)
            for key, formula in self._space.points.items()
            if formula != self._space.kinds[key[0], key[1]]
        ]
        few = [*self._space.kinds.values(), *(formula for _, formula in optional), *self._space.choices.values()]
        model = self._solver.smallest(wanted, few)
        assert model is not None  # _never asked before
        return SmallVan(
            kinds=tuple(key for key, formula in self._space.kinds.items() if formula in model),
            points=tuple(key for key, formula in optional if formula in model),
            market=next(
                trait.removeprefix("market-")
                for trait, formula in self._space.choices.items()
                if trait not in AXLES and formula in model
            ),
            axles=2 if self._space.choices["twin-axle"] in model else 1,
        )
