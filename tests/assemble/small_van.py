"""Small vans and content built by hand, so that a test shows all that it depends on."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from generator.assemble import assemble
from generator.errors import ContentError, Source
from generator.model import blocks as b
from generator.model.caravan import Caravan, Equipment, Place, Trait
from generator.model.catalogue import Catalogue, Condition, Control, Kind, Slot
from generator.model.content import (
    Content,
    EmergencyNumber,
    LegalPoint,
    Market,
    Outline,
    OutlinePage,
    OutlineSection,
    Phase,
    SafetyMessage,
    Signal,
    Terms,
    TiedWords,
)
from generator.model.manual import Manual
from generator.model.numbers import DataTable, Number, Numbers
from generator.model.pages import Group, Node, Page
from generator.model.reviews import Review
from generator.model.site import PublishedVan
from generator.model.sourced import Fact, Given, Origin
from generator.model.specs import Dealer
from generator.units import Quantity, Rounding

HERE = Source("van_specs/vans/small.yaml")
Part = str | b.Inline


def given(value: str, line: int = 1, file: str = "content/given.yaml") -> Given[str]:
    return Given(value, Source(file, line))


def givens(*values: str) -> tuple[Given[str], ...]:
    return tuple(given(value) for value in values)


# --- blocks


def guard(words: str) -> b.Guard | None:
    """Read words such as "a, not b" as a guard; none for no words."""
    traits = [word.strip() for word in words.split(",") if word.strip()]
    wanted = tuple(trait for trait in traits if not trait.startswith("not "))
    unwanted = tuple(trait.removeprefix("not ") for trait in traits if trait.startswith("not "))
    return b.Guard(wanted, unwanted, HERE) if traits else None


def line(*parts: Part, when: str = "", at: Source = HERE) -> b.Line:
    return b.Line(guard(when), tuple(b.Text(part) if isinstance(part, str) else part for part in parts), at)


def lines(entries: Iterable[Part | b.Line]) -> tuple[b.Line, ...]:
    return tuple(entry if isinstance(entry, b.Line) else line(entry) for entry in entries)


def paragraph(*entries: Part | b.Line, when: str = "") -> b.Paragraph:
    return b.Paragraph(guard(when), lines(entries), HERE)


def opening(words: str, *rest: Part) -> b.Paragraph:
    """A paragraph that opens with strong words."""
    return paragraph(line(b.Strong((b.Text(words),)), *rest))


def step(*entries: Part | b.Line, when: str = "", safety: Sequence[str] = ()) -> b.Step:
    return b.Step(guard(when), None, givens(*safety), lines(entries), HERE)


def steps(*items: str | b.Step) -> b.Steps:
    return b.Steps(tuple(item if isinstance(item, b.Step) else step(item) for item in items), HERE)


def bullets(*items: tuple[str, str]) -> b.Bullets:
    """Pairs of guard and words."""
    return b.Bullets(tuple(b.Bullet(guard(when), (line(words),), HERE) for when, words in items), HERE)


def link(topic: str, words: str = "there", at: Source = HERE) -> b.TopicLink:
    return b.TopicLink(topic, (b.Text(words),), at)


def call(name: Any, argument: str, at: Source = HERE) -> b.Call:
    return b.Call(name, argument, at)


def block(
    topic: str,
    *body: b.Node,
    title: str = "",
    form: Any = "procedure",
    needs: Sequence[str] = (),
    without: Sequence[str] = (),
    at: Sequence[str] = (),
    hazards: Sequence[str] = (),
    checklist: str = "",
    walk: b.Walkround | None = None,
    words: tuple[str, ...] = (),
    allow: Mapping[str, str] | None = None,
    name: str = "",
) -> b.Block:
    """A block; without a body it is one step with the topic's name."""
    file = f"content/blocks/{name or topic}.md"
    return b.Block(
        id=name or topic,
        topic=Given(topic, Source(file, 2)),
        title=Given(title or f"Title of {topic}", Source(file, 3)),
        form=form,
        applies=Condition(all=givens(*needs), none=givens(*without)),
        at=givens(*at),
        hazards=tuple(Given(hazard, Source(file, 6)) for hazard in hazards),
        checklist=Given(checklist, Source(file, 7)) if checklist else None,
        walkround=walk,
        words=words,
        allow=allow or {},
        source=Source(file),
        body=body or (steps(f"Do {topic.replace('/', ' ')}."),),
        digest=f"digest of {name or topic}",
    )


