"""Volts lost in cables: the mains lead and the 12 V circuits, and what a fuse may be for its cable.

Which circuits there are stands in ``circuits``.
"""

from generator.compute.declare import Answer, Recipe, Rows, number, table
from generator.compute.inputs import Inputs
from generator.compute.mains import INLET_TRAITS, inlet_rating
from generator.compute.margins import against, over
from generator.compute.showing import exact, up
from generator.compute.worked import Term, lines, put, whole
from generator.errors import Fault, Level
from generator.model.caravan import Circuit
from generator.model.numbers import Verdict
from generator.model.sourced import Fact, Unknown
from generator.units import Quantity, Rounding

_OHM_PER_KM = "ohm/km"
_SOURCE = (
    "IEC 60228, flexible copper (class 5), as two published tables give it; resistance rises with temperature as"
    " (234.5 + t) / 254.5"
)
# Largest resistance of a plain copper conductor at 20 degC by section in mm2: IEC 60228 class 5, published (seen).
_RESISTANCE = {
    0.5: 39.0,
    0.75: 26.0,
    1.0: 19.5,
    1.5: 13.3,
    2.5: 7.98,
    4.0: 4.95,
    6.0: 3.30,
    10.0: 1.91,
    16.0: 1.21,
    25.0: 0.780,
    35.0: 0.554,
    50.0: 0.386,
}
# Lasting amperes of ordinary 12 V cable by section in mm2, as one published table of vehicle cables gives them. Other
# insulation carries more: for information, never a limit.
_LASTING_A = {1.0: 8.75, 1.5: 12.75, 2.0: 17.5, 2.5: 21.75, 3.0: 25.5}
_DROP_SHARE = 0.05  # BS 7671 appendix 4 and AS/NZS 3000 as published pages quote them; guidance for a lead


def resistance(section: Quantity, temperature: Quantity) -> Term:
    """Return the resistance of one conductor [resistance/length].

    A section between two of the table counts as the smaller one; one below the table in proportion to its copper.
    """
    section_mm2 = float(section.to("mm2").magnitude)
    listed = max((each for each in _RESISTANCE if each <= section_mm2 * (1 + 1e-9)), default=None)
    least = min(_RESISTANCE)
    ohm_per_km = _RESISTANCE[listed] if listed is not None else _RESISTANCE[least] * least / section_mm2
    warmer = (whole(234.5) + whole(float(temperature.to("degC").magnitude))) / whole(254.5)
    return put(Quantity(ohm_per_km, _OHM_PER_KM), _OHM_PER_KM, 3) * warmer


def drop(current: Quantity, run: Quantity, per_length: Term) -> Term:
    """Return the volts lost there and back: 2 L I R."""
    way = whole(2) * put(run, "m") / put(Quantity(1000.0, "m/km"), "m/km")
    return (way * put(current, "A") * per_length).to("V")


@number(
    "lead-drop",
    group="Mains",
    title="Volts lost in the mains lead",
    all_of=("mains",),
    needs=("mains_inlet.lead", "mains_inlet.lead_section", "market.mains_voltage"),
    optional=INLET_TRAITS,
    assumes=("cable-temperature",),
    unit="V",
    rounding=Rounding.UP,
    digits=1,
    method="2 × length × amperes of the van's inlet × resistance of the copper when warm, against 5 % of the mains.",
    moves="A shorter or thicker lead, and fewer appliances at once.",
    source=f"{_SOURCE}; 5 %: BS 7671 appendix 4 and AS/NZS 3000",
)
def lead_drop(given: Inputs) -> Answer:
    """Return the volts lost in the lead with the inlet fully loaded."""
    length, section = given.positive("mains_inlet.lead"), given.positive("mains_inlet.lead_section")
    per_length = resistance(section, given.assumed("cable-temperature"))
    current, voltage = inlet_rating(given), given.positive("market.mains_voltage")
    dropped, most = drop(current, length, per_length), _DROP_SHARE * voltage
    lost = dropped.value
    verdict = against(lost, most)
    said = f"{exact(length)} of {exact(section)} at {exact(current)} lose {up(lost, 'V', 1)} of {exact(voltage)}"
    return Answer(
        value=dropped,
        limit=most,
        verdict=verdict,
        sentence=f"{said}. Usual limit {exact(most)}. Unwind the lead fully: wound up, it gets hot.",
        faults=_lead_faults(given, said, most, verdict),
    )


