"""The inputs of one van by path: value, origin, name and the plate they are read from.

Which of them a number may read is left to ``Inputs``.
"""

from dataclasses import dataclass

from generator.compute.assumptions import Assumed
from generator.compute.showing import exact, lower_first
from generator.errors import Source
from generator.model.caravan import Caravan, Equipment, Place
from generator.model.numbers import Input
from generator.model.sourced import Fact, Origin, Unknown
from generator.model.wording import cited
from generator.units import Quantity

_VAN_PLATE = "the maker's plate of the van"
_TAPE = "a tape measure"

# Name and plate of what every van has; what equipment has is named by its kind.
_NAMED = {
    "masses.unladen": ("Unladen mass", "the weight certificate of the van"),
    "masses.max_laden": ("Maximum laden mass", _VAN_PLATE),
    "masses.max_axle": ("Maximum axle mass", _VAN_PLATE),
    "masses.max_ball_load": ("Maximum ball load of the van", _VAN_PLATE),
    "masses.ball_load_unladen": ("Ball load of the unladen van", "a ball load gauge"),
    "body.length": ("Body length", _TAPE),
    "body.width": ("Body width", _TAPE),
    "body.height": ("Height", _TAPE),
    "body.overall_length": ("Overall length", _TAPE),
    "body.coupling_to_axle": ("Distance from the coupling to the axle", _TAPE),
    "body.track": ("Track", _TAPE),
    "body.ventilation": ("Free area of the fixed vents", "the certificate of the van's gas system"),
    "wheels.tyre": ("Tyre size", "the side of the tyre"),
    "wheels.pressure": ("Tyre pressure", "the tyre label of the van"),
    "wheels.nut_torque": ("Wheel nut torque", "the wheel label of the van"),
    "berths": ("Berths", "the build sheet"),
    "axles": ("Axles", "the build sheet"),
}
_MARKET_NAMES = {
    "market.mains_voltage": "Mains voltage",
    "market.pitch_ratings": "Usual supplies outside",
    "market.ball_load_share": "Guidance for the ball load, share of the laden mass",
    "market.unbraked_limit": "Limit for a van without brakes",
    "market.kerb_share": "Share of the car's kerb mass",
}
_WHERE = {
    Origin.PLATE: "plate",
    Origin.MEASURED: "measured on this van",
    Origin.CATALOGUE: "catalogue",
    Origin.MARKET: "market",
    Origin.ASSUMPTION: "assumption",
}

