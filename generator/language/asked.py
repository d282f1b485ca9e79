"""Which rules and files somebody asks the language rules about.

What the rules say of them is left to the stage.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.errors import ContentError, Fault, Source, nearest
from generator.model.catalogue import Catalogue
from generator.model.content import Content


@dataclass(frozen=True, slots=True)
class Asked:
    """Ids of rules, and files relative to the workspace."""

    rules: frozenset[str]
    files: frozenset[str]

    def holds(self, rule: str, at: Source | None) -> bool:
        """Return whether a hit of ``rule`` at ``at`` was asked for."""
        return rule in self.rules or (at is not None and at.file in self.files)


def asked_for(names: Iterable[str], content: Content, catalogue: Catalogue) -> Asked:
    """Return what names ask for: rules, blocks, topics, kinds (slot/kind), messages, fragments, or their files.

    Raises:
        ContentError: a name is none of these.
    """
    rules = content.language.rules if content.language else {}
    files = _files(content, catalogue)
    everything = {*rules, *files, *(file for of in files.values() for file in of)}
    unknown = [name for name in names if name not in everything]
    if unknown:
        raise ContentError(*(Fault(f'no words are called "{name}"', hint=_hint(name, everything)) for name in unknown))
    return Asked(
        frozenset(names) & frozenset(rules), frozenset(file for name in names for file in files.get(name, {name}))
    )


def _hint(name: str, known: Iterable[str]) -> str:
    return nearest(name, known) or "a rule, a block, a kind (slot/kind), a safety message, a fragment, or its file"


def _files(content: Content, catalogue: Catalogue) -> Mapping[str, set[str]]:
    """Return the files that hold the words of each id; a topic and a fragment may share an id with others."""
    named = [
        *((block.id, block.source.file) for block in content.blocks),
        *((block.topic.value, block.source.file) for block in content.blocks),
        *((f"{slot}/{kind.id}", kind.source.file) for (slot, _), kind in catalogue.kinds.items()),
        *((id_, message.source.file) for id_, message in content.safety.items()),
        *((id_, fragment.source.file) for id_, fragment in content.fragments.items()),
        *((id_, "content/pictures.yaml") for id_ in content.pictures),
    ]
    files: dict[str, set[str]] = {}
    for id_, file in named:
        files.setdefault(id_, set()).add(file)
    return files
