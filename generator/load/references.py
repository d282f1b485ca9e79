"""Whether what content files name exists: topics, traits, points, sentences, messages, terms.

Whether it exists in every van that needs it is proven elsewhere; numbers and tables are checked where the pages are put
together, because ``load`` does not know which there are.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches

from generator.errors import Source, nearest
from generator.load.content import topics_of
from generator.load.faults import Faults
from generator.model.blocks import (
    Block,
    Bullet,
    Bullets,
    Call,
    Emphasis,
    Guard,
    Inline,
    Node,
    Paragraph,
    Standalone,
    Step,
    Steps,
    Strong,
    Table,
    TopicLink,
)
from generator.model.catalogue import Catalogue, Kind
from generator.model.content import Market, OrderRule, Outline, SafetyMessage, Terms
from generator.model.dates import DateRule
from generator.model.handover import Handover, LabelSign
from generator.model.language import Language
from generator.model.signs import PICTOGRAMS
from generator.model.sourced import Given
from generator.model.spoilt import Spoilt


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """The names that may be used, as far as their files could be read."""

    traits: Collection[str] = ()
    topics: Collection[str] = ()
    messages: Collection[str] = ()
    terms: Collection[str] = ()
    tied: Collection[str] = ()
    points: Collection[str] = ()
    sentences: Collection[str] = ()
    drawings: Collection[str] = ()
    slots: Collection[str] = ()
    pictures: Collection[str] = ()


def known_names(
    catalogue: Catalogue,
    outline: Outline | None,
    safety: dict[str, SafetyMessage],
    markets: dict[str, Market],
    terms: Terms | None,
) -> Known:
    """Return every name that content may use."""
    kinds = tuple(_filled(catalogue))
    traits = frozenset(_first_traits(catalogue, markets)) | {trait.id for trait in catalogue.derived}
    return Known(
        traits=traits,
        topics=frozenset(topics_of(outline)) if outline else (),
        messages=frozenset(safety),
        terms=frozenset(terms.trade) if terms else (),
        tied=frozenset(words.id for words in terms.tied) if terms else (),
        points=frozenset(f"{slot}.{point}" for slot, kind in kinds for point in kind.points),
        sentences=frozenset(f"{slot}.{key}" for slot, kind in kinds for key in kind.say),
        drawings=frozenset(f"{slot}.{name}" for slot, kind in kinds for name in kind.drawings),
        slots=frozenset(catalogue.slots),
    )


def _filled(catalogue: Catalogue) -> Iterator[tuple[str, Kind]]:
    """Return each kind with each slot it fills."""
    for kind in catalogue.kinds.values():
        for slot in (kind.slot, *(given.value for given in kind.also_fills)):
            yield slot, kind


def _first_traits(catalogue: Catalogue, markets: Iterable[str]) -> Iterator[str]:
    """Return the traits that are not derived."""
    yield from ("single-axle", "twin-axle")
    yield from (f"market-{market}" for market in markets)
    yield from (slot.trait for slot in catalogue.slots.values())
    yield from (trait.value for kind in catalogue.kinds.values() for trait in kind.traits)


class ReferenceCheck:
    """Checks names against the known ones and adds a fault for each that is unknown."""

    def __init__(self, known: Known, faults: Faults, spoilt: Spoilt) -> None:
        self._known, self._faults, self._spoilt = known, faults, spoilt

    def name(self, what: str, word: str, source: Source, names: Collection[str]) -> None:
        """Check one name."""
        if word not in names and not self._unread(word, source, *_GIVEN_BY[what]):
            self._faults.add(f'unknown {what} "{word}"', source, _hint(what, word, names))

    def _unread(self, name: str, source: Source, *starts: str) -> bool:
        """Return whether a name may be given by a file that has faults."""
        market = name.removeprefix("market-")
        of_market = market != name and self._spoilt.may_hold(market, f"{_MARKETS}/{market}.")
        return of_market or self._spoilt.may_hold(name, *starts, asked_in=source.file)

    def names(self, what: str, words: Iterable[Given[str]], names: Collection[str]) -> None:
        """Check names that carry their position."""
        for word in words:
            self.name(what, word.value, word.source, names)

    # --- catalogue

    def catalogue(self, catalogue: Catalogue, first: Collection[str]) -> None:
        """Check kinds, rules and derived traits; ``first`` are the traits that are not derived."""
        known = self._known
        for kind in catalogue.kinds.values():
            self.names("safety message", kind.hazards, known.messages)
            self.names("topic", kind.must_answer, known.topics)
            self.names("topic", (c.means for c in kind.controls.values() if c.means), known.topics)
            self.dates(kind.dates)
        for rule in catalogue.rules:
            self.names("trait", (*rule.when, *rule.need, *rule.exclude), known.traits)
        earlier = set(first)
        for trait in catalogue.derived:
            if trait.id in earlier:
                self._faults.add(f'trait "{trait.id}" exists already', trait.source, "choose another name")
            for name in (*trait.any, *trait.all, *trait.none):
                if name.value in known.traits and name.value not in earlier:
                    hint = "a trait follows from those above it: move it down"
                    self._faults.add(f'"{trait.id}" stands above "{name.value}"', name.source, hint)
                else:
                    self.names("trait", [name], earlier)
            earlier.add(trait.id)

    # --- content beside blocks

    def outline(self, outline: Outline) -> None:
        """Check that phases name topics that stand on a page."""
        for phase in outline.phases.values():
            self.names("topic", phase.topics, self._known.topics)

    def dates(self, rules: Iterable[DateRule]) -> None:
        """Check the traits that dates need and the pages they name."""
        for rule in rules:
            self.names("trait", rule.when, self._known.traits)
            self.names("topic", (rule.topic,) if rule.topic else (), self._known.topics)

    def handover(self, handover: Handover) -> None:
        """Check the traits that lines of the handover need, and the points they stand at."""
        for told in (*handover.prepare, *handover.leave, *handover.phone, *handover.hand_over):
            self.names("trait", (*told.when, *told.unless), self._known.traits)
            if told.at is not None:
                self._point(told.at.value, told.at.source)

    def label_signs(self, signs: Iterable[LabelSign]) -> None:
        """Check the points and messages of signs on labels."""
        for sign in signs:
            self._point(sign.at.value, sign.at.source)
            if (sign.message is None) == (sign.pictogram is None):
                self._faults.add(
                    "a label shows the sign of a message or a pictogram", sign.at.source, "name one of them"
                )
            self.names("safety message", (sign.message,) if sign.message else (), self._known.messages)
            self.names("pictogram", (sign.pictogram,) if sign.pictogram else (), PICTOGRAMS)

    def terms(self, terms: Terms) -> None:
        """Check the traits that words are tied to."""
        self.names("trait", (words.trait for words in terms.tied), self._known.traits)

    def order(self, rules: Iterable[OrderRule], blocks: Iterable[Block]) -> None:
        """Check that order rules name marks that some step has."""
        steps = (step for block in blocks for node in block.body if isinstance(node, Steps) for step in node.items)
        marks = {step.mark for step in steps if step.mark}
        for rule in rules:
            self.names("mark", (rule.first, rule.then), marks)
            self.names("trait", rule.where, self._known.traits)

    def pictures(self, catalogue: Catalogue, content: Collection[str]) -> None:
        """Check that kinds name pictures that there are, and take their names down as known."""
        for kind in catalogue.kinds.values():
            for id_ in kind.pictures.values():
                self.name("picture", id_.value, id_.source, content)
        names = [f"{slot}.{name}" for (slot, _), kind in catalogue.kinds.items() for name in kind.pictures]
        self._known = replace(self._known, pictures=(*content, *names))

    def language(self, language: Language) -> None:
        """Check that rules name messages that exist."""
        for rule in language.rules.values():
            for message in rule.needs:
                self.name("safety message", message, rule.source, self._known.messages)

    # --- blocks

    def block(self, block: Block) -> None:
        """Check front matter and body of a block."""
        known = self._known
        self.names("topic", [block.topic], known.topics)
        self.names("trait", (*block.applies.all, *block.applies.none), known.traits)
        self.names("safety message", block.hazards, known.messages)
        for point in block.at:
            self._point(point.value, point.source)
        for group in block.allow:
            self.name("group of tied words", group, block.source, known.tied)
        self.body(block.body)

    def body(self, body: tuple[Node, ...]) -> None:
        """Check the body of a block, or a fragment."""
        known = self._known
        for guard in _guards(body):
            for trait in (*guard.all, *guard.none):
                self.name("trait", trait, guard.source, known.traits)
        for item in _inlines(body):
            if isinstance(item, TopicLink):
                self.name("topic", item.topic, item.source, known.topics)
            elif isinstance(item, Call):
                self._call(item)
        for node in body:
            for step in node.items if isinstance(node, Steps) else ():
                self.names("safety message", step.safety, known.messages)

    def _point(self, path: str, source: Source) -> None:
        slot, _, point = path.partition(".")
        points = self._known.points
        if slot not in self._known.slots:
            self.name("slot", slot, source, self._known.slots)
        elif path not in points and not self._unread(point, source, EQUIPMENT):
            near = sorted(name for name in points if name.startswith(f"{slot}."))
            self._faults.add(f'no kind of "{slot}" has the point "{path}"', source, nearest(path, near))

    def _call(self, call: Call) -> None:
        if call.name == "place":
            self._point(call.argument, call.source)
        elif call.name == "term":
            self.name("term", call.argument, call.source, self._known.terms)
        elif call.name == "say":
            self._of_kind(call, f'no kind says "{call.argument}"', self._known.sentences)
        elif call.name == "drawing" and "." in call.argument:
            self._of_kind(call, f'no kind has a drawing "{call.argument}"', self._known.drawings)
        elif call.name == "picture":
            self.name("picture", call.argument, call.source, self._known.pictures)

    def _of_kind(self, call: Call, message: str, names: Collection[str]) -> None:
        """Check a call of something that kinds have; names of the same slot are offered."""
        slot, _, name = call.argument.partition(".")
        if call.argument not in names and not self._unread(name, call.source, EQUIPMENT):
            near = sorted(name for name in names if name.startswith(f"{slot}."))
            self._faults.add(message, call.source, nearest(call.argument, near))


EQUIPMENT, _MARKETS = "content/equipment", "content/markets"
_GIVEN_BY = {  # what is named -> how the files begin that may give the name
    "trait": (EQUIPMENT, "content/traits.yaml"),
    "topic": ("content/outline.yaml",),
    "safety message": ("content/safety",),
    "term": ("content/terms.yaml",),
    "group of tied words": ("content/terms.yaml",),
    "slot": (f"{EQUIPMENT}/slots.yaml",),
    "picture": ("content/pictures.yaml", EQUIPMENT),
    "mark": ("content/blocks", "content/fragments"),
    "pictogram": (),  # by the program alone
}
_STARTED = {"topic": "block FORM", "safety message": "message"}  # what is unknown -> words that start it


def _hint(what: str, word: str, names: Collection[str]) -> str:
    """Return the name that was meant, or how something new of that name is started."""
    if what in _STARTED and not get_close_matches(word, names, n=1, cutoff=0.8):
        return f"if it is new: lockerleaf new {_STARTED[what]} {word}"
    return nearest(word, names)


def first_traits(catalogue: Catalogue, markets: Iterable[str]) -> frozenset[str]:
    """Return the traits that a van has without any derived one."""
    return frozenset(_first_traits(catalogue, markets))


def _guards(body: tuple[Node, ...]) -> Iterator[Guard]:
    """Return every guard of a body."""
    for node in body:
        if isinstance(node, Paragraph):
            candidates = [node.guard, *(line.guard for line in node.lines)]
        elif isinstance(node, Steps | Bullets):
            entries: tuple[Step | Bullet, ...] = node.items
            candidates = [guard for item in entries for guard in (item.guard, *(line.guard for line in item.lines))]
        elif isinstance(node, Table):
            candidates = [row.guard for row in node.rows]
        else:
            candidates = [node.guard] if isinstance(node, Standalone) else []
        yield from (guard for guard in candidates if guard is not None)


def _inlines(body: tuple[Node, ...]) -> Iterator[Inline]:
    """Return every piece of a body's lines, those inside others too."""
    for node in body:
        if isinstance(node, Paragraph):
            pieces = [piece for line in node.lines for piece in line.content]
        elif isinstance(node, Steps | Bullets):
            pieces = [piece for item in node.items for line in item.lines for piece in line.content]
        elif isinstance(node, Table):
            rows = (node.head, *(row.cells for row in node.rows))
            pieces = [piece for cells in rows for cell in cells for piece in cell]
        else:
            pieces = [node.call] if isinstance(node, Standalone) else []
        yield from _with_inner(pieces)


def _with_inner(pieces: Iterable[Inline]) -> Iterator[Inline]:
    for piece in pieces:
        yield piece
        if isinstance(piece, Strong | Emphasis | TopicLink):
            yield from _with_inner(piece.children)
