"""Which picture stands at which name in a van: of the van, else of the fitted kind, else of the content."""

from collections.abc import Iterable, Iterator, Mapping

from generator.errors import nearest
from generator.model.caravan import Equipment
from generator.model.content import Workspace
from generator.model.pictures import Picture, PictureEntry
from generator.model.specs import Spec
from generator.resolve.faults import Faults

_CONTENT, _VANS = "content/pictures", "van_specs/pictures"


def read_van_pictures(
    spec: Spec, equipment: Iterable[Equipment], workspace: Workspace, faults: Faults
) -> dict[str, Picture]:
    """Return the pictures of a van by the name that blocks call them by: "lever-down", or "coupling.locked".

    Args:
        spec: The merged build sheet.
        equipment: What is fitted.
        workspace: Where pictures are kept.
        faults: Takes names that nothing calls.
    """
    content = workspace.content.pictures
    named = {**content}
    for one in equipment:
        ids = ((f"{one.slot.id}.{name}", id_.value) for name, id_ in one.kind.pictures.items())
        named.update({name: content[id_] for name, id_ in ids if id_ in content})
    found = dict(_with_files(_CONTENT, named, workspace))
    kinds = workspace.catalogue.kinds.items()
    known = {*content, *(f"{slot}.{name}" for (slot, _), kind in kinds for name in kind.pictures)}
    for name, entry in spec.pictures.items():
        if name not in known:
            message, last = f'nothing asks for a picture "{name}"', name.rpartition(".")[2]
            faults.absent(message, entry.source, nearest(name, known), name=last, by="content/")
    return {**found, **dict(_with_files(_VANS, spec.pictures, workspace))}


def _with_files(
    folder: str, entries: Mapping[str, PictureEntry], workspace: Workspace
) -> Iterator[tuple[str, Picture]]:
    """Yield each picture whose file could be read; of another, ``load`` has told."""
    for name, entry in entries.items():
        file = workspace.picture_files.get(f"{folder}/{entry.file.value}")
        if file is not None:
            yield name, Picture(alt=entry.alt, file=file)
