"""Where a subject shows in one van: pages, checklists, labels, booklet, walk-round sheet, numbers.

Found in the finished manual wherever it can be seen there (messages, values, blocks), in the sources elsewhere.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from generator.model import pages as p
from generator.model.blocks import Block, Call, Guard
from generator.model.caravan import Caravan, Equipment
from generator.model.content import Workspace
from generator.model.holes import HoleValue, Summary, Working
from generator.model.manual import Manual
from generator.model.numbers import Declared
from generator.model.pictures import Picture
from generator.model.specs import Spec
from generator.model.uses import guarded, lines, uses
from generator.pipeline.examining import Examined
from generator.reach.named import needs_slot
from generator.reach.subjects import Subject

Where = Literal["manual", "page", "checklist", "label", "walk-round", "booklet", "number"]
_WHOLE = ("market", "van", "model", "dealer", "outline")  # touch every page
_PRINTED = ("topic", "emergency", "checklist", "place", "lights", "numbers", "safety", "home")  # in the booklet


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """One thing of one van that a change of the subject touches."""

    subject: Subject
    van: str  # its build sheet
    name: str  # model and the end of the chassis number
    where: Where
    path: str  # from the manual's root, or the name of the paper
    title: str


@dataclass(frozen=True, slots=True)
class _Touched:
    """Blocks of one van: those that stand in it because of the subject, and those with a line that does."""

    whole: frozenset[str] = frozenset()
    lines: frozenset[str] = frozenset()


def hits(subject: Subject, van: Examined, workspace: Workspace, declared: Mapping[str, Declared]) -> tuple[Hit, ...]:
    """Return everything of ``van`` that a change of ``subject`` touches; nothing for a van without manual.

    Args:
        subject: What changes.
        van: A van as far as it could be made.
        workspace: Where blocks and build sheets are looked up.
        declared: What every number declares.
    """
    manual = van.manual
    if manual is None:
        return ()
    name = f"{manual.model} {manual.tail}"
    rows = dict.fromkeys(_rows(subject, van, manual, workspace, declared))
    return tuple(
        Hit(subject=subject, van=van.file, name=name, where=where, path=path, title=title)
        for where, path, title in rows
    )


_Row = tuple[Where, str, str]
Values = Mapping[str, HoleValue]


def _rows(
    subject: Subject, van: Examined, manual: Manual, workspace: Workspace, declared: Mapping[str, Declared]
) -> Iterator[_Row]:
    if subject.sort in _WHOLE:
        if _is_of(subject, van, workspace):
            yield "manual", "index.html", f"all {len(manual.pages)} pages"
        return
    touched = _touched(subject, van.caravan, manual, workspace)
    codes = _places(subject, touched, van.caravan, workspace)
    pages = [page for page in manual.pages if _shows(page, subject, touched, codes, manual.values)]
    yield from (("checklist" if page.template == "checklist" else "page", page.path, page.title) for page in pages)
    yield from (("label", label.path, f"{label.code} {label.name}") for label in manual.labels if label.code in codes)
    topics = {block.topic.value for block in workspace.content.blocks if block.id in touched.whole}
    yield from (
        ("walk-round", f"{stop.code}/", line.line)
        for stop in manual.walkround
        for line in stop.lines
        if line.topic in topics
    )
    if printed := [page for page in pages if page.template in _PRINTED]:
        yield "booklet", "booklet.pdf", f"{len(printed)} of its pages" if len(printed) > 1 else printed[0].title
    yield from (("number", "numbers.html", title) for title in _numbers(subject, van, declared))


def _is_of(subject: Subject, van: Examined, workspace: Workspace) -> bool:
    match subject.sort:
        case "van":
            return van.file == subject.id
        case "market":
            return van.caravan.market.id == subject.id
        case "dealer":
            return van.caravan.dealer.id == subject.id
        case "model":
            return subject.id in _models(workspace.vans[van.file], workspace)
        case _:
            return True


def _models(spec: Spec, workspace: Workspace) -> Iterator[str]:
    """Yield the models that a build sheet is based on, nearest first; ``resolve`` has refused a circle."""
    while spec.based_on is not None:
        yield spec.based_on.value
        spec = workspace.models[spec.based_on.value]


# --- what a subject touches -------------------------------------------------------------------------


def _touched(subject: Subject, caravan: Caravan, manual: Manual, workspace: Workspace) -> _Touched:
    blocks = [block for block in workspace.content.blocks if block.id in manual.blocks]
    match subject.sort:
        case "block":
            return _Touched(whole=frozenset({subject.id} & set(manual.blocks)))
        case "topic":
            return _Touched(whole=frozenset(block.id for block in blocks if block.topic.value == subject.id))
        case "term":
            return _Touched(lines=frozenset(block.id for block in blocks if _calls(block, "term", subject.id, caravan)))
        case "picture":
            shown = {name for name, one in caravan.pictures.items() if _is_picture(one, subject.id, workspace)}
            called = [block for block in blocks if any(_calls(block, "picture", name, caravan) for name in shown)]
            return _Touched(lines=frozenset(block.id for block in called))
        case "fragment":
            return _Touched(lines=frozenset(block.id for block in blocks if _includes(block, subject.id, caravan)))
        case "kind" | "slot":
            fitted = _fitted(subject, caravan)
            return _of_equipment(fitted, blocks, caravan) if fitted else _Touched()
        case "trait":
            return _of_trait(subject.id, blocks, caravan, workspace)
        case _:  # messages and values are looked for on the pages
            return _Touched()


def _fitted(subject: Subject, caravan: Caravan) -> tuple[Equipment, ...]:
    return tuple(one for one in caravan.equipment if subject.id in (one.slot.id, f"{one.slot.id}/{one.kind.id}"))


def _of_equipment(fitted: tuple[Equipment, ...], blocks: list[Block], caravan: Caravan) -> _Touched:
    slots = {one.slot.id for one in fitted}
    gives = {one.slot.trait for one in fitted} | {trait.value for one in fitted for trait in one.kind.traits}
    asked = {block.id for block in blocks if gives & {trait.value for trait in block.applies.all}}
    stands = {block.id for block in blocks if slots & {given.value.partition(".")[0] for given in block.at}}
    names = [f"{one.slot.id}.{name}" for one in fitted for name in (*one.kind.say, *one.at, *one.kind.drawings)]
    lines = {
        block.id
        for block in blocks
        for name in names
        for call in ("say", "place", "drawing")
        if _calls(block, call, name, caravan)
    }
    return _Touched(whole=frozenset(asked | stands), lines=frozenset(lines))


def _of_trait(trait: str, blocks: list[Block], caravan: Caravan, workspace: Workspace) -> _Touched:
    """A trait touches what it brings, and where it is missing what stands there for want of it."""
    wanted = {trait}
    for derived in workspace.catalogue.derived:  # in an order in which each only uses earlier ones
        if wanted & {one.value for one in (*derived.any, *derived.all, *derived.none)}:
            wanted.add(derived.id)
    applies = {
        block.id for block in blocks if wanted & {one.value for one in (*block.applies.all, *block.applies.none)}
    }
    lines = {
        block.id
        for block in blocks
        for part in guarded(block)
        if wanted & {*part.guards[-1].all, *part.guards[-1].none} and _hold(part.guards, caravan)
    }
    return _Touched(whole=frozenset(applies), lines=frozenset(lines))


def _calls(block: Block, name: str, argument: str, caravan: Caravan) -> bool:
    """Return whether a line that ``caravan`` shows makes this call."""
    return any(
        isinstance(use.thing, Call)
        and (use.thing.name, use.thing.argument) == (name, argument)
        and _hold(use.guards, caravan)
        for use in uses(block)
    )


def _is_picture(picture: Picture, id_: str, workspace: Workspace) -> bool:
    """Return whether a van's picture is this one of the content, and not one of its own in its place."""
    return picture.alt == workspace.content.pictures[id_].alt