def _lead_faults(given: Inputs, said: str, most: Quantity, verdict: Verdict) -> tuple[Fault, ...]:
    if verdict is Verdict.WITHIN:
        return ()
    how = "more than" if verdict is Verdict.OVER else "a thin margin to"
    message = f"the mains lead: {said}, {how} the usual {exact(most)}"
    return (Fault(message, given.source("mains_inlet.lead"), level=Level.WARNING),)


@table(
    "volt-drop",
    group="12 V",
    title="Cables of the 12 V circuits",
    all_of=("battery",),
    needs=("van.circuits", "battery.voltage"),
    optional=("*.draw", "*.current"),
    assumes=("cable-temperature",),
    head=("Circuit", "Cable, one way", "Fuse", "Volts lost"),
    rounding=Rounding.UP,
    method=(
        "2 × length × amperes × resistance of the copper when warm. The amperes are those that the one large load on it"
        " draws, or the most that its fuse lets through."
    ),
    source=(
        f"{_SOURCE}; what a cable usually carries: common practice, after one published table of vehicle cables, for"
        " information"
    ),
)
def volt_drop(given: Inputs) -> Rows:
    """Return a row for each 12 V circuit whose cable the build sheet gives."""
    circuits = [circuit for circuit in given.circuits if circuit.supply == "12 V"]
    found = [each for circuit in circuits if (each := _cable_row(given, circuit)) is not None]
    if not found:
        return Rows(rows=(), note="The cables of this van are not listed. Ask your dealer.")
    note = "For information. Work on the wiring, and any bigger fuse, is for the dealer."
    worked = lines([(row[0], lost) for row, lost in found], "V", 3)
    return Rows(rows=tuple(row for row, _ in found), note=note, worked=worked)


def _cable_row(given: Inputs, circuit: Circuit) -> tuple[tuple[str, ...], Term] | None:
    run, section, fuse = (_known(fact) for fact in (circuit.run, circuit.section, circuit.fuse))
    if run is None or section is None or fuse is None:
        return None
    voltage, drawn = given.positive("battery.voltage"), _drawn(given, circuit)
    current, when = (fuse, "the most its fuse lets through") if drawn is None else (drawn, "what it draws")
    dropped = drop(current, run, resistance(section, given.assumed("cable-temperature")))
    lost = dropped.value
    share = up((lost / voltage).to("percent"), "percent")
    said = f"{up(lost, 'V', 2)} ({share}) at {up(current, 'A', 1)}, {when}"
    return (circuit.name, f"{exact(run)} of {exact(section)}", _within(section, fuse), said), dropped


def _drawn(given: Inputs, circuit: Circuit) -> Quantity | None:
    """Return the current of the large load on a circuit; None where the build sheet names none that is known."""
    if given.known(f"{circuit.feeds}.draw"):
        drawn: Quantity = given.positive(f"{circuit.feeds}.draw") / given.positive("battery.voltage")
        return drawn
    return given.positive(f"{circuit.feeds}.current") if given.known(f"{circuit.feeds}.current") else None


def _known(fact: Fact | None) -> Quantity | None:
    return None if fact is None or isinstance(fact.value, (int, str, Unknown)) else fact.value


def _within(section: Quantity, fuse: Quantity) -> str:
    """Return the fuse, and whether it stays within what such a cable usually carries."""
    section_mm2 = float(section.to("mm2").magnitude)
    found = [Quantity(amperes, "A") for each, amperes in _LASTING_A.items() if abs(each - section_mm2) < 1e-6]
    if not found:
        return f"{exact(fuse)}; ask your dealer what such a cable carries"
    if over(fuse, found[0]):
        return f"{exact(fuse)}, more than the usual {exact(found[0])} of such a cable: ask your dealer"
    return f"{exact(fuse)}, within the usual {exact(found[0])} of such a cable"


RECIPES: tuple[Recipe, ...] = (lead_drop, volt_drop)
