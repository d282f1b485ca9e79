"""What leaves the pipeline: rendered pages with holes, finished files, editions and records."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from generator.model.numbers import Number  # noqa: F401
from generator.model.reviews import Review

_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """HTML with holes by page digest, and the template's own files by name (without hash).

    ``toolchain`` is the digest of the template and of the libraries' versions. Pages rendered by
    another run may be kept only together with those of the same toolchain.
    """

    pages: Mapping[str, str]  # by ``page_key(page)``
    assets: Mapping[str, bytes]  # "style.css", "van.js", "icon-192.png" ...
    toolchain: str = ""
    pictures: Mapping[str, str] = field(default_factory=dict)  # SVG by name: "alert" and codes of signs


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """The number and day of a publication."""

    number: int
    day: date

    @property
    def day_in_words(self) -> str:
        """The day as pages and paper show it; strftime would ask the computer's language."""
        return f"{self.day.day} {_MONTHS[self.day.month - 1]} {self.day.year}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished:
    """Every file of one manual by path from its root; ``digest`` leaves edition and date out."""

    files: Mapping[str, bytes]
    digest: str
    record: Mapping[str, object]  # the content of edition.json


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedVan:
    """What the records hold of a chassis that has been published."""

    chassis: str
    folder: str
    edition: int
    day: date
    digest: str
    pages: tuple[str, ...]  # paths of pages, to leave stubs for those dropped
    places: Mapping[str, str]  # code -> name
    record: Mapping[str, object]  # its edition.json
    model: str = ""  # "Marram 480", for the list of vans
    address: str = ""  # where it is online, ending in a slash
    paper: tuple[str, ...] = ()  # names of its printed matter, in paper/<folder>/ of the records


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """The dealer's own records as read; ``secret`` is None before the first publication."""

    secret: bytes | None
    folders: Mapping[str, str] = field(default_factory=dict)  # chassis -> folder
    vans: Mapping[str, PublishedVan] = field(default_factory=dict)
    reviews: tuple[Review, ...] = ()
