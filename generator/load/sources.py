"""Finding and reading the YAML files of a workspace.

What they hold is left to the readers of each kind of file.
"""

from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from generator.errors import Source
from generator.load.documents import Document, file_name, read_document
from generator.load.faults import Faults
from generator.load.nodes import read_nodes
from generator.load.reader import Reader

_D = TypeVar("_D")


def read_record(root: Path, path: Path, wanted: type[_D], reader: Reader, **given: object) -> _D | None:
    """Return one YAML file as a dataclass, or None with faults.

    Args:
        root: The workspace.
        path: The file.
        wanted: The dataclass.
        reader: Reads it and has the faults.
        given: Fields that do not stand in the file, such as its ``id``.
    """

    def read(document: Document, faults: Faults) -> _D | None:
        node = read_nodes(document.file, document.text, faults)
        return reader.of(faults).record(node, wanted, **given) if node else None

    document = read_document(root, path, reader.faults)
    if document is None:
        return None
    key = (document.file, document.digest, wanted, *sorted(given.items()))
    record = reader.faults.kept(key, partial(read, document))
    if record is None and not given:
        reader.faults.lose(document.file)
    return record


def read_value(root: Path, path: Path, wanted: Any, faults: Faults) -> Any:
    """Return one YAML file as a ``wanted``, or None with faults."""

    def read(document: Document, own: Faults) -> Any:
        node = read_nodes(document.file, document.text, own)
        return Reader(own).read(node, wanted) if node else None

    document = read_document(root, path, faults)
    if document is None:
        return None
    value = faults.kept((document.file, document.digest, str(wanted)), partial(read, document))
    if value is None:
        faults.lose(document.file)
    return value


def yaml_files(folder: Path) -> list[Path]:
    """Return what ends in ``.yaml`` in a folder, by name; folders too, so that reading them becomes a fault."""
    return sorted(folder.glob("*.yaml"), key=lambda path: path.name)


def refuse_other_endings(root: Path, folder: Path, faults: Faults) -> None:
    """Add a fault for each file that would be passed over because it ends in ``.yml``."""
    for path in sorted(folder.glob("*.yml")):
        faults.add("this file is not read", Source(file_name(root, path)), 'name it ".yaml"')
