"""What goes into the publish stage and comes out of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from generator.model.site import Finished, PublishedVan, Records

# "new" made an edition, "unchanged" wrote nothing, "restored" put a standing edition back online,
# "paper" rewrote printed matter only.
State = Literal["new", "unchanged", "restored", "paper"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Where manuals go: the public library and the dealer's own records, both resolved."""

    library: Path
    records: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """One manual ready to be put online.

    ``van`` is the record it will have; its edition is the standing one where the digest has not
    changed. ``made_from`` goes into the history: build sheet, digests of blocks, version.
    """

    van: PublishedVan
    finished: Finished
    paper: Mapping[str, bytes] = field(default_factory=dict)  # file name -> bytes
    made_from: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of a release. ``records`` holds it, for the next one of the same run."""

    state: State
    van: PublishedVan
    records: Records