def message(id_: str, signal: Signal = "WARNING", words: str = "") -> SafetyMessage:
    file = f"content/safety/{id_}.yaml"
    return SafetyMessage(
        id=id_,
        signal=signal,
        hazard=Given(words or f"Hazard {id_}.", Source(file, 2)),
        consequence=Given("Burns.", Source(file, 3)),
        avoid=Given("Keep away.", Source(file, 4)),
        source=Source(file),
    )


# --- content


def section(title: str, *pages: tuple[str, Sequence[str]], role: Any = "system", page_title: str | None = None) -> Any:
    """A section of pages given as (id, topics); ``page_title`` for pages of several topics."""
    made = (
        OutlinePage(id=given(id_, 5, "content/outline.yaml"), topics=givens(*topics), title=page_title)
        for id_, topics in pages
    )
    return OutlineSection(title=title, pages=tuple(made), role=role)


def content(
    blocks: Sequence[b.Block],
    sections: Sequence[OutlineSection] = (),
    *,
    phases: Mapping[str, tuple[str, Sequence[str]]] | None = None,
    safety: Sequence[SafetyMessage] = (),
    trade: Mapping[str, Mapping[str, str]] | None = None,
    asked: tuple[tuple[str, ...], ...] = (),
    tied: Sequence[TiedWords] = (),
) -> Content:
    """Content; without sections each topic has a page of its own, in one section."""
    topics = dict.fromkeys(one.topic.value for one in blocks)
    own = section("System", *((topic.replace("/", "-"), (topic,)) for topic in topics))
    made = {id_: Phase(title=title, topics=givens(*topics)) for id_, (title, topics) in (phases or {}).items()}
    return Content(
        outline=Outline(sections=tuple(sections) or (own,), phases=made, source=Source("content/outline.yaml")),
        blocks=tuple(blocks),
        safety={one.id: one for one in safety},
        terms=Terms(trade=trade or {}, asked=asked, tied=tuple(tied), source=Source("content/terms.yaml")),
    )


def tied(trait: str, *words: str) -> TiedWords:
    return TiedWords(id=trait, trait=given(trait), words=words)


# --- the van


def place(
    code: str, name: str = "", *, where: Any = "outside", label: bool = False, limit: str = "", drawn: bool = True
) -> Place:
    return Place(
        code=code,
        name=name or f"Place {code}",
        where=where,
        position=(Quantity(2.0, "m"), Quantity(0.5, "m")) if drawn else None,
        max_contents=Fact(Quantity(float(limit), "kg"), Origin.PLATE, HERE) if limit else None,
        vented=False,
        label=label,
        source=Source(HERE.file, 20),
    )


def fitted(
    slot: str,
    kind: str = "plain",
    *,
    at: Mapping[str, str] | None = None,
    name: str = "",
    say: Mapping[str, str] | None = None,
    points: Mapping[str, Any] | None = None,
    hazards: Sequence[str] = (),
    must_answer: Sequence[str] = (),
    controls: Mapping[str, Control] | None = None,
    panels: Mapping[str, Sequence[Sequence[str]]] | None = None,
    states: Mapping[str, Mapping[str, str]] | None = None,
) -> Equipment:
    at = at or {}
    made = Kind(
        id=kind,
        slot=slot,
        name=kind,
        points=points or dict.fromkeys(at, "required"),
        hazards=givens(*hazards),
        must_answer=givens(*must_answer),
        controls=controls or {},
        panels={point: tuple(givens(*row) for row in rows) for point, rows in (panels or {}).items()},
        states={name: {id_: given(to) for id_, to in state.items()} for name, state in (states or {}).items()},
        say={key: given(words, 9) for key, words in (say or {}).items()},
        source=Source(f"content/equipment/{slot}/{kind}.yaml"),
    )
    words = name or slot.replace("_", " ").capitalize()
    return Equipment(slot=Slot(id=slot, name=words, source=HERE), kind=made, key=slot, at=at, source=HERE)


def control(at: str, **given_: Any) -> Control:
    means = given_.pop("means", None)
    source = Source("content/equipment/k.yaml", 12)
    return Control(at=given(at), means=Given(means, source) if means else None, source=source, **given_)


