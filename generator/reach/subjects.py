"""What was asked for: a block, topic, message, number, kind, trait or the like, by id or by its file.

One id may name several things ("gas" is a slot and a trait): each is answered.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Literal

from generator.errors import Fault, ManualError, nearest
from generator.model.content import Workspace
from generator.model.numbers import Declared

Sort = Literal[
    "block", "topic", "message", "number", "table", "kind", "slot", "trait", "term", "market", "van", "model", "dealer",
    "outline", "fragment", "picture",
]  # fmt: skip

_NO_NAME = (
    "an id, or the file it stands in; a file that is read as a whole, such as content/order.yaml, touches every van"
)


@dataclass(frozen=True, slots=True, order=True)
class Subject:
    """Something a change may touch; ``id`` of a kind is slot/kind, of a van its file."""

    sort: Sort
    id: str

    @property
    def names(self) -> tuple[str, ...]:
        """What it is asked for by: its id; a van also by the name of its file, as in a preview."""
        ids = (self.id, PurePosixPath(self.id).stem) if self.sort == "van" else (self.id,)
        return (*ids, *(f"{self.sort}:{id_}" for id_ in ids))

    def __str__(self) -> str:
        return f"{self.sort} {self.id}"


def known(workspace: Workspace, declared: Mapping[str, Declared]) -> tuple[Subject, ...]:
    """Return everything that can be asked for."""
    return tuple(dict.fromkeys(_known(workspace, declared)))


def _known(workspace: Workspace, declared: Mapping[str, Declared]) -> Iterator[Subject]:
    content, catalogue = workspace.content, workspace.catalogue
    yield from (Subject("block", block.id) for block in content.blocks)
    yield from (Subject("topic", topic) for topic in topics(workspace))
    yield from (Subject("message", message) for message in content.safety)
    yield from (Subject("number" if one.form == "number" else "table", id_) for id_, one in declared.items())
    yield from (Subject("kind", f"{slot}/{kind}") for slot, kind in catalogue.kinds)
    yield from (Subject("slot", slot) for slot in catalogue.slots)
    yield from (Subject("trait", trait) for trait in traits(workspace))
    yield from (Subject("term", term) for term in content.terms.trade)
    yield from (Subject("fragment", fragment) for fragment in content.fragments)
    yield from (Subject("picture", picture) for picture in content.pictures)
    yield from (Subject("market", market) for market in workspace.markets)
    yield from (Subject("van", file) for file in workspace.vans)
    yield from (Subject("model", model) for model in workspace.models)
    yield from (Subject("dealer", dealer) for dealer in workspace.dealers)


def topics(workspace: Workspace) -> Iterator[str]:
    """Yield every topic of the outline."""
    pages = (page for section in workspace.content.outline.sections for page in section.pages)
    yield from (topic.value for page in pages for topic in page.topics)


def traits(workspace: Workspace) -> Iterator[str]:
    """Yield every trait a van may have."""
    catalogue = workspace.catalogue
    yield from ("single-axle", "twin-axle")
    yield from (f"market-{market}" for market in workspace.markets)
    yield from (slot.trait for slot in catalogue.slots.values())
    yield from (trait.value for kind in catalogue.kinds.values() for trait in kind.traits)
    yield from (trait.id for trait in catalogue.derived)


def of_words(words: Iterable[str], workspace: Workspace, declared: Mapping[str, Declared]) -> tuple[Subject, ...]:
    """Return the subjects that words name: ids, ``sort:id`` where one id names several things, or files.

    Raises:
        ManualError: a word names nothing.
    """
    everything = known(workspace, declared)
    found, faults = [], []
    for word in words:
        one = [each for each in everything if word in each.names]
        one = one or list(of_files([word], workspace))
        found += one
        if not one:
            hint = nearest(word, {each.names[-1].partition(":")[2] for each in everything}) or _NO_NAME
            faults.append(Fault(f'nothing is called "{word}"', hint=hint))
    if faults:
        raise ManualError(*faults)
    return tuple(dict.fromkeys(found))


def of_files(files: Iterable[str], workspace: Workspace) -> tuple[Subject, ...]:
    """Return the subjects that files hold; a file that no manual is made from has none."""
    return tuple(dict.fromkeys(subject for file in files for subject in _of_file(PurePosixPath(file), workspace)))


def _of_file(path: PurePosixPath, workspace: Workspace) -> Iterator[Subject]:
    parts, stem = path.parts, path.stem
    content = workspace.content
    match parts:
        case ("content", "blocks", *_):
            yield from (Subject("block", block.id) for block in content.blocks if block.source.file == str(path))
        case ("content", "fragments", _):
            yield from (Subject("fragment", stem) for _ in (1,) if stem in content.fragments)
        case ("content", "pictures", _):
            entries = content.pictures.items()
            yield from (Subject("picture", id_) for id_, entry in entries if entry.file.value == path.name)
        case ("content", "pictures.yaml"):
            yield from (Subject("picture", picture) for picture in content.pictures)
        case ("content", "safety", _):
            yield from (Subject("message", stem) for _ in (1,) if stem in content.safety)
        case ("content", "equipment", "slots.yaml"):
            yield from (Subject("slot", slot) for slot in workspace.catalogue.slots)
        case ("content", "equipment", "rules.yaml") | ("content", "traits.yaml"):
            yield from (Subject("trait", trait.id) for trait in workspace.catalogue.derived)
        case ("content", "equipment", slot, _):
            yield from (Subject("kind", f"{slot}/{stem}") for _ in (1,) if (slot, stem) in workspace.catalogue.kinds)
        case ("content", "markets", _):
            yield from (Subject("market", stem) for _ in (1,) if stem in workspace.markets)
        case ("content", "terms.yaml"):
            yield from (Subject("term", term) for term in content.terms.trade)
        case ("content", "outline.yaml"):
            yield Subject("outline", str(path))
        case ("van_specs", "vans", _):
            yield from (Subject("van", str(path)) for _ in (1,) if str(path) in workspace.vans)
        case ("van_specs", "models", _):
            yield from (Subject("model", stem) for _ in (1,) if stem in workspace.models)
        case ("van_specs", "dealers", _):
            yield from (Subject("dealer", stem) for _ in (1,) if stem in workspace.dealers)
