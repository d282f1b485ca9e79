"""Resolves links and calls inside a line: to pages, holes, code plates, trade words and sentences of a kind.

Guards, and what lines make up, are left to ``prose``.
"""

from collections.abc import Iterable

from generator.assemble.choose import missing_traits, why_absent
from generator.assemble.faults import BLOCKS, Faults
from generator.assemble.panels import asked
from generator.assemble.sitemap import Sitemap
from generator.assemble.van import Van
from generator.errors import Source, nearest
from generator.model import blocks as b
from generator.model import pages as p
from generator.model.catalogue import Catalogue
from generator.model.content import Content
from generator.model.quotes import quoted

_EMERGENCY = "emergency-number"  # the trade word that is a telephone number


class Inliner:
    """Resolves inlines for one van; what this van does not have becomes a fault where it was written."""

    def __init__(self, content: Content, catalogue: Catalogue, van: Van, site: Sitemap, faults: Faults) -> None:
        self.van, self._content, self._catalogue = van, content, catalogue
        self._site, self._faults = site, faults
        self._written: tuple[b.Inline, ...] = ()  # the line in hand, for faults to quote

    def line(self, inlines: Iterable[b.Inline]) -> p.Line:
        """Return a finished line; what could not be resolved leaves its name and a fault that quotes the line."""
        self._written = tuple(inlines)
        return self._line(self._written)

    def _line(self, inlines: Iterable[b.Inline]) -> p.Line:
        return tuple(done for inline in inlines for done in self._inline(inline))

    def _inline(self, inline: b.Inline) -> p.Line:
        match inline:
            case b.Text():
                return (inline,)
            case b.Strong(children):
                return (p.Strong(self._line(children)),)
            case b.Emphasis(children):
                return (p.Emphasis(self._line(children)),)
            case b.TopicLink(topic, children, source):
                return self._link(topic, self._line(children), source)
            case b.Call():
                return self._call(inline)

    def _link(self, topic: str, words: p.Line, source: Source) -> p.Line:
        target = self._site.targets.get(topic)
        if target is None:
            hint = self._how_to_guard(topic)
            message = f"links to {topic}, which this van does not have ({self._van_name})"
            self._faults.absent(message + self._quote, source, hint, topic, BLOCKS)
            return words
        return (p.Ref(target.path, target.anchor, words),)

    @property
    def _quote(self) -> str:
        words = quoted(self._written)
        return f": {words}" if words else ""

    @property
    def _van_name(self) -> str:
        return f"{self.van.caravan.model}, {self.van.caravan.tail}"

    def _how_to_guard(self, topic: str) -> str:
        """Return the guard that would keep a link out of this van: what all its blocks ask for, else the least."""
        answering = [block for block in self._content.blocks if block.topic.value == topic]
        if not answering:
            return why_absent(topic, self._content, self.van)
        wanted = [missing_traits(block, self.van) for block in answering]
        needs, excludes = min(wanted, key=lambda traits: len(traits[0]) + len(traits[1]))
        if common := tuple(trait for trait in needs if all(trait in of_one for of_one, _ in wanted)):
            needs, excludes = common, ()
        guard = ", ".join(needs + tuple(f"not {trait}" for trait in excludes))
        return f"guard the line with {{{guard}}}"

    def _call(self, call: b.Call) -> p.Line:
        match call.name:
            case "number":
                return self._number(call)
            case "term":
                return self._term(call)
            case "place":
                return self._place(call)
            case "say":
                return self._say(call)
            case _:
                why = "opens a step" if call.name == "safety" else "stands as a paragraph of its own"
                self._faults.add(f"{call.name} {why}, not inside a line", call.source)
                return (b.Text(call.argument),)

    def _number(self, call: b.Call) -> p.Line:
        if call.argument not in self.van.numbers.numbers:
            is_table = call.argument in self.van.numbers.tables
            table = f"it is a table: {{{{ table('{call.argument}') }}}} in a paragraph of its own"
            hint = table if is_table else nearest(call.argument, self.van.numbers.numbers)
            return self._absent(call, f"number {call.argument}", hint)
        return (p.TextHole(f"number/{call.argument}"),)

    def _term(self, call: b.Call) -> p.Line:
        word = self.van.term(call.argument)
        if word is None:
            market = self.van.caravan.market.id
            hint = nearest(call.argument, self.van.terms.trade)
            if call.argument in self.van.terms.trade:
                hint = f'give it a word for "{market}" or a default'
            self._faults.add(f'no trade word "{call.argument}" for market {market}', call.source, hint)
        text = b.Text(word or call.argument)
        # Whoever is told to ring it rings it with one tap.
        return (p.Call(word, (text,)),) if word and call.argument == _EMERGENCY else (text,)

    def _place(self, call: b.Call) -> p.Line:
        places = self.van.where(call.argument)
        if not places:
            return self._absent(call, f"point {call.argument}", self._slot_hint(call))
        line: list[p.Inline] = []
        for place in places:
            line += [b.Text(" and ")] if line else []
            line.append(p.PlaceRef(place.code, place.name))
        return tuple(line)

    def _say(self, call: b.Call) -> p.Line:
        sentences = self.van.say(call.argument)
        if not sentences:
            return self._absent(call, f"sentence {call.argument}", self._slot_hint(call))
        for sentence in sentences:
            if "{{" in sentence.value:
                self._faults.add("a sentence of a kind holds a call", sentence.source, "write plain words")
        return (b.Text(" ".join(sentence.value for sentence in sentences)),)

    def drawings(self, call: b.Call) -> tuple[str, ...]:
        """Return the holes of a drawing: of the van, or of a panel of what fills a slot."""
        if call.argument == "van":
            return ("drawing/van",)
        holes = tuple(asked(call.argument, self.van))
        if not holes:
            self._written = ()
            self._absent(call, f"drawing {call.argument}", self._slot_hint(call))
        return holes

    def _slot_hint(self, call: b.Call) -> str:
        """Say which guard is missing when the slot is empty, or what the fitted kind offers instead."""
        slot, _, name = call.argument.partition(".")
        fitted = self.van.fitted(slot)
        if slot not in self._catalogue.slots:
            return nearest(slot, self._catalogue.slots)
        if not fitted:
            return f"guard the line with {{{self._catalogue.slots[slot].trait}}}"
        kind = fitted[0].kind
        if call.name == "place" and kind.points.get(name) == "optional":
            return f'"{name}" is optional and this van does not give it'
        offered = {"place": kind.points, "say": kind.say}.get(call.name, kind.drawings)
        return f"{slot}/{kind.id} has: " + (", ".join(offered) or "nothing")

    def _absent(self, call: b.Call, what: str, hint: str) -> p.Line:
        """Add the fault; the name stays in the line, so that one miss is not told again as an empty step."""
        message = f"asks for {what}, which this van does not have ({self._van_name})"
        self._faults.add(message + self._quote, call.source, hint)
        return (b.Text(call.argument),)
