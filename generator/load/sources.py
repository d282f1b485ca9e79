"""Finding and reading the YAML files of a workspace.

What they hold is left to the readers of each kind of file.
"""

from pathlib import Path

from generator.errors import Source
from generator.load.documents import file_name, read_document
from generator.load.faults import Faults
from generator.load.nodes import Node, read_nodes


def read_yaml(root: Path, path: Path, faults: Faults) -> Node | None:
    """Return the tree of one YAML file, or None with a fault."""
    document = read_document(root, path, faults)
    return read_nodes(document.file, document.text, faults) if document else None


def yaml_files(folder: Path) -> list[Path]:
    """Return what ends in ``.yaml`` in a folder, by name; folders too, so that reading them becomes a fault."""
    return sorted(folder.glob("*.yaml"), key=lambda path: path.name)


def refuse_other_endings(root: Path, folder: Path, faults: Faults) -> None:
    """Add a fault for each file that would be passed over because it ends in ``.yml``."""
    for path in sorted(folder.glob("*.yml")):
        faults.add("this file is not read", Source(file_name(root, path)), 'name it ".yaml"')
