"""The seven statements about every van the catalogue allows, and the order of marked actions.

Each question is put to the solver as "is there a van in which this goes wrong"; the answer is a finding
with the smallest such van, or none.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from generator.errors import Source
from generator.model.blocks import Block, Call, Guard, Step, TopicLink
from generator.model.catalogue import Kind
from generator.model.content import Content, OrderRule, Terms
from generator.model.numbers import Declared
from generator.model.uses import Use, guarded, quoted, steps, uses
from generator.prove.logic import Clauses
from generator.prove.small_van import SmallVan, smallest
from generator.prove.space import AXLES, Space
from generator.prove.wording import Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A statement that does not hold: what is wrong, where, and the smallest van that shows it.

    ``van`` is None where something stands in no van at all; ``hint`` says how it would be put right.
    """

    statement: int  # 1 to 7, 8 for the order of marked actions
    message: str
    source: Source
    van: SmallVan | None
    hint: str = ""


# A hint, or how to find one once the smallest van is known.
Hint = str | Callable[[SmallVan], str]
_NEW = "write one: lockerleaf new block procedure "


def _call(name: str, argument: str) -> str:
    """Return how something that no block calls is called."""
    return f"call it, {{{{ {name}('{argument}') }}}}, or delete it"


def _unsaid(call: Call, van: SmallVan) -> Iterator[str]:
    """Yield which kind of ``van`` would have to say the sentence that ``call`` asks for."""
    slot, _, name = call.argument.partition(".")
    if call.name in ("say", "drawing"):
        what = "sentence" if call.name == "say" else "state"
        yield from (f'give {slot}/{kind} the {what} "{name}"' for fitted, kind in van.kinds if fitted == slot)