def caravan(
    *equipment: Equipment,
    traits: Sequence[str] = (),
    places: Sequence[Place] = (),
    model: str = "Small 300",
    emergency: tuple[EmergencyNumber, ...] = (EmergencyNumber(name="Fire, ambulance, police", number="999"),),
    legal: tuple[LegalPoint, ...] = (),
) -> Caravan:
    """A van with ``traits`` beside those of its filled slots."""
    reasons = {one.slot.trait: f"{one.slot.id}: {one.kind.id}" for one in equipment}
    reasons |= {trait: f"given {trait}" for trait in traits}
    return Caravan(
        chassis="ZZ9SM30ZZZZ000417",
        model=model,
        market=Market(
            id="uk",
            name="United Kingdom",
            language="en-GB",
            mains_voltage=Given(Quantity(230, "V"), HERE),
            pitch_ratings=Given((Quantity(10, "A"),), HERE),
            ball_load_share=Given((Quantity(5, "percent"), Quantity(7, "percent")), HERE),
            ball_load_source="guidance",
            pressure_unit="bar",
            speed_unit="mph",
            gas_supply="propane",
            emergency=emergency,
            legal=legal,
            source=HERE,
        ),
        dealer=Dealer(
            id="quayside",
            name=given("Quayside Vans"),
            phone=given("01632 960123"),
            library=given("https://vans.example/"),
            address=("1 Quay", "Porthaven"),
            source=HERE,
        ),
        built=None,
        handed_over=None,
        traits={trait: Trait(id=trait, reason=reason) for trait, reason in reasons.items()},
        places=tuple(places),
        equipment=equipment,
        circuits=(),
        facts={
            "body.length": Fact(Quantity(4.8, "m"), Origin.PLATE, HERE),
            "body.width": Fact(Quantity(2230, "mm"), Origin.PLATE, HERE),
            "body.overall_length": Fact(Quantity(6.35, "m"), Origin.PLATE, HERE),
            "body.coupling_to_axle": Fact(Quantity(3.98, "m"), Origin.PLATE, HERE),
            "axles": Fact(1, Origin.PLATE, HERE),
        },
        not_in_unladen=(),
        unladen_measured=False,
        source=HERE,
    )


def number(id_: str, shown: str = "74 kg", group: str = "Masses") -> Number:
    return Number(
        id=id_,
        group=group,
        title=f"Title of {id_}",
        value=None,
        shown=shown,
        method="weighed",
        source="common practice, no source",
        rounding=Rounding.DOWN,
    )


def numbers(*made: Number, tables: Sequence[DataTable] = (), left: Mapping[str, Number] | None = None) -> Numbers:
    return Numbers(
        numbers={one.id: one for one in made},
        tables={one.id: one for one in tables},
        place_limits=left or {},
    )


def table(id_: str, group: str = "Masses") -> DataTable:
    return DataTable(
        id=id_, title=f"Title of {id_}", head=("What", "Mass"), rows=(("Gas bottle", "9 kg"),), group=group
    )


def published(pages: Sequence[str], places: Mapping[str, str] | None = None) -> PublishedVan:
    from datetime import date

    return PublishedVan(
        chassis="ZZ9SM30ZZZZ000417",
        folder="7K3QX9F4WM",
        edition=1,
        day=date(2026, 11, 20),
        digest="",
        pages=tuple(pages),
        places=places or {},
        record={},
    )


# --- results

EMPTY = Catalogue(slots={}, kinds={}, rules=(), derived=())


def manual(
    made: Content,
    van: Caravan | None = None,
    nums: Numbers | None = None,
    previous: PublishedVan | None = None,
    reviews: tuple[Review, ...] = (),
) -> Manual:
    """The manual of ``van`` (a bare van without one); the catalogue holds the van's own slots."""
    van = van or caravan()
    slots = {one.slot.id: one.slot for one in van.equipment}
    catalogue = Catalogue(slots=slots, kinds={}, rules=(), derived=())
    return assemble(van, nums or numbers(), made, catalogue, previous, reviews)


def faults(made: Content, van: Caravan | None = None, nums: Numbers | None = None) -> list[str]:
    """The faults as printed, hints on lines of their own; empty when there are none."""
    try:
        manual(made, van, nums)
    except ContentError as error:
        return [str(fault) for fault in error.faults]
    return []


def page(made: Manual, path: str) -> Page:
    return next(one for one in made.pages if one.path == path)


def group(of: Page, role: str) -> tuple[Node, ...]:
    """The nodes of a group on a page; empty when it is not there."""
    return next((node.children for node in of.body if isinstance(node, Group) and node.role == role), ())


def answer(of: Page) -> tuple[Node, ...]:
    """The body without the groups around it."""
    return tuple(node for node in of.body if not isinstance(node, Group))
