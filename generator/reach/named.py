"""Who names a subject: blocks, kinds, rules, numbers, each with its position and how it does.

In which vans that shows is left to ``hits``.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.errors import Source
from generator.model.blocks import Block, Call, TopicLink
from generator.model.catalogue import Kind
from generator.model.content import Workspace
from generator.model.numbers import Declared
from generator.model.sourced import Given
from generator.model.uses import guarded, uses
from generator.reach.subjects import Subject


@dataclass(frozen=True, slots=True, order=True)
class Named:
    """A place in the sources that names a subject, and how."""

    source: Source
    how: str


def named(subject: Subject, workspace: Workspace, declared: Mapping[str, Declared]) -> tuple[Named, ...]:
    """Return every place of the sources that names ``subject``, by file and line; numbers stand first."""
    found = {*_by_blocks(subject, workspace), *_by_catalogue(subject, workspace), *_by_numbers(subject, declared)}
    return tuple(sorted(found))


def _by_blocks(subject: Subject, workspace: Workspace) -> Iterator[Named]:
    for block in workspace.content.blocks:
        yield from _by_block(subject, block, workspace)
    if subject.sort in ("topic", "block"):
        topic = topic_of(subject, workspace)
        for id_, phase in workspace.content.outline.phases.items():
            yield from (Named(one.source, f"checklist {id_}") for one in phase.topics if one.value == topic)


def topic_of(subject: Subject, workspace: Workspace) -> str:
    """Return the topic that a topic or block stands for."""
    blocks = (block for block in workspace.content.blocks if block.id == subject.id)
    return subject.id if subject.sort == "topic" else next((block.topic.value for block in blocks), "")


def _by_block(subject: Subject, block: Block, workspace: Workspace) -> Iterator[Named]:
    id_ = subject.id
    match subject.sort:
        case "block" | "topic":
            topic = topic_of(subject, workspace)
            if subject.sort == "topic" and block.topic.value == id_:
                yield Named(block.topic.source, f"answered by {block.id}")
            for use in uses(block):
                if isinstance(use.thing, TopicLink) and use.thing.topic == topic:
                    yield Named(use.source, f"linked from {use.part} of {block.id}")
        case "message":
            yield from (Named(given.source, f"hazard of {block.id}") for given in block.hazards if given.value == id_)
            yield from _calls(block, ("safety",), lambda argument: argument == id_)
        case "number" | "table" | "term":
            yield from _calls(block, (subject.sort,), lambda argument: argument == id_)
        case "kind" | "slot":
            slot = id_.partition("/")[0]
            points = (given for given in block.at if given.value.partition(".")[0] == slot)
            yield from (Named(given.source, f"{block.id} stands at {given.value}") for given in points)
            yield from _calls(block, ("say", "place", "drawing"), lambda argument: argument.partition(".")[0] == slot)
        case "trait":
            yield from _conditions(id_, block)
        case "picture":
            names = (subject.id, *picture_names(subject.id, workspace))
            yield from _calls(block, ("picture",), lambda argument: argument in names)
        case "fragment":
            yield from (Named(one.source, f"included by {block.id}") for one in block.fragments if one.value == id_)


def picture_names(id_: str, workspace: Workspace) -> tuple[str, ...]:
    """Return the names that kinds give a picture of the content: "coupling.locked"."""
    kinds = workspace.catalogue.kinds.items()
    return tuple(
        f"{slot}.{name}" for (slot, _), kind in kinds for name, given in kind.pictures.items() if given.value == id_
    )


def _calls(block: Block, names: Iterable[str], wanted: Callable[[str], bool]) -> Iterator[Named]:
    for use in uses(block):
        thing = use.thing
        if isinstance(thing, Call) and thing.name in names and wanted(thing.argument):
            yield Named(use.source, f"{thing.name} in {use.part} of {block.id}")


def _conditions(trait: str, block: Block) -> Iterator[Named]:
    for given in block.applies.all:
        yield from (Named(given.source, f"{block.id} applies with it") for _ in (1,) if given.value == trait)
    for given in block.applies.none:
        yield from (Named(given.source, f"{block.id} applies without it") for _ in (1,) if given.value == trait)
    for part in guarded(block):
        own = part.guards[-1]
        if trait in own.all:
            yield Named(own.source, f"shows {part.part} of {block.id}")
        if trait in own.none:
            yield Named(own.source, f"hides {part.part} of {block.id}")


def _by_catalogue(subject: Subject, workspace: Workspace) -> Iterator[Named]:
    catalogue, id_ = workspace.catalogue, subject.id
    for (slot, _), kind in catalogue.kinds.items():
        yield from _by_kind(subject, f"{slot}/{kind.id}", kind)
    if subject.sort == "trait":
        for rule in catalogue.rules:
            if id_ in _values((*rule.when, *rule.need, *rule.exclude)):
                yield Named(rule.source, f"rule: {rule.why}" if rule.why else "a rule")
        for derived in catalogue.derived:
            if id_ in _values((*derived.any, *derived.all, *derived.none)):
                yield Named(derived.source, f"trait {derived.id} follows from it")
        for words in workspace.content.terms.tied:
            if words.trait.value == id_:
                yield Named(words.trait.source, f"words tied to it: {words.id}")


def _by_kind(subject: Subject, name: str, kind: Kind) -> Iterator[Named]:
    if subject.sort in ("kind", "slot") and subject.id in (name, kind.slot):
        yield Named(kind.source, f"the kind {name}")
    means = tuple(control.means for control in kind.controls.values() if control.means)
    lists: tuple[tuple[str, tuple[Given[str], ...], str], ...] = (
        ("trait", kind.traits, f"given by {name}"),
        ("message", kind.hazards, f"brought by {name}"),
        ("topic", kind.must_answer, f"must be answered for {name}"),
        ("topic", means, f"a control of {name} leads to it"),
    )
    for sort, given, how in lists:
        if sort == subject.sort:
            yield from (Named(one.source, how) for one in given if one.value == subject.id)


def _by_numbers(subject: Subject, declared: Mapping[str, Declared]) -> Iterator[Named]:
    at = Source("generator/compute")
    for number in declared.values():
        if subject.sort in ("number", "table") and subject.id in number.uses:
            yield Named(at, f"{number.form} {number.id} is worked out from it")
        if subject.sort == "trait" and subject.id in (*number.all_of, *number.none_of):
            yield Named(at, f"{number.form} {number.id} depends on it")
        if subject.sort in ("kind", "slot") and needs_slot(number, subject.id.partition("/")[0]):
            yield Named(at, f"{number.form} {number.id} reads it")


def needs_slot(number: Declared, slot: str) -> bool:
    """Return whether a number reads a fact of ``slot`` by name; stars stand for whatever is fitted."""
    return any(path.partition(".")[0] == slot for path in (*number.needs, *number.optional))


def _values(given: Iterable[Given[str]]) -> frozenset[str]:
    return frozenset(one.value for one in given)