class Statements:
    """Puts every statement to the solver and collects the findings."""

    def __init__(self, space: Space[int], content: Content, declared: Mapping[str, Declared]) -> None:
        assert isinstance(space.algebra, Clauses)
        self._space = space
        self._solver = space.algebra
        self._content = content
        self._declared = declared
        self._wording = Wording(space, space.algebra)
        self._applies = {block.id: space.condition(block.applies) for block in content.blocks}
        topics: dict[str, list[int]] = {}
        self._by_topic: dict[str, list[Block]] = {}
        for block in content.blocks:
            topics.setdefault(block.topic.value, []).append(self._applies[block.id])
            self._by_topic.setdefault(block.topic.value, []).append(block)
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
            self._shared_appears,
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
                message = f"block {block.id} applies to no van that can be ordered"
                yield self._nowhere(message, block.source, self._wording.clash([block.applies]))
                continue
            yield from self._guards_hold(block, applies)
            if block.form == "procedure":
                shown = self._solver.either(self._step(step) for step in steps(block))
                message = f"procedure {block.id} has no step in {{van}}"
                yield from self._never(
                    1, [applies, -shown], message, block.source, "guard fewer steps, or narrow applies"
                )

    def _shared_appears(self) -> Iterator[Finding]:
        """What a fragment guards has to appear in a van of some block that includes it; a picture or state in any."""
        included = {given.value for block in self._content.blocks for given in block.fragments}
        shown: dict[Source, list[int]] = {}
        for block in self._content.blocks:
            for part in guarded(block) if block.fragments else ():
                formula = self._solver.both([self._applies[block.id], self._under(part.guards)])
                shown.setdefault(part.source, []).append(formula)
        called = self._called("picture")
        drawn = self._called("drawing")
        for key, kind in self._kinds():
            for name in kind.states:
                if f"{key[0]}.{name}" not in drawn:
                    yield self._nowhere(f'no block draws the state "{name}"', kind.source, "delete it")
            called |= {id_.value for name, id_ in kind.pictures.items() if f"{key[0]}.{name}" in called}
        for id_, picture in self._content.pictures.items():
            if id_ not in called:
                yield self._nowhere(f"no block shows the picture {id_}", picture.source, _call("picture", id_))
        for fragment in self._content.fragments.values():
            if fragment.id not in included:
                message = f"no block includes the fragment {fragment.id}"
                yield self._nowhere(message, fragment.source, _call("include", fragment.id))
            for source, formulas in shown.items():
                if source.file == fragment.source.file and self._solver.model(self._solver.either(formulas)) is None:
                    message = f"this guard of the fragment {fragment.id} is true in no van of a block that includes it"
                    yield self._nowhere(message, source, "take away what it guards, or include it elsewhere")

    def _called(self, name: str) -> set[str]:
        """Return every argument that blocks give to a call."""
        things = (use.thing for block in self._content.blocks for use in uses(block))
        return {thing.argument for thing in things if isinstance(thing, Call) and thing.name == name}

    def _guards_hold(self, block: Block, applies: int) -> Iterator[Finding]:
        for part in guarded(block):
            if part.source.file != block.source.file:
                continue  # of a fragment, see _shared_appears
            if self._solver.model(applies, self._under(part.guards)) is None:
                message = f"the guard of this {part.what} is true in no van of the block: {part.part}"
                yield self._nowhere(message, part.source, self._wording.clash([block.applies, *part.guards]))

    def _everything_pulled_in_is_there(self) -> Iterator[Finding]:
        for block in self._content.blocks:
            for use in uses(block):
                there = self._there(use)
                if there is None:
                    continue
                present, name = there
                shown = [self._applies[block.id], self._under(use.guards)]
                message = f"{use.part} of {block.id} pulls in {name}, which {{van}} does not have"
                hint = self._cure(use, shown, -present) if -1 not in shown else ""
                yield from self._never(2, [*shown, -present], message, use.source, hint)

    def _cure(self, use: Use, shown: Sequence[int], missing: int) -> Callable[[SmallVan], str]:
        """Return what finds the guard that keeps ``use`` out of the vans that lack it."""

        def find(van: SmallVan) -> str:
            thing = use.thing
            if isinstance(thing, TopicLink):
                answering = self._by_topic.get(thing.topic, [])
                return self._wording.guard(shown, missing, answering, ()) or self._nobody(thing.topic, van)
            slot = thing.argument.partition(".")[0]
            if slot in self._space.catalogue.slots:
                kinds = [kind for key, kind in self._kinds() if key[0] == slot]
                own = dict.fromkeys(trait.value for kind in kinds for trait in kind.traits)
                traits = [self._space.catalogue.slots[slot].trait, *own]
                guard = self._wording.guard(shown, missing, (), traits)
                return " or ".join(filter(None, (*_unsaid(thing, van), guard)))
            number = self._declared.get(thing.argument)
            traits = [*number.all_of, *(f"not {trait}" for trait in number.none_of)] if number else []
            return self._wording.guard(shown, missing, (), [*traits, ", ".join(traits)])

        return find

    def _must_answer(self) -> Iterator[Finding]:
        for key, kind in self._kinds():
            asked = [(topic.value, topic.source) for topic in kind.must_answer]
            asked += [
                (control.means.value, control.means.source) for control in kind.controls.values() if control.means
            ]
            for topic, source in asked:
                wanted = [self._space.kinds[key], -self._answered.get(topic, -1)]
                message = f"no block answers {topic} where {key[0]} is {kind.id}, as in {{van}}"
                yield from self._never(3, wanted, message, source, partial(self._nobody, topic))

    def _nobody(self, topic: str, van: SmallVan) -> str:
        """Return why no block answers ``topic`` in ``van``."""
        lacking = [self._wording.lacking(block, van) for block in self._by_topic.get(topic, [])]
        there = "; ".join(filter(None, lacking))
        return f"{there}: let it apply there too, or write another block for it" if there else f"{_NEW}{topic}"

    def _no_topic_twice(self) -> Iterator[Finding]:
        for topic, blocks in self._by_topic.items():
            for first, second in combinations(blocks, 2):
                wanted = [self._applies[first.id], self._applies[second.id]]
                message = f"blocks {first.id} and {second.id} both answer {topic} in {{van}}"
                hint = "make their applies exclude each other: what one has under all, the other has under none"
                yield from self._never(4, wanted, message, second.topic.source, hint)

    def _hazards_printed(self) -> Iterator[Finding]:
        printed: dict[str, list[int]] = {}
        printers: dict[str, list[Block]] = {}
        for block in self._content.blocks:
            for hazard in block.hazards:
                printed.setdefault(hazard.value, []).append(self._applies[block.id])
                printers.setdefault(hazard.value, []).append(block)
            for use in uses(block):
                if isinstance(use.thing, Call) and use.thing.name == "safety":
                    formula = self._solver.both([self._applies[block.id], self._under(use.guards)])
                    printed.setdefault(use.thing.argument, []).append(formula)
                    printers.setdefault(use.thing.argument, []).append(block)
        for key, kind in self._kinds():
            for hazard in kind.hazards:
                shown = self._solver.either(printed.get(hazard.value, ()))
                message = f"no block prints {hazard.value} where {key[0]} is {kind.id}, as in {{van}}"
                hint = partial(self._unprinted, kind, printers.get(hazard.value, ()))
                yield from self._never(5, [self._space.kinds[key], -shown], message, hazard.source, hint)

    def _unprinted(self, kind: Kind, printers: Sequence[Block], van: SmallVan) -> str:
        lacking = list(dict.fromkeys(filter(None, (self._wording.lacking(block, van) for block in printers))))
        more = f" ({'; '.join(lacking[:2])})" if lacking else ""
        return f"name it under hazards of a block about {kind.slot}/{kind.id}{more}"

    def _points_covered(self) -> Iterator[Finding]:
        covered: dict[str, list[int]] = {}
        for block in self._content.blocks:
            for stands in block.at:
                covered.setdefault(stands.value, []).append(self._applies[block.id])
        for (slot, kind, point), formula in self._space.points.items():
            shown = self._solver.either(covered.get(f"{slot}.{point}", ()))
            message = f"no block stands at {slot}.{point} where {slot} is {kind}, as in {{van}}"
            source = self._space.catalogue.kinds[slot, kind].source
            hint = f"list {slot}.{point} under at of a block that is read there"
            yield from self._never(6, [formula, -shown], message, source, hint)

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
                message = f"number {number.id} needs {need}, which {{van}} does not give"
                source = self._space.catalogue.slots[slot].source
                hint = f'declare "{parameter}" under parameters of that kind, not optional'
                yield from self._never(7, [applies, -given], message, source, hint)

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
            words = f"{quoted('step', step.lines[0].content)} of {block.id}"
            message = f'"{rule.first.value}" comes after "{rule.then.value}", {words}, in {{van}}: {rule.why}'
            yield from self._never(8, late, message, step.source, f"move the step {{mark: {rule.first.value}}} up")
            if rule.always:
                where = self._space.where(trait.value for trait in rule.where)
                missing = [applies, self._step(step), where, -before, -after]
                message = f'"{rule.then.value}" without "{rule.first.value}" before it, {words}, in {{van}}: {rule.why}'
                hint = f"put a step {{mark: {rule.first.value}}} before it that such a van shows too"
                yield from self._never(8, missing, message, step.source, hint)

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
            case "drawing":
                return self._drawn(thing.argument), f"drawing {thing.argument}"
            case "number" | "table":
                number = self._declared.get(thing.argument)
                return (self._number_applies(number) if number else -1), f"{thing.name} {thing.argument}"
            case "term":
                return self._term(thing.argument, self._content.terms), f"term {thing.argument}"
            case "safety":
                return (1 if thing.argument in self._content.safety else -1), f"message {thing.argument}"
            case _:
                return None

    def _drawn(self, argument: str) -> int:
        """Return where a drawing is: of the van everywhere, of a panel where a kind has it at a point that is there."""
        slot, _, name = argument.partition(".")
        if not name:
            return 1
        points = ((key, self._space.catalogue.kinds[key].drawings.get(name)) for key, _ in self._space.of_slot(slot))
        return self._solver.either(self._space.points[(*key, point)] for key, point in points if point)

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

    def _never(
        self, statement: int, wanted: Sequence[int], message: str, source: Source, hint: Hint = ""
    ) -> Iterator[Finding]:
        """Yield a finding where some van satisfies ``wanted``; ``{van}`` in the message becomes the smallest."""
        van = None if -1 in wanted or self._solver.model(*wanted) is None else self._smallest(wanted)
        if van is not None:
            said = message.replace("{van}", self._wording.van(van))
            how = hint if isinstance(hint, str) else hint(van)
            yield Finding(statement=statement, message=said, source=source, van=van, hint=how)

    def _nowhere(self, message: str, source: Source, hint: str) -> Finding:
        return Finding(statement=1, message=message, source=source, van=None, hint=hint)

    def _smallest(self, wanted: Sequence[int]) -> SmallVan | None:
        return smallest(self._space, self._solver, wanted)
