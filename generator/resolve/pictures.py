"""Which picture stands at which name in a van: of the van, else of the fitted kind, else of the content."""

from collections.abc import Iterable

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
    content, files = workspace.content.pictures, workspace.picture_files
    found = {name: _picture(_CONTENT, entry, workspace) for name, entry in content.items()}
    for one in equipment:
        for name, id_ in one.kind.pictures.items():
            found[f"{one.slot.id}.{name}"] = _picture(_CONTENT, content[id_.value], workspace)
    kinds = workspace.catalogue.kinds.items()
    known = {*content, *(f"{slot}.{name}" for (slot, _), kind in kinds for name in kind.pictures)}
    for name, entry in spec.pictures.items():
        if name not in known:
            faults.add(f'nothing asks for a picture "{name}"', entry.source, nearest(name, known))
        elif f"{_VANS}/{entry.file.value}" in files:
            found[name] = _picture(_VANS, entry, workspace)
    return found


def _picture(folder: str, entry: PictureEntry, workspace: Workspace) -> Picture:
    return Picture(alt=entry.alt, file=workspace.picture_files[f"{folder}/{entry.file.value}"])
