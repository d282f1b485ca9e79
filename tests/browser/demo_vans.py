"""The demo vans as they are published, all in one library."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.model.release import Shelf
from generator.pipeline.checking import Judged
from generator.pipeline.publishing import publish_vans
from tests.finished import TEMPLATE

WORKSPACE = TEMPLATE.parent
SHEETS = sorted(path.stem for path in (WORKSPACE / "van_specs/vans").glob("*.yaml"))
SECRET = bytes(range(32))


@dataclass(frozen=True)
class Demo:
    """One published van."""

    sheet: str
    folder: Path

    @property
    def name(self) -> str:
        """The manual's folder, as it stands in addresses."""
        return self.folder.name


def published(
    base: Path, sheets: Sequence[str] = tuple(SHEETS), day: date = date(2026, 11, 25), workspace: Path = WORKSPACE
) -> list[Demo]:
    """Publish vans below ``base`` and return where each is."""
    shelf = Shelf(library=base / "library", records=base / "records")
    specs = [workspace / f"van_specs/vans/{sheet}.yaml" for sheet in sheets]
    made = [each for each in publish_vans(workspace, specs, shelf, day, SECRET) if not isinstance(each, Judged)]
    return [Demo(Path(each.van.file).stem, each.index.parent) for each in made]
