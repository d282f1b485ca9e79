"""What the function of a number may read: its declared inputs and nothing else.

Reads are remembered, so that the working prints the inputs that were used.
"""

from collections.abc import Mapping
from functools import cache

from generator.compute.sheet import Reading, Sheet, distance_missing
from generator.errors import Fault, Source
from generator.model.caravan import Caravan, Circuit, Equipment, Held, Place
from generator.model.numbers import Declared, Input, Number
from generator.model.sourced import Unknown
from generator.units import Quantity, UnitError, parse


class Undeclared(LookupError):
    """A function asked for something its declaration does not name: our bug."""


class NotKnown(Exception):
    """An input is not known; ``missing`` says what to read off which plate."""

    def __init__(self, *missing: str) -> None:
        super().__init__(*missing)
        self.missing = missing


class Refused(Exception):
    """An input makes no sense, or a number this one builds on was refused; carries the faults."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__(*faults)
        self.faults = faults


class Inputs:
    """The inputs of one declaration in one van."""

    def __init__(
        self,
        declared: Declared,
        sheet: Sheet,
        numbers: Mapping[str, Number],
        in_places: Mapping[str, Mapping[str, Number]],
    ) -> None:
        self._declared = declared
        self._sheet = sheet
        self._numbers = numbers
        self._in_places = in_places
        self._read: dict[str, Input] = {}

    @property
    def read(self) -> tuple[Input, ...]:
        """What was read so far, each once, in the order of reading."""
        return tuple(self._read.values())

    def missing(self) -> tuple[str, ...]:
        """Return what to read for every need without a star that is ``unknown``; all at once for a reader."""
        readings = (self._sheet.reading(path) for path in self._declared.needs if "*" not in path)
        unknown = [each for each in readings if each is not None and isinstance(each.value, Unknown)]
        for each in unknown:
            self._note(each.input)
        return tuple(each.missing for each in unknown)

    # --- facts ----------------------------------------------------------------------------------------

    def quantity(self, path: str) -> Quantity:
        """Return the quantity at ``path``, zero or more.

        Raises:
            NotKnown: it is written as ``unknown``.
            Refused: it is below zero, or this van does not give it.
        """
        reading = self._reading(path)
        value = _quantity(reading)
        # A temperature may lie below zero; whether it makes sense is left to the number.
        if value.magnitude < 0 and not value.check("[temperature]"):
            raise Refused(Fault(f"{reading.input.name} is {reading.input.shown}, below zero", reading.source))
        return value

    def positive(self, path: str) -> Quantity:
        """Return the quantity at ``path``, above zero: a divisor."""
        value = self.quantity(path)
        if not value.magnitude > 0:
            reading = self._reading(path)
            raise Refused(Fault(f"{reading.input.name} is {reading.input.shown}, above zero is needed", reading.source))
        return value

    def count(self, path: str) -> int:
        """Return the count at ``path``, one or more."""
        reading = self._reading(path)
        if not isinstance(reading.value, int) or reading.value < 1:
            raise Refused(Fault(f"{reading.input.name} is {reading.input.shown}, 1 or more is needed", reading.source))
        return reading.value

    def text(self, path: str) -> str:
        """Return the word at ``path``."""
        return str(self._reading(path).value)

    def quantities(self, path: str, unit: str) -> tuple[Quantity, ...]:
        """Return the list at ``path``; one written as text is read here, each in ``unit``."""
        reading = self._reading(path)
        if isinstance(reading.value, tuple):
            return reading.value
        try:
            return tuple(parse(part, unit) for part in str(reading.value).split(","))
        except UnitError as error:
            raise Refused(Fault(f"{reading.input.name}: {error}", reading.source, error.hint)) from error

    def basis(self, key: str) -> str:
        """Return on which basis the gas input of an appliance is stated, "net" or "gross".

        It belongs to ``gas_input``: on the build sheet of this van, or in the kind where all are alike.
        """
        self._allow(f"{key}.gas_input")
        stated = self._sheet.reading(f"{key}.basis")
        if stated is not None and stated.value in ("net", "gross"):
            return str(stated.value)
        declared = self._sheet.equipment[key].kind.parameters.get("gas_input")
        if declared is not None and declared.basis in ("net", "gross"):
            return declared.basis
        source = stated.source if stated else self.source(f"{key}.gas_input")
        raise Refused(
            Fault(f"the gas input of {key} does not say its basis", source, "write basis: net or basis: gross")
        )

    def has(self, path: str) -> bool:
        """Return whether this van gives ``path``, even as ``unknown``."""
        self._allow(path)
        return self._sheet.reading(path) is not None

    def known(self, path: str) -> bool:
        """Return whether this van gives ``path`` with a value."""
        self._allow(path)
        reading = self._sheet.reading(path)
        return reading is not None and not isinstance(reading.value, Unknown)

    def trait(self, id: str) -> bool:
        """Return whether the van has trait ``id``; declared as ``trait.<id>``."""
        self._allow(f"trait.{id}")
        return id in self._sheet.caravan.traits

    def fitted(self, pattern: str) -> tuple[Equipment, ...]:
        """Return the equipment that gives ``pattern`` (``*.gas_input``), in the order of the catalogue."""
        if pattern not in self._declared.needs + self._declared.optional:
            raise Undeclared(f"{self._declared.id} reads {pattern} without declaring it")
        parameter = pattern.removeprefix("*.")
        return tuple(each for key, each in self._sheet.equipment.items() if self._sheet.reading(f"{key}.{parameter}"))

    def source(self, path: str) -> Source:
        """Return where ``path`` was written, or the build sheet where it was not."""
        self._allow(path)
        reading = self._sheet.reading(path)
        return reading.source if reading else self._sheet.caravan.source

    # --- the van --------------------------------------------------------------------------------------

    @property
    def places(self) -> tuple[Place, ...]:
        """The places in walking order; declared as ``van.places``."""
        self._allow("van.places")
        return self._sheet.caravan.places

    @property
    def dated(self) -> Caravan:
        """The van, for the days it was built and handed over and the rules counted from them; ``van.dates``."""
        self._allow("van.dates")
        return self._sheet.caravan

    @property
    def circuits(self) -> tuple[Circuit, ...]:
        """Fuses and breakers; declared as ``van.circuits``."""
        self._allow("van.circuits")
        return self._sheet.caravan.circuits

    @property
    def equipment(self) -> tuple[Equipment, ...]:
        """Everything fitted; declared as ``van.equipment``."""
        self._allow("van.equipment")
        return self._sheet.caravan.equipment

    @property
    def outside_unladen(self) -> tuple[Equipment, ...]:
        """What the unladen mass does not hold; declared as ``van.outside_unladen``."""
        self._allow("van.outside_unladen")
        return tuple(each for key, each in self._sheet.equipment.items() if key in self._sheet.caravan.not_in_unladen)

    @property
    def outside_ball_load(self) -> tuple[Equipment, ...]:
        """What the ball load of the unladen van does not hold; declared as ``van.outside_ball_load``."""
        self._allow("van.outside_ball_load")
        keys = self._sheet.caravan.not_in_ball_load
        return tuple(each for key, each in self._sheet.equipment.items() if key in keys)

    @property
    def held_in_unladen(self) -> tuple[Held, ...]:
        """What the unladen mass holds in place of what is fitted; declared as ``van.held_in_unladen``."""
        self._allow("van.held_in_unladen")
        return self._sheet.caravan.held_in_unladen

    @property
    def held_in_ball_load(self) -> tuple[Held, ...]:
        """What the ball load of the unladen van holds in place of what is fitted; ``van.held_in_ball_load``."""
        self._allow("van.held_in_ball_load")
        return self._sheet.caravan.held_in_ball_load

    def fitted_as(self, key: str) -> Equipment:
        """Return what is fitted under ``key``; declared as ``van.equipment``."""
        self._allow("van.equipment")
        return self._sheet.equipment[key]

    def place(self, code: str) -> Place:
        """Return the place with ``code``; declared as ``van.places``."""
        self._allow("van.places")
        return self._sheet.places[code]

    def behind_coupling(self, place: Place) -> Quantity:
        """Return how far ``place`` lies behind the coupling; one ahead of it counts as a negative distance.

        Raises:
            NotKnown: the build sheet does not say.
        """
        self._allow("van.places")
        reading = self._sheet.reading(f"place.{place.code}.position")
        if reading is None:
            raise NotKnown(distance_missing(place))
        self._note(reading.input)
        return _quantity(reading)

    # --- assumptions and other numbers ----------------------------------------------------------------

    def assumed(self, id: str) -> Quantity:
        """Return what is assumed under ``id``."""
        if id not in self._declared.assumes:
            raise Undeclared(f"{self._declared.id} assumes {id} without declaring it")
        held = self._sheet.assumption(id)
        self._note(held.input)
        return _quantity(held)

    def number(self, id: str) -> Quantity:
        """Return the value of another number.

        Raises:
            NotKnown: it has none; what is missing is missing here too.
            Refused: it could not be worked out.
        """
        found = self._number(id)
        if found.value is None:
            raise NotKnown(*found.missing)
        return found.value

    def shown(self, id: str) -> str:
        """Return another number as it is shown."""
        return self._number(id).shown

    def by_place(self, id: str) -> Mapping[str, Number]:
        """Return what was declared under ``id`` for each place, by place code."""
        if id not in self._declared.uses:
            raise Undeclared(f"{self._declared.id} uses {id} without declaring it")
        if id not in self._in_places:
            raise Refused
        return self._in_places[id]

    def _number(self, id: str) -> Number:
        if id not in self._declared.uses:
            raise Undeclared(f"{self._declared.id} uses {id} without declaring it")
        if id not in self._numbers:
            raise Refused
        found = self._numbers[id]
        for each in found.inputs:
            self._note(each)
        return found

    # --- checks ---------------------------------------------------------------------------------------

    def _reading(self, path: str) -> Reading:
        self._allow(path)
        reading = self._sheet.reading(path)
        if reading is None:
            message = f"{self._declared.id} needs {path}, which this van does not give"
            raise Refused(Fault(message, self._sheet.caravan.source))
        self._note(reading.input)
        if isinstance(reading.value, Unknown):
            raise NotKnown(reading.missing)
        return reading

    def _note(self, read: Input) -> None:
        """Remember what was read; what has no name for a reader, such as a unit or a source, is no input."""
        if read.name:
            self._read.setdefault(read.name, read)

    def _allow(self, path: str) -> None:
        whole, starred = _patterns(self._declared.needs, self._declared.optional)
        if path in whole:
            return
        if "." in path and any(path.startswith(head) and path.endswith(tail) for head, tail in starred):
            return
        raise Undeclared(f"{self._declared.id} reads {path} without declaring it")


@cache
def _patterns(needs: tuple[str, ...], optional: tuple[str, ...]) -> tuple[frozenset[str], tuple[tuple[str, str], ...]]:
    """Return the paths that are named, and head and tail of each with a star."""
    every = dict.fromkeys(needs + optional)
    parts = [pattern.partition("*") for pattern in every]
    return frozenset(every), tuple((head, tail) for head, star, tail in parts if star)


def _quantity(reading: Reading) -> Quantity:
    if isinstance(reading.value, (int, str, Unknown, tuple)):
        raise Refused(Fault(f"{reading.input.name} is {reading.input.shown}, a quantity is needed", reading.source))
    return reading.value
