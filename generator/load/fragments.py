"""Fragments: steps or paragraphs that several blocks share, each one file, put in where ``include`` stands alone.

Nodes keep the file and line they were written at, so that all later stages see one tree.
"""

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.errors import Source, nearest
from generator.load.body import read_body
from generator.load.documents import file_name, read_document
from generator.load.faults import Faults
from generator.load.inline import TRAIT
from generator.model.blocks import Call, Fragment, Node, Standalone, Step, Steps
from generator.model.sourced import Given

FOLDER = "content/fragments"


def read_fragments(root: Path, faults: Faults) -> dict[str, Fragment]:
    """Return all fragments of a workspace by id, which is the file name."""
    for path in sorted((root / FOLDER).glob("*")):
        if path.suffix != ".md" and not path.name.startswith("."):
            faults.add("this file is not read", Source(file_name(root, path)), 'fragments end in ".md"')
    found = (_read(root, path, faults) for path in sorted((root / FOLDER).glob("*.md")))
    return {fragment.id: fragment for fragment in found if fragment is not None}


def _read(root: Path, path: Path, faults: Faults) -> Fragment | None:
    document = read_document(root, path, faults)
    if document is None:
        return None
    at = Source(document.file)
    body = read_body(document.file, document.text, 1, faults)
    if not TRAIT.fullmatch(path.stem):
        faults.add(f'"{path.stem}" is no name for a fragment', at, 'name the file in kebab-case, "smell-gas.md"')
    if not body:
        faults.add("this fragment has no text", at, "write steps or paragraphs, without front matter")
    for call in _includes(body):
        faults.add("a fragment includes no other", call.source, "write the words out, or include both in the block")
    return Fragment(id=path.stem, body=body, digest=document.digest, source=at)


def _includes(body: tuple[Node, ...]) -> Iterator[Call]:
    for node in body:
        for part in node.items if isinstance(node, Steps) else (node,):
            if call := included_by(part):
                yield call


def included_by(part: object) -> Call | None:
    """Return the call of a step or paragraph that is nothing but an ``include``."""
    if isinstance(part, Standalone) and part.call.name == "include":
        return part.call
    if isinstance(part, Step) and len(part.lines) == 1 and len(part.lines[0].content) == 1:
        only = part.lines[0].content[0]
        return only if isinstance(only, Call) and only.name == "include" else None
    return None


class Includer:
    """Puts fragments into the body of one block, and notes which."""

    def __init__(self, fragments: Mapping[str, Fragment], faults: Faults) -> None:
        self._fragments, self._faults = fragments, faults
        self._used: list[Given[str]] = []

    @property
    def used(self) -> tuple[Given[str], ...]:
        """The fragments put in so far, each where it was asked for."""
        return tuple(self._used)

    def digest(self, own: str) -> str:
        """Return the digest of a block together with what it includes: editing a fragment edits the block."""
        if not self._used:
            return own
        digests = [self._fragments[given.value].digest for given in self._used]
        return hashlib.sha256("\n".join([own, *digests]).encode()).hexdigest()

    def body(self, nodes: tuple[Node, ...]) -> tuple[Node, ...]:
        """Return ``nodes`` with every include replaced; lists of steps that then touch are counted through."""
        result: list[Node] = []
        for node in nodes:
            put_in = included_by(node) is not None
            for one in self._of(node):
                last = result[-1] if result else None
                joins = isinstance(one, Steps) and isinstance(last, Steps) and (put_in or self._ends_with_include)
                if joins and isinstance(one, Steps) and isinstance(last, Steps):
                    result[-1] = Steps((*last.items, *one.items), last.source)
                else:
                    result.append(one)
            self._ends_with_include = put_in
        return tuple(result)

    _ends_with_include = False

    def _of(self, node: Node) -> tuple[Node, ...]:
        call = included_by(node)
        if call is not None and isinstance(node, Standalone):
            self._refuse(node.guard is not None, call)
            fragment = self._found(call)
            return fragment.body if fragment else ()
        if isinstance(node, Steps):
            return (Steps(tuple(step for item in node.items for step in self._steps(item)), node.source),)
        return (node,)

    def _steps(self, step: Step) -> tuple[Step, ...]:
        call = included_by(step)
        if call is None:
            return (step,)
        self._refuse(bool(step.guard or step.mark or step.safety or step.lines[0].guard), call)
        fragment = self._found(call)
        if fragment is None or self._faults.spoil(fragment.source.file):
            return ()
        if len(fragment.body) != 1 or not isinstance(fragment.body[0], Steps):
            hint = f"{fragment.source.file} holds other things than steps: include it between blank lines"
            self._faults.add("a step can include steps only", call.source, hint)
            return ()
        return fragment.body[0].items

    def _refuse(self, conditional: bool, call: Call) -> None:
        if conditional:
            hint = f"put them on the steps in {FOLDER}/{call.argument}.md"
            self._faults.add("an include has no guard, mark or message of its own", call.source, hint)

    def _found(self, call: Call) -> Fragment | None:
        fragment = self._fragments.get(call.argument)
        if fragment is not None:
            self._used.append(Given(call.argument, call.source))
        elif not self._faults.spoil(f"{FOLDER}/{call.argument}.md"):
            hint = nearest(call.argument, self._fragments) or f"write {FOLDER}/{call.argument}.md"
            self._faults.add(f'unknown fragment "{call.argument}"', call.source, hint)
        return fragment
