"""One block file: front matter and body to a ``Block``.

Whether topics, traits, points and messages it names exist is checked by ``references``.
"""

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from generator import units
from generator.errors import Source
from generator.load.body import read_body
from generator.load.documents import Document, file_name, read_document
from generator.load.faults import Faults
from generator.load.fragments import Includer
from generator.load.nodes import read_nodes
from generator.load.reader import Reader
from generator.model.blocks import Block, Fragment

FOLDER = "content/blocks"
NO_FRAGMENTS: Mapping[str, Fragment] = MappingProxyType({})
_FENCE = "---"


def read_blocks(root: Path, faults: Faults, fragments: Mapping[str, Fragment] = NO_FRAGMENTS) -> tuple[Block, ...]:
    """Return all blocks of a workspace, ordered by id, with fragments put in."""
    paths = sorted((root / FOLDER).rglob("*.md"), key=lambda path: path.relative_to(root).as_posix())
    for path in sorted(path for path in (root / FOLDER).rglob("*") if path.is_file()):
        if path.suffix != ".md" and not path.name.startswith("."):
            faults.add("this file is not read", Source(file_name(root, path)), 'blocks end in ".md"')
    blocks = (read_block(root, path, faults, fragments) for path in paths)
    return tuple(block for block in blocks if block is not None)


def read_block(
    root: Path, path: Path, faults: Faults, fragments: Mapping[str, Fragment] = NO_FRAGMENTS
) -> Block | None:
    """Return one block, or None with faults."""
    document = read_document(root, path, faults)
    if document is None:
        return None
    id_ = path.relative_to(root / FOLDER).with_suffix("").as_posix()
    shared = frozenset((fragment.id, fragment.digest) for fragment in fragments.values())
    return faults.kept((document.file, document.digest, shared), lambda own: _read_block(id_, document, own, fragments))


def _read_block(id_: str, document: Document, faults: Faults, fragments: Mapping[str, Fragment]) -> Block | None:
    split = _split(document, faults)
    if split is None:
        return None
    front, body, body_line = split
    node = read_nodes(document.file, front, faults, first_line=2)
    includer = Includer(fragments, faults)
    nodes = includer.body(read_body(document.file, body, body_line, faults))
    if node is None:
        return None
    block: Block | None = Reader(faults).record(
        node,
        Block,
        id=id_,
        source=Source(document.file),
        body=nodes,
        digest=includer.digest(document.digest),
        fragments=includer.used,
    )
    if block is not None:
        _check(block, faults)
    return block


def _check(block: Block, faults: Faults) -> None:
    """Check what a block says of itself."""
    if not block.body:
        faults.add("this block has no text", block.source, "write it below the front matter")
    if block.walkround:
        try:
            units.parse(block.walkround.time, "min")
        except units.UnitError as error:
            faults.add(f"time of the walk-round: {error}", block.source, error.hint)


def _split(document: Document, faults: Faults) -> tuple[str, str, int] | None:
    """Return front matter, body, and the line of the file at which the body starts."""
    lines = document.text.split("\n")
    if lines[0].rstrip() != _FENCE:
        faults.add("front matter is missing", Source(document.file), 'the first line is "---"')
        return None
    end = next((number for number, line in enumerate(lines[1:], 1) if line.rstrip() == _FENCE), None)
    if end is None:
        faults.add("front matter is not closed", Source(document.file), 'put a line "---" below it')
        return None
    return "\n".join(lines[1:end]), "\n".join(lines[end + 1 :]), end + 2
