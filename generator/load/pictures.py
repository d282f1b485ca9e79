"""Pictures of content and vans: the register, and the files it and build sheets name, made ready for a page.

Which picture stands in a van is left to ``resolve``.
"""

import hashlib
import re
from collections.abc import Iterable, Mapping
from pathlib import Path

from generator.errors import Source
from generator.load.documents import file_name
from generator.load.drawn import PictureError, read_drawing
from generator.load.faults import Faults
from generator.load.inline import TRAIT
from generator.load.shrink import MOST_BYTES, shrink
from generator.load.sources import read_value
from generator.model.pictures import PictureEntry, PictureFile
from generator.model.sourced import Given
from generator.model.specs import Spec

REGISTER, FOLDER, OF_VANS = "content/pictures.yaml", "content/pictures", "van_specs/pictures"
_FILE = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*\.(?:svg|png|jpe?g|webp)", re.IGNORECASE)
_MOST_READ = 30_000_000  # bytes of a photograph
_LONGEST_ALT = 160
_EMPTY_WORDS = re.compile(r"(?:a |the )?(?:picture|image|photo|photograph|drawing)\b", re.IGNORECASE)


def read_pictures(root: Path, faults: Faults) -> dict[str, PictureEntry]:
    """Return the pictures of the content by id; a workspace may have none."""
    path = root / REGISTER
    found: dict[str, PictureEntry] = (
        (read_value(root, path, dict[str, PictureEntry], faults) or {}) if path.exists() else {}
    )
    for id_, entry in found.items():
        if not TRAIT.fullmatch(id_):
            faults.add(f'"{id_}" is no name for a picture', entry.source, 'write kebab-case: "lever-down"')
    return found


def read_picture_files(
    root: Path, content: Mapping[str, PictureEntry], specs: Iterable[Spec], faults: Faults
) -> dict[str, PictureFile]:
    """Return every file that a picture names, by path relative to the workspace.

    Args:
        root: The workspace.
        content: The register; its files lie in content/pictures.
        specs: Build sheets; their files lie in van_specs/pictures.
        faults: Takes what is wrong with entries and files.
    """
    wanted = [(FOLDER, entry) for entry in content.values()]
    wanted += [(OF_VANS, entry) for spec in specs for entry in spec.pictures.values()]
    found: dict[str, PictureFile] = {}
    for folder, entry in wanted:
        _check_alt(entry.alt, faults)
        name = path_of(folder, entry)
        if not _FILE.fullmatch(entry.file.value):
            hint = f"an .svg, .jpg, .png or .webp in {folder}/"
            faults.add(f'"{entry.file.value[:60]}" is no file of a picture', entry.file.source, hint)
        elif name not in found and (file := _read(root, root / name, entry.file, faults)):
            found[name] = file
    return found


def path_of(folder: str, entry: PictureEntry) -> str:
    """Return the file of an entry relative to the workspace."""
    return f"{folder}/{entry.file.value}"


def _check_alt(alt: Given[str], faults: Faults) -> None:
    if len(alt.value) > _LONGEST_ALT:
        faults.add(f"these words have {len(alt.value)} characters, at most {_LONGEST_ALT} are read out", alt.source)
    if _EMPTY_WORDS.match(alt.value):
        faults.add("these words say that it is a picture", alt.source, "say what it shows")


def _read(root: Path, path: Path, named: Given[str], faults: Faults) -> PictureFile | None:
    try:
        if not path.is_file():
            faults.add(f"there is no picture {file_name(root, path)}", named.source)
            return None
        if path.stat().st_size > _MOST_READ:
            faults.add(f"this picture holds {path.stat().st_size / 1e6:.0f} MB", Source(file_name(root, path)))
            return None
        data = path.read_bytes()
    except OSError as error:
        faults.add(f"this picture cannot be read: {error.strerror}", Source(file_name(root, path)))
        return None
    key = ("picture", file_name(root, path), hashlib.sha256(data).hexdigest())
    return faults.kept(key, lambda own: _made(data, path, file_name(root, path), own))


def _made(data: bytes, path: Path, name: str, faults: Faults) -> PictureFile | None:
    try:
        if path.suffix.lower() == ".svg":
            form, (made, width, height) = "svg", read_drawing(data)
            if len(made) > MOST_BYTES:
                raise PictureError(f"this drawing has {len(made)} bytes, at most {MOST_BYTES} fit", "simplify it")
        else:
            form, (made, width, height) = "webp", shrink(data)
    except PictureError as error:
        faults.add(str(error), Source(name), error.hint)
        return None
    digest = hashlib.sha256(made).hexdigest()
    return PictureFile(form="svg" if form == "svg" else "webp", data=made, width=width, height=height, digest=digest)
