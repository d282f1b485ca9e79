"""What the walk-round sheet and the card hold beside the lines of blocks: what is prepared, read off and handed over.

Printing them is left to ``paper``.
"""

from collections.abc import Iterable, Iterator

from generator.assemble.book import Book
from generator.assemble.mentions import check_lines, speaks_of_missing
from generator.assemble.prose import Said
from generator.assemble.words import messages_of
from generator.model.caravan import Equipment, Place
from generator.model.handover import Handed, KeyFacts, PlateValue, Sheet, ShutOff, Told
from generator.model.sourced import Fact, Origin, Unknown
from generator.units import Quantity, Rounding, rounded, unit_text

# Plates of the van itself; what equipment has is named by its kind.
_VAN = {
    "masses.max_laden": ("Maximum laden mass", "the maker's plate"),
    "masses.max_axle": ("Maximum axle mass", "the maker's plate"),
    "masses.max_ball_load": ("Maximum ball load", "the maker's plate"),
    "wheels.tyre": ("Tyre size", "the side of the tyre"),
    "wheels.pressure": ("Tyre pressure", "the tyre label"),
    "wheels.nut_torque": ("Wheel nut torque", "the wheel label"),
}
_NUMBERS = (
    ("max-laden", "Heaviest the van may be"),
    ("payload", "Left to load"),
    ("ball-load-target", "Ball load to aim for"),
    ("max-ball-load", "Ball load at most"),
    ("tyre-pressure", "Tyre pressure, cold"),
    ("wheel-nut-torque", "Wheel nuts"),
    ("overall-length", "Length"),
    ("body-width", "Width"),
)
_SHUT_OFFS: tuple[ShutOff, ...] = (
    ShutOff(what="Gas", part="valve on the bottle", code="gas.bottles", name=""),
    ShutOff(what="Gas", part="shut-off in the van", code="gas.shut_off", name=""),
    ShutOff(what="Mains", part="main switch", code="consumer_unit.unit", name=""),
    ShutOff(what="Mains", part="lead", code="mains_inlet.inlet", name=""),
    ShutOff(what="12 V", part="control panel", code="panel.panel", name=""),
    ShutOff(what="12 V", part="battery", code="battery.box", name=""),
    ShutOff(what="Water", part="pump", code="water_supply.pump", name=""),
    ShutOff(what="Water", part="pump and its plug", code="water_supply.inlet", name=""),
)


def sheet_of(book: Book) -> Sheet | None:
    """Return what the sheet has before its stops, or nothing where the workspace says nothing of a handover."""
    written = book.content.handover
    if written is None:
        return None
    return Sheet(
        minutes=_minutes(written.time.value),
        phone_minutes=_minutes(written.phone_time.value),
        prepare=_lines(written.prepare, book),
        leave=_lines(written.leave, book),
        phone=_lines(written.phone, book),
        papers=tuple(_handed(told) for told in _holding(written.hand_over, book) if not _code(told, book)),
        plates=tuple(_van_plates(book)),
    )


def _minutes(time: Quantity) -> int:
    return int(rounded(time, "min", Rounding.UP))


def _holding(all_told: Iterable[Told], book: Book) -> Iterator[Told]:
    """Yield the lines that hold in this van."""
    for told in all_told:
        needs, excludes = (tuple(one.value for one in given) for given in (told.when, told.unless))
        if book.van.caravan.has(needs, excludes):
            yield told


def _lines(all_told: Iterable[Told], book: Book) -> tuple[str, ...]:
    return tuple(told.line for told in _holding(all_told, book))


def _handed(told: Told) -> Handed:
    return Handed(line=told.line, write=told.write)


def _code(told: Told, book: Book) -> str:
    """Return the place a line stands at; "" for none, also where this van does not have its point."""
    places = book.van.where(told.at.value) if told.at else ()
    return places[0].code if places else ""


def handed_at(book: Book) -> dict[str, tuple[Handed, ...]]:
    """Return what is handed over at each place, by its code."""
    written = book.content.handover
    found: dict[str, tuple[Handed, ...]] = {}
    for told in _holding(written.hand_over, book) if written else ():
        if code := _code(told, book):
            found[code] = (*found.get(code, ()), _handed(told))
    return found