Value = Quantity | int | str | Unknown | tuple[Quantity, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One input: its value, how the working prints it, and what to read where it is not known."""

    value: Value
    input: Input
    missing: str  # "the tank volume off the rating plate of the water heater"
    source: Source


class Sheet:
    """Every input of one van; readings are made once and kept."""

    def __init__(self, caravan: Caravan, assumed: dict[str, Assumed]) -> None:
        self.caravan = caravan
        self.assumed = assumed
        self.equipment = {fitted.key: fitted for fitted in caravan.equipment}
        self.places = {place.code: place for place in caravan.places}
        self.held = {
            f"{stated}.{held.was.key}": held.was
            for stated, all_held in (("unladen", caravan.held_in_unladen), ("ball_load", caravan.held_in_ball_load))
            for held in all_held
        }
        self._values = _values(caravan)
        self._readings: dict[str, Reading] = {}
        self._assumptions: dict[str, Reading] = {}

    def reading(self, path: str) -> Reading | None:
        """Return the input at ``path``, or None where this van has none."""
        if path not in self._readings:
            if path not in self._values:
                return None
            self._readings[path] = self._read(path)
        return self._readings[path]

    def assumption(self, id: str) -> Reading:
        """Return the assumption ``id``."""
        if id not in self._assumptions:
            held = self.assumed[id]
            read = Input(name=held.title, shown=exact(held.value), origin=Origin.ASSUMPTION, where=held.where)
            source = held.source or self.caravan.source
            self._assumptions[id] = Reading(value=held.value, input=read, missing="", source=source)
        return self._assumptions[id]

    def _read(self, path: str) -> Reading:
        value, origin, source = self._values[path]
        name, missing = self._named(path)
        where = self.caravan.market.name if origin is Origin.MARKET else _WHERE[origin]
        return Reading(
            value=value,
            input=Input(name=name, shown=_shown(value), origin=origin, where=where),
            missing=missing,
            source=source,
        )

    def _named(self, path: str) -> tuple[str, str]:
        """Return the name of an input and what to read where it is not known."""
        head, _, parameter = path.rpartition(".")
        if path in _NAMED:
            name, plate = _NAMED[path]
            return name, f"the {lower_first(name)} off {plate}"
        if path.startswith("place."):
            return self._place_named(path)
        if head in self.equipment:
            return _parameter_named(self.equipment[head], parameter)
        if head in self.held:
            return _held_named(self.held[head], parameter)
        return _MARKET_NAMES.get(path, ""), ""

    def _place_named(self, path: str) -> tuple[str, str]:
        _, code, detail = path.split(".")
        title = place_title(self.places[code])
        if detail == "position":
            return f"Distance of {title} behind the coupling", distance_missing(self.places[code])
        return f"Load limit of {title}", f"the load limit of {title} off the label at that place"


def distance_missing(place: Place) -> str:
    """Return what to measure where the build sheet does not say where a place is."""
    return f"the distance of {place_title(place)} behind the coupling off {_TAPE}"


def place_title(place: Place) -> str:
    """Return code and name of a place: "A1 Front gas locker"."""
    return f"{place.code} {place.name}"


def equipment_title(fitted: Equipment) -> str:
    """Return what an owner calls a piece of equipment: its slot, or its kind where a slot takes many."""
    return fitted.kind.name if fitted.slot.many else fitted.slot.name


def _parameter_named(fitted: Equipment, parameter: str) -> tuple[str, str]:
    """Return the name of a parameter of a kind and what to read: "Water heater: tank volume"."""
    title, declared = equipment_title(fitted), fitted.kind.parameters.get(parameter)
    name = lower_first(declared.name if declared else parameter.replace("_", " "))
    plate = declared.read_from if declared else ""
    missing = f"the {name} off {plate}" if plate else f"the {name} of the {lower_first(title)} off its rating plate"
    return f"{title}: {name}", missing


def _held_named(was: Equipment, parameter: str) -> tuple[str, str]:
    """Return the name of a parameter of what a stated mass holds: "Road plug weighed with the van: mass"."""
    name, _ = _parameter_named(was, parameter)
    title = equipment_title(was)
    what = name.removeprefix(f"{title}: ")
    return f"{title} weighed with the van: {what}", f"the {what} of the {lower_first(was.kind.name)} of the model"


def _values(caravan: Caravan) -> dict[str, tuple[Value, Origin, Source]]:
    """Return every fact by path, with what the market and the places say."""
    market = caravan.market
    values: dict[str, tuple[Value, Origin, Source]] = {
        "market.mains_voltage": (market.mains_voltage.value, Origin.MARKET, market.mains_voltage.source),
        "market.pitch_ratings": (market.pitch_ratings.value, Origin.MARKET, market.pitch_ratings.source),
        "market.ball_load_share": (market.ball_load_share.value, Origin.MARKET, market.ball_load_share.source),
        "market.ball_load_source": (market.ball_load_source, Origin.MARKET, market.source),
        "market.pressure_unit": (market.pressure_unit, Origin.MARKET, market.source),
        "market.gauge_unit": (market.gauge_unit, Origin.MARKET, market.source),
        "market.speed_unit": (market.speed_unit, Origin.MARKET, market.source),
        **_car_values(caravan),
    }
    for place in caravan.places:
        if place.position is not None:
            values[f"place.{place.code}.position"] = (place.position[0], Origin.PLATE, place.source)
        if place.max_contents is not None:
            values[f"place.{place.code}.max_contents"] = _parts(place.max_contents)
    values.update((path, _parts(fact)) for path, fact in caravan.facts.items() if not path.startswith("market."))
    for stated, all_held in (("unladen", caravan.held_in_unladen), ("ball_load", caravan.held_in_ball_load)):
        for held in all_held:
            values.update((f"{stated}.{path}", _parts(fact)) for path, fact in held.facts.items())
    return values


def _car_values(caravan: Caravan) -> dict[str, tuple[Value, Origin, Source]]:
    """Return what the market says of a van with these brakes, or without any."""
    market, values = caravan.market, dict[str, tuple[Value, Origin, Source]]()
    limit, kerb = market.unbraked_limit, market.kerb_unbraked if "unbraked" in caravan.traits else market.kerb_braked
    if limit is not None:
        values["market.unbraked_limit"] = (limit.mass.value, Origin.MARKET, limit.mass.source)
        values["market.unbraked_of"] = (limit.of, Origin.MARKET, limit.mass.source)
        values["market.unbraked_source"] = (cited(limit.source, limit.read_on), Origin.MARKET, limit.mass.source)
    if kerb is not None:
        values["market.kerb_share"] = (kerb.share.value, Origin.MARKET, kerb.share.source)
        values["market.kerb_text"] = (kerb.text, Origin.MARKET, kerb.share.source)
        values["market.kerb_source"] = (cited(kerb.source, kerb.read_on), Origin.MARKET, kerb.share.source)
    return values


def _parts(fact: Fact) -> tuple[Value, Origin, Source]:
    return fact.value, fact.origin, fact.source


def _shown(value: Value) -> str:
    match value:
        case Unknown():
            return "not known"
        case tuple():
            return ", ".join(exact(each) for each in value)
        case int() | str():
            return str(value)
        case _:
            return exact(value)
