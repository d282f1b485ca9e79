"""What one build sheet or dealer's file may say of itself.

What only the merged build sheet can show is left to ``resolve``.
"""

import re
from collections.abc import Iterable, Sequence

from generator.errors import Source
from generator.load.faults import Faults
from generator.load.plain_text import check_name, check_plate
from generator.model.sourced import Given
from generator.model.specs import Dealer, PlaceEntry, Spec

_CODE = re.compile(r"[ABCDH](?:0|[1-9][0-9]?)")
_SIDES = "A front, B right, C rear, D left or H inside, then a number from 0 to 99, such as B2"
_LETTERS_LEFT_OUT = re.compile(r"[IOQ]")  # of chassis numbers of 17 signs: ISO 3779, also 49 CFR 565.13(g)
_LIBRARY = re.compile(
    r"https://(?:[a-z0-9](?:[a-z0-9-]*[a-z0-9])?\.)*[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?::[0-9]{1,5})?(?:/[A-Za-z0-9_-]+)?/?"
)
_PHONE = re.compile(r"[+(]?[0-9][0-9 ()/.-]{2,23}")
_EMAIL = re.compile(r"[^\s@<>]+@[^\s@<>]+\.[^\s@<>]+")
_INCLUDES_HINT = "payload would be wrong: list the slots whose equipment this mass already holds"
_OF_A_CHASSIS = ("chassis", "handed_over", "built", "as_built")


def check_spec(spec: Spec, faults: Faults) -> None:
    """Check names, codes and counts of a build sheet, be it of a chassis or of a model."""
    names = [spec.name, *(place.name for place in spec.places), *(circuit.name for circuit in spec.circuits)]
    for name in filter(None, names):
        check_name(name, faults)
    if spec.wheels.tyre:
        check_name(spec.wheels.tyre, faults)
    _check_includes(spec, faults)
    _check_codes(spec.places, faults)
    _check_once("circuit", (circuit.name for circuit in spec.circuits), faults)
    if spec.berths and not 1 <= spec.berths.value <= 12:
        faults.add(f"{spec.berths.value} berths are not possible", spec.berths.source, "1 to 12")
    if spec.axles and not 1 <= spec.axles.value <= 2:
        faults.add(f"{spec.axles.value} axles are not possible", spec.axles.source, "1 or 2")


def _check_includes(spec: Spec, faults: Faults) -> None:
    """Refuse an unladen mass of which this same file does not say what it holds."""
    masses, built = spec.masses, spec.as_built
    if masses.unladen and masses.unladen_includes is None and "masses" not in spec.spoilt:
        faults.add('"unladen" stands without "unladen_includes"', masses.unladen.source, _INCLUDES_HINT)
    if built and built.unladen and built.includes is None and "as_built" not in spec.spoilt:
        faults.add('"unladen" stands without "includes"', built.unladen.source, _INCLUDES_HINT)


def _check_codes(places: Sequence[PlaceEntry], faults: Faults) -> None:
    for code in (code for place in places for code in (place.code, place.after) if code):
        if not _CODE.fullmatch(code.value):
            faults.add(f'"{code.value[:40]}" is no code of a place', code.source, _SIDES)
    _check_once("place", (place.code for place in places), faults)


def _check_once(what: str, names: Iterable[Given[str]], faults: Faults) -> None:
    seen: dict[str, Source] = {}
    for name in names:
        if name.value in seen:
            faults.add(f'two {what}s are "{name.value}"', name.source, f"first on line {seen[name.value].line}")
        seen.setdefault(name.value, name.source)


def check_model(model: Spec, faults: Faults) -> None:
    """Check that a model has a name and nothing that belongs to one chassis."""
    for field in _OF_A_CHASSIS:
        value = getattr(model, field)
        if value is not None:
            at = value.source if isinstance(value, Given) else model.source
            faults.add(f'"{field}" belongs to one chassis, not to a model', at, "move it to a file in van_specs/vans")
    if model.name is None and "name" not in model.spoilt:
        faults.add('"name" is missing', model.source, "the model's name, as on the van")


def check_van(van: Spec, faults: Faults) -> None:
    """Check the chassis number and the dates of a build sheet."""
    if van.chassis is None:
        if "chassis" not in van.spoilt:
            faults.add('"chassis" is missing', van.source, "the number on the chassis plate")
        return
    check_plate(van.chassis, faults)
    number = van.chassis.value
    if len(number) == 17 and number.isalnum():
        if number != number.upper():
            faults.add(f'"{number}" has small letters', van.chassis.source, f'did you mean "{number.upper()}"?')
        wrong = _LETTERS_LEFT_OUT.search(number)
        if wrong:
            hint = "chassis numbers of 17 signs have no I, O or Q (ISO 3779): read 1 or 0"
            faults.add(f'the chassis number holds the letter "{wrong[0]}"', van.chassis.source, hint)
    if van.built and van.handed_over and van.handed_over.value < van.built.value:
        faults.add("the van was handed over before it was built", van.handed_over.source)


def check_chassis_once(vans: Iterable[Spec], faults: Faults) -> None:
    """Refuse two build sheets of one chassis; case and spaces make no other chassis."""
    seen: dict[str, Source] = {}
    for chassis in (van.chassis for van in vans if van.chassis):
        key = "".join(chassis.value.split()).casefold()
        if key in seen:
            faults.add(
                f'two build sheets have the chassis "{chassis.value}"', chassis.source, f"the other: {seen[key]}"
            )
        seen.setdefault(key, chassis.source)


def check_dealer(dealer: Dealer, faults: Faults) -> None:
    """Check what is printed and dialled, and the address that labels are made of."""
    check_name(dealer.name, faults)
    for line in dealer.address:
        check_name(Given(line, dealer.source), faults)
    if not _LIBRARY.fullmatch(dealer.library.value):
        hint = 'https, a host in small letters and at most one folder: "https://vans.example"'
        faults.add(f'"{dealer.library.value[:60]}" is no address for a library', dealer.library.source, hint)
    if not _PHONE.fullmatch(dealer.phone.value):
        faults.add(f'"{dealer.phone.value[:40]}" is no telephone number', dealer.phone.source, "digits and spaces")
    if dealer.email and not _EMAIL.fullmatch(dealer.email.value):
        faults.add(f'"{dealer.email.value[:60]}" is no e-mail address', dealer.email.source)
    stock = dealer.label_stock
    if stock and not (stock.columns >= 1 and stock.rows >= 1 and stock.label_width > 0 and stock.label_height > 0):
        faults.add("a sheet holds no labels like this", dealer.source, "columns, rows and label size are above zero")