def _includes(block: Block, fragment: str, caravan: Caravan) -> bool:
    """Return whether ``caravan`` shows a line that this fragment puts into a block."""
    file = f"content/fragments/{fragment}.md"
    return any(part.source.file == file and _hold(part.guards, caravan) for part in lines(block))


def _hold(guards: tuple[Guard, ...], caravan: Caravan) -> bool:
    return all(caravan.has(guard.all, guard.none) for guard in guards)


def _places(subject: Subject, touched: _Touched, caravan: Caravan, workspace: Workspace) -> frozenset[str]:
    """Return the codes of the places whose page names a touched block or the equipment itself."""
    own = {code for one in _fitted(subject, caravan) for code in one.at.values()}
    points = {given.value for block in workspace.content.blocks if block.id in touched.whole for given in block.at}
    return frozenset(own) | frozenset(
        code for one in caravan.equipment for point, code in one.at.items() if f"{one.slot.id}.{point}" in points
    )


# --- where it shows ---------------------------------------------------------------------------------


def _shows(page: p.Page, subject: Subject, touched: _Touched, codes: frozenset[str], values: Values) -> bool:
    if page.template == "checklist":
        return bool(touched.whole & set(page.blocks))
    if touched.whole & set(page.blocks) or touched.lines & set(page.blocks):
        return True
    if page.template == "place":
        return page.id in codes or _holds(page.body, subject, values)
    if page.template == "lights" and subject.sort in ("kind", "slot"):
        return bool(codes)
    return _holds(page.body, subject, values)


def _holds(nodes: tuple[p.Node, ...], subject: Subject, values: Values) -> bool:
    """Return whether a message or value stands among ``nodes``."""
    names = {f"{form}/{subject.id}" for form in ("number", "verdict", "table")}
    for node in nodes:
        match node:
            case p.Group(_, children) if _holds(children, subject, values):
                return True
            case p.SafetyBox(message) if subject == Subject("message", message.id):
                return True
            case p.Steps(items) if any(subject == Subject("message", one.id) for step in items for one in step.safety):
                return True
            case p.FragmentHole(name) if subject.sort in ("number", "table"):
                if name in names or _works_out(values.get(name), subject):
                    return True
        if subject.sort == "number" and any(hole in names for hole in _holes(node)):
            return True
    return False


def _works_out(value: HoleValue | None, subject: Subject) -> bool:
    """Return whether a value is the working or the row of a number or table."""
    if not isinstance(value, Working | Summary):
        return False
    return subject.id in {*(one.id for one in value.numbers), *(one.id for one in value.tables)}


def _holes(of: object) -> Iterator[str]:
    """Yield the names of the text holes in lines, wherever in a node they stand."""
    match of:
        case p.TextHole(name):
            yield name
        case tuple():
            for one in of:
                yield from _holes(one)
        case p.Paragraph(lines) | p.Step(lines=lines):
            yield from _holes(lines)
        case p.Steps(items) | p.Bullets(items):
            yield from _holes(items)
        case p.Table(head, rows):
            yield from _holes((head, rows))
        case p.Strong(children) | p.Emphasis(children) | p.Ref(children=children):
            yield from _holes(children)


def _numbers(subject: Subject, van: Examined, declared: Mapping[str, Declared]) -> Iterator[str]:
    """Yield the titles of the numbers of this van that read the equipment, by name."""
    for one in _fitted(subject, van.caravan) if subject.sort in ("kind", "slot") else ():
        for number in declared.values():
            if needs_slot(number, one.slot.id) and number.holds(van.caravan.traits):
                yield number.title
