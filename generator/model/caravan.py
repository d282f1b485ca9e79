"""One van with every reference followed: what ``resolve`` makes of a build sheet."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from generator.errors import Source
from generator.model.catalogue import Kind, Slot
from generator.model.content import Market
from generator.model.pictures import Picture
from generator.model.sourced import Fact
from generator.model.specs import Dealer
from generator.units import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Somewhere in or on the van, in walking order; ``position`` as in ``PlaceEntry``."""

    code: str
    name: str
    where: Literal["outside", "inside"]
    position: tuple[Quantity, Quantity] | None
    max_contents: Fact | None
    vented: bool
    label: bool
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """A kind in its slot, with the place code of each of its points.

    Its parameters are facts of the van, named ``<slot>.<parameter>`` (``<slot>.<kind>.<parameter>``
    where the slot takes many); ``key`` is that prefix.
    """

    slot: Slot
    kind: Kind
    key: str
    at: Mapping[str, str]
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What the sheet that states a mass had fitted, where this van has another kind, mass or place of it.

    The stated mass still holds ``was``. ``facts`` are those of ``was`` by path; ``behind`` is how far the
    places of its points lie behind the coupling, by code, where the sheet says so.
    """

    was: Equipment
    facts: Mapping[str, Fact]
    behind: Mapping[str, Quantity]


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """A fused 12 V circuit or a mains circuit breaker.

    ``run`` (one way) and ``section`` are those of its cable, ``feeds`` the slot of the one large load on it.
    """

    name: str
    fuse: Fact
    at: str
    supply: Literal["12 V", "mains"]
    run: Fact | None = None
    section: Fact | None = None
    feeds: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trait:
    """A trait that holds, with the reason in words for ``show``: "hot_water: gas-mains-storage"."""

    id: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Caravan:
    """A van ready for computing and assembling.

    ``facts`` holds every input of the numbers by path: ``masses.max_laden``, ``body.length``,
    ``wheels.pressure``, ``berths``, ``axles``, ``<slot>.<parameter>``, ``<slot>.mass``,
    ``place.<code>.max_contents``, ``market.mains_voltage``.
    """

    chassis: str
    model: str  # model name, "Marram 480"
    market: Market
    dealer: Dealer
    built: date | None
    handed_over: date | None
    traits: Mapping[str, Trait]
    places: tuple[Place, ...]
    equipment: tuple[Equipment, ...]  # in catalogue order of slots
    circuits: tuple[Circuit, ...]
    facts: Mapping[str, Fact]
    not_in_unladen: tuple[str, ...]  # keys of equipment that the unladen mass does not include
    unladen_measured: bool  # masses.unladen is from ``as_built``
    held_in_unladen: tuple[Held, ...] = ()  # by the unladen mass, in place of what is fitted
    not_in_ball_load: tuple[str, ...] = ()  # keys of equipment that masses.ball_load_unladen does not include
    held_in_ball_load: tuple[Held, ...] = ()  # by masses.ball_load_unladen, in place of what is fitted
    assume: Mapping[str, "object"] = field(default_factory=dict)  # id -> Given[str], read by compute
    pictures: Mapping[str, Picture] = field(default_factory=dict)  # by the name that blocks call
    source: Source

    @property
    def tail(self) -> str:
        """The last six characters of the chassis, the most that may be shown in public."""
        return self.chassis[-6:]

    def has(self, all_of: tuple[str, ...] = (), none_of: tuple[str, ...] = ()) -> bool:
        """Return whether all of the first traits hold and none of the second."""
        return all(trait in self.traits for trait in all_of) and not any(trait in self.traits for trait in none_of)

    def place(self, code: str) -> Place:
        """Return the place with this code; ``resolve`` has checked that every used code exists."""
        return next(place for place in self.places if place.code == code)
