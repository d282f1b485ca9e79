"""What a build sheet holds, as written: a chassis, or a model that chassis are based on.

Every field may be missing, since a chassis is merged over its model; ``resolve`` says what is needed.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Annotated, Literal

from generator.errors import Source
from generator.model.pictures import PictureEntry
from generator.model.sourced import Area, Current, Given, Length, Mass, Pressure, Torque, Unit
from generator.units import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Masses:
    """Plate masses. ``unladen_includes`` lists the slots whose mass ``unladen`` already holds."""

    unladen: Mass | None = None
    unladen_includes: tuple[Given[str], ...] | None = None
    max_laden: Mass | None = None
    max_axle: Mass | None = None
    max_ball_load: Mass | None = None
    ball_load_unladen: Mass | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuilt:
    """Measured on this van; wins over the plate."""

    unladen: Mass | None = None
    ball_load_unladen: Mass | None = None
    includes: tuple[Given[str], ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Outside dimensions; ``length`` is the body without drawbar, ``coupling_to_axle`` to the mean axle.

    ``ventilation`` is the free area of all fixed vents together, high and low.
    """

    length: Length | None = None
    width: Length | None = None
    height: Length | None = None
    overall_length: Length | None = None
    coupling_to_axle: Length | None = None
    track: Length | None = None
    ventilation: Area | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wheels:
    """Tyre size with load index and speed symbol, as stamped on the tyre."""

    tyre: Given[str] | None = None
    pressure: Pressure | None = None
    nut_torque: Torque | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceEntry:
    """A place as written; one with a known code changes the model's place.

    ``position`` is (metres behind the coupling, metres left of the centre line).
    """

    code: Given[str]
    name: Given[str] | None = None
    where: Given[Literal["outside", "inside"]] | None = None
    position: Annotated[Given[tuple[Quantity, Quantity]], Unit("m")] | None = None
    max_contents: Mass | None = None
    vented: bool | None = None
    label: bool | None = None
    after: Given[str] | None = None
    remove: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """What fills one slot. ``kind`` may be missing where a chassis only changes its model's fitting.

    ``at`` maps points to place codes; every other key is a parameter of the kind, text until
    ``resolve`` reads it by the kind's own declaration.
    """

    kind: Given[str] | None
    at: Mapping[str, Given[str]]
    parameters: Mapping[str, Given[str]]
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitEntry:
    """One fused 12 V circuit, or one mains circuit breaker.

    ``run`` is the length of its cable one way, ``feeds`` the slot of the one large load on it.
    """

    name: Given[str]
    fuse: Current
    at: Given[str]
    supply: Literal["12 V", "mains"] = "12 V"
    run: Length | None = None
    section: Area | None = None
    feeds: Given[str] | None = None


ANY = "*"  # among the spoilt fields of a sheet: any of them may lack something


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """One build sheet file. ``fitted`` maps a slot to its fittings; an empty tuple says ``none``."""

    source: Source
    name: Given[str] | None = None  # of a model: "Marram 480"
    chassis: Given[str] | None = None
    based_on: Given[str] | None = None
    market: Given[str] | None = None
    dealer: Given[str] | None = None
    built: Given[date] | None = None
    handed_over: Given[date] | None = None
    berths: Given[int] | None = None
    axles: Given[int] | None = None
    masses: Masses = field(default_factory=Masses)
    as_built: AsBuilt | None = None
    body: Body = field(default_factory=Body)
    wheels: Wheels = field(default_factory=Wheels)
    places: tuple[PlaceEntry, ...] = ()
    fitted: Mapping[Given[str], tuple[Fitting, ...]] = field(default_factory=dict)
    circuits: tuple[CircuitEntry, ...] = ()
    assume: Mapping[str, Given[str]] = field(default_factory=dict)  # assumption id -> text, read by compute
    pictures: Mapping[str, PictureEntry] = field(default_factory=dict)  # of this van, by the name blocks call
    spoilt: frozenset[str] = frozenset()  # fields with faults, where a sheet is judged in spite of them; ANY is all


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock:
    """A sheet of labels, millimetres. Columns and rows count labels; margins to the first label."""

    name: str
    page_width: float
    page_height: float
    label_width: float
    label_height: float
    columns: int
    rows: int
    margin_left: float
    margin_top: float
    gap_x: float = 0.0
    gap_y: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dealer:
    """Who publishes. ``library`` is the base address of the library, https and host, no path or one path."""

    id: str
    name: Given[str]
    phone: Given[str]
    library: Given[str]
    address: tuple[str, ...] = ()
    email: Given[str] | None = None
    label_stock: LabelStock | None = None
    source: Source