def check_handover(book: Book) -> None:
    """Add a fault for every line that speaks of what this van does not have."""
    written = book.content.handover
    if written is not None:
        lines = (*written.prepare, *written.leave, *written.phone, *written.hand_over)
        check_lines((Said(told.line, told.source) for told in _holding(lines, book)), book)


# --- plates -----------------------------------------------------------------------------------------


def _van_plates(book: Book) -> Iterator[PlateValue]:
    for path, (name, where) in _VAN.items():
        fact = book.van.caravan.facts.get(path)
        if fact is not None and fact.origin is Origin.PLATE:
            yield PlateValue(name=name, shown=_shown(fact), where=where)


def plates_at(book: Book) -> dict[str, tuple[PlateValue, ...]]:
    """Return what is read off plates at each place, by its code: what the build sheet says and numbers are made of."""
    found: dict[str, tuple[PlateValue, ...]] = {}
    for place in book.van.places:
        if place.max_contents is not None:
            limit = PlateValue(name="Load limit", shown=_shown(place.max_contents), where="the label at that place")
            found[place.code] = (limit,)
    for one in book.van.caravan.equipment:
        if code := next(iter(one.at.values()), ""):
            found[code] = (*found.get(code, ()), *_of_equipment(one, book))
    return found


def _of_equipment(one: Equipment, book: Book) -> Iterator[PlateValue]:
    for id_, parameter in one.kind.parameters.items():
        fact = book.van.caravan.facts.get(f"{one.key}.{id_}")
        if fact is not None and fact.origin is Origin.PLATE and parameter.read_from:
            name = parameter.name[0].lower() + parameter.name[1:]
            yield PlateValue(name=f"{one.slot.name}: {name}", shown=_shown(fact), where=parameter.read_from)


def _shown(fact: Fact) -> str:
    """Return a fact as its plate says it; "" where it is not known."""
    value = fact.value
    if isinstance(value, Unknown):
        return ""
    if isinstance(value, int | str):
        return str(value)
    return f"{value.magnitude:g} {unit_text(str(value.units))}"


def sign_at(place: Place, book: Book) -> str:
    """Return the ISO 7010 code of the sign on the label of ``place``, or the name of its pictogram; "" for none."""
    printed = {m.id: m for written in book.written.values() for m in messages_of(written.nodes)}
    for one in book.content.label_signs:
        message = printed.get(one.message.value) if one.message else None
        sign = one.pictogram.value if one.pictogram else message.sign if message else ""
        if sign and place in book.van.where(one.at.value):
            return sign
    return ""


# --- card -------------------------------------------------------------------------------------------


def key_facts(book: Book) -> KeyFacts:
    """Return what the card shows."""
    market = book.van.caravan.market
    numbers = [one for one in market.emergency if not speaks_of_missing(one.name, book.van)]
    return KeyFacts(
        facts=tuple(_facts(book)),
        shut_offs=tuple(_shut_offs(book)),
        emergency=tuple((one.name, one.number) for one in numbers),
    )


def _facts(book: Book) -> Iterator[tuple[str, str]]:
    facts = book.van.caravan.facts
    for id_, title in _NUMBERS:
        if number := book.van.numbers.numbers.get(id_):
            yield title, number.shown if number.value is not None else "read its plate"
    if axle := facts.get("masses.max_axle"):
        yield "Heaviest on the wheels", _shown(axle) or "read its plate"
    if height := book.van.numbers.numbers.get("overall-height"):
        yield "Height", height.shown if height.value is not None else "measure it"
    tyre = facts.get("wheels.tyre")
    if tyre is not None:
        yield "Tyres", _shown(tyre) or "read their side"


def _shut_offs(book: Book) -> Iterator[ShutOff]:
    for one in _SHUT_OFFS:
        for place in book.van.where(one.code)[:1]:
            yield ShutOff(what=one.what, part=one.part, code=place.code, name=place.name)
