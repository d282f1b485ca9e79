"""Small vans built by hand: only what the number under test needs."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from generator.errors import Source
from generator.model.caravan import Caravan, Circuit, Equipment, Held, Place, Trait
from generator.model.catalogue import Kind, Parameter, Slot
from generator.model.content import EmergencyNumber, Market
from generator.model.numbers import Declared, Number, Numbers
from generator.model.sourced import UNKNOWN, Fact, Given, Origin
from generator.model.specs import Dealer
from generator.units import Quantity, parse

SPEC = "van_specs/vans/test.yaml"
AT = Source(SPEC)

# Every plate of a made-up tourer; a test changes what it is about.
PLATES = {
    "masses.unladen": "1180 kg",
    "masses.max_laden": "1400 kg",
    "masses.max_axle": "1340 kg",
    "masses.max_ball_load": "100 kg",
    "masses.ball_load_unladen": "64 kg",
    "body.length": "4.80 m",
    "body.width": "2.23 m",
    "body.overall_length": "6.35 m",
    "body.coupling_to_axle": "4.0 m",
    "body.track": "1.90 m",
    "wheels.tyre": "225/75 R16C 126N",  # strong, so that only the tests of tyres judge it
    "wheels.pressure": "3.0 bar",
    "wheels.nut_torque": "88 N*m",
}
MARKETS = {
    "uk": ("bar", "psi", "5 percent", "7 percent", ("6 A", "10 A", "16 A")),
    "nz": ("kPa", "psi", "10 percent", "10 percent", ("10 A", "16 A")),
    "au": ("kPa", "psi", "8 percent", "10 percent", ("10 A", "15 A")),
    "eu": ("bar", "", "4 percent", "7 percent", ("6 A", "10 A", "16 A")),
}


@dataclass(frozen=True, kw_only=True)
class Fit:
    """A piece of equipment: what fills a slot, its parameters as text, and whether the unladen mass holds it."""

    slot: str
    parameters: Mapping[str, str | int] = field(default_factory=dict)
    at: str = ""
    traits: tuple[str, ...] = ()
    in_unladen: bool = True
    basis: str = ""


D_VALUE = {"d_value": "13.5 kN"}
COUPLING = Fit(slot="coupling", parameters={"max_ball_load": "100 kg", **D_VALUE}, at="A0")


def quantity(text: str) -> Quantity:
    """Return the quantity of a text in whatever unit it has."""
    return parse(text, text.split(maxsplit=1)[1])


def value(text: str | int) -> object:
    """Return a value as ``resolve`` would: a count, a quantity, ``unknown``, or a word; a tyre is a word too."""
    if isinstance(text, int):
        return text
    if text == "unknown":
        return UNKNOWN
    return quantity(text) if text[:1].isdigit() and "," not in text and "/" not in text.split()[0] else text


def fact(text: str | int, line: int = 1, origin: Origin = Origin.PLATE) -> Fact:
    return Fact(value(text), origin, Source(SPEC, line))


def market(id: str = "uk", **changes: object) -> Market:
    unit, gauge, low, high, ratings = MARKETS[id]
    fields: dict[str, object] = {
        "id": id,
        "name": id.upper(),
        "language": "en",
        "mains_voltage": Given(quantity("230 V"), AT),
        "pitch_ratings": Given(tuple(quantity(rating) for rating in ratings), AT),
        "ball_load_share": Given((quantity(low), quantity(high)), AT),
        "ball_load_source": "guidance of this market",
        "pressure_unit": unit,
        "gauge_unit": gauge,
        "speed_unit": "km/h",
        "gas_supply": "",
        "emergency": (EmergencyNumber(name="all", number="000"),),
        "source": AT,
    }
    return Market(**{**fields, **changes})


def place(code: str, behind: str | None = None, limit: str | None = None, line: int = 1) -> Place:
    return Place(
        code=code,
        name=f"Place {code}",
        where="inside" if code.startswith("H") else "outside",
        position=(quantity(behind), quantity("0 m")) if behind else None,
        max_contents=fact(limit, line) if limit else None,
        vented=False,
        label=True,
        source=Source(SPEC, line),
    )


def equipment(fit: Fit) -> Equipment:
    slot = Slot(id=fit.slot, name=fit.slot.replace("_", " ").capitalize(), source=AT)
    parameters = {name: Parameter(name=name.replace("_", " "), source=AT) for name in fit.parameters}
    kind = Kind(
        id="test-kind",
        slot=fit.slot,
        name="Test kind",
        points={"main": "required"},
        parameters=parameters,
        source=AT,
    )
    return Equipment(slot=slot, kind=kind, key=fit.slot, at={"main": fit.at} if fit.at else {}, source=AT)


def held(fit: Fit, places: tuple[Place, ...]) -> Held:
    return Held(
        was=equipment(fit),
        facts={f"{fit.slot}.{name}": fact(text, origin=Origin.CATALOGUE) for name, text in fit.parameters.items()},
        behind={each.code: each.position[0] for each in places if each.code == fit.at and each.position},
    )


def van(
    *fits: Fit,
    places: tuple[Place, ...] = (),
    circuits: tuple[Circuit, ...] = (),
    plates: Mapping[str, str] | None = None,
    traits: tuple[str, ...] = (),
    on: Market | None = None,
    assume: Mapping[str, str] | None = None,
    berths: int = 4,
    axles: int = 1,
    built: date | None = None,
    handed_over: date | None = None,
    was: tuple[Fit, ...] = (),
) -> Caravan:
    """Return a van with the plates of ``PLATES`` changed by ``plates``, a coupling, and ``fits``.

    ``was`` is what its unladen mass and ball load were stated with, in slots that ``fits`` fills now.
    """
    fitted = (*fits,) if any(fit.slot == "coupling" for fit in fits) else (COUPLING, *fits)
    fitted = tuple(
        replace(fit, parameters={**D_VALUE, **fit.parameters}) if fit.slot == "coupling" else fit for fit in fitted
    )
    facts = {path: fact(text) for path, text in {**PLATES, **(plates or {})}.items()}
    facts |= {"berths": fact(berths), "axles": fact(axles)}
    for fit in fitted:
        facts.update({f"{fit.slot}.{name}": fact(text) for name, text in fit.parameters.items()})
        if fit.basis:
            facts[f"{fit.slot}.basis"] = Fact(fit.basis, Origin.PLATE, AT)
    every = {*traits, *(trait for fit in fitted for trait in (fit.slot.replace("_", "-"), *fit.traits))}
    coupling = () if any(each.code == "A0" for each in places) else (place("A0", "0 m"),)
    return Caravan(
        chassis="ZZ9TEST0000000001",
        model="Test van",
        market=on or market(),
        dealer=Dealer(
            id="test", name=Given("Test", AT), phone=Given("0", AT), library=Given("https://x.example", AT), source=AT
        ),
        built=built,
        handed_over=handed_over,
        traits={id: Trait(id=id, reason="test") for id in every},
        places=(*coupling, *places),
        equipment=tuple(equipment(fit) for fit in fitted),
        circuits=circuits,
        facts=facts,
        not_in_unladen=tuple(fit.slot for fit in fitted if not fit.in_unladen),
        held_in_unladen=tuple(held(fit, places) for fit in was),
        held_in_ball_load=tuple(held(fit, places) for fit in was),
        not_in_ball_load=tuple(fit.slot for fit in fitted if not fit.in_unladen),
        unladen_measured=False,
        assume={id: Given(text, Source(SPEC, 40)) for id, text in (assume or {}).items()},
        source=AT,
    )


def magnitude(numbers: Numbers, id: str, unit: str) -> float:
    """Return the exact value of a number in ``unit``."""
    found: Number = numbers.numbers[id]
    assert found.value is not None, found.shown
    return float(found.value.to(unit).magnitude)


def declared(id: str, **changes: object) -> Declared:
    """Return a declaration with all that must be said filled in."""
    from generator.units import Rounding

    said: dict[str, object] = {
        "id": id,
        "form": "number",
        "group": "Test",
        "title": id,
        "rounding": Rounding.DOWN,
        "unit": "kg",
        "method": "m",
        "source": "s",
    }
    return Declared(**{**said, **changes})
