"""Build sheets and dealers: what one file says of itself.

Merging a chassis over its model, and following what it names, is left to ``resolve``.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from generator.errors import Source
from generator.load.documents import file_name
from generator.load.faults import Faults
from generator.load.nodes import Entries, Items, Node, Scalar
from generator.load.plain_text import check_name, check_plate
from generator.load.reader import Reader
from generator.load.sources import read_record, refuse_other_endings, yaml_files
from generator.model.sourced import Given
from generator.model.specs import Dealer, Fitting, PlaceEntry, Spec

MODELS, VANS, DEALERS = "van_specs/models", "van_specs/vans", "van_specs/dealers"

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


def read_models(root: Path, faults: Faults) -> dict[str, Spec]:
    """Return the models by id, which is the file name."""
    folder = root / MODELS
    refuse_other_endings(root, folder, faults)
    models = {path.stem: _spec(root, path, faults) for path in yaml_files(folder)}
    for model in filter(None, models.values()):
        _check_model(model, faults)
    return {name: model for name, model in models.items() if model is not None}


def read_vans(root: Path, specs: Sequence[Path], faults: Faults) -> dict[str, Spec]:
    """Return build sheets of vans by file name relative to the workspace.

    Args:
        root: The workspace.
        specs: The files wanted, relative to the current folder or the workspace; none means all of them.
        faults: Takes what is wrong with them.
    """
    refuse_other_endings(root, root / VANS, faults)
    paths = [path if path.exists() else root / path for path in specs] or yaml_files(root / VANS)
    vans = {file_name(root, path): _spec(root, path, faults) for path in paths}
    for van in filter(None, vans.values()):
        _check_van(van, faults)
    read = {name: van for name, van in vans.items() if van is not None}
    _check_chassis_once(read.values(), faults)
    return read


def read_dealers(root: Path, faults: Faults) -> dict[str, Dealer]:
    """Return the dealers by id, which is the file name."""
    refuse_other_endings(root, root / DEALERS, faults)
    dealers = {}
    for path in yaml_files(root / DEALERS):
        dealer = read_record(root, path, Dealer, Reader(faults), id=path.stem)
        if dealer is not None:
            dealers[dealer.id] = dealer
            _check_dealer(dealer, faults)
    return dealers


def _spec(root: Path, path: Path, faults: Faults) -> Spec | None:
    spec = read_record(root, path, Spec, Reader(faults, {(Spec, "fitted"): _fitted}))
    if spec is not None:
        _check_spec(spec, faults)
    return spec


# --- equipment


def _fitted(reader: Reader, node: Node) -> dict[Given[str], tuple[Fitting, ...]] | None:
    """Read equipment by slot: a mapping, a list of mappings, or ``none``."""
    if not isinstance(node, Entries):
        reader.faults.add("a mapping belongs here", node.source, 'write "slot: {kind: ...}" lines')
        return None
    return {Given(key.text, key.source): tuple(_fittings(reader, value)) for key, value in node.entries}


def _fittings(reader: Reader, node: Node) -> Iterator[Fitting]:
    if isinstance(node, Scalar):
        if node.text != "none":
            hint = f"write {{kind: {node.text}}}" if node.text else 'write {kind: ...}, or "none"'
            reader.faults.add("a fitting is a mapping", node.source, hint)
        return
    for item in node.items if isinstance(node, Items) else (node,):
        fitting = _fitting(reader, item)
        if fitting is not None:
            yield fitting


def _fitting(reader: Reader, node: Node) -> Fitting | None:
    if not isinstance(node, Entries):
        reader.faults.add("a fitting is a mapping", node.source, "write {kind: ...}")
        return None
    kind, at = node.get("kind"), node.get("at")
    parameters = {key.text: _parameter(reader, value) for key, value in node.entries if key.text not in ("kind", "at")}
    return Fitting(
        kind=reader.read(kind, Given[str]) if kind else None,
        at=(reader.read(at, dict[str, Given[str]]) if at else None) or {},
        parameters={name: value for name, value in parameters.items() if value is not None},
        source=node.source,
    )


def _parameter(reader: Reader, node: Node) -> Given[str] | None:
    """Read a parameter as text; a list is joined with commas."""
    if not isinstance(node, Items):
        text = reader.text(node)
        return None if text is None else Given(text, node.source)
    texts = [reader.text(item) for item in node.items]
    return Given(", ".join(text for text in texts if text), node.source)


# --- what a file may say


def _check_spec(spec: Spec, faults: Faults) -> None:
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
    if masses.unladen and masses.unladen_includes is None:
        faults.add('"unladen" stands without "unladen_includes"', masses.unladen.source, _INCLUDES_HINT)
    if built and built.unladen and built.includes is None:
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


def _check_model(model: Spec, faults: Faults) -> None:
    for field in _OF_A_CHASSIS:
        value = getattr(model, field)
        if value is not None:
            at = value.source if isinstance(value, Given) else model.source
            faults.add(f'"{field}" belongs to one chassis, not to a model', at, f"move it to a file in {VANS}")
    if model.name is None:
        faults.add('"name" is missing', model.source, "the model's name, as on the van")


def _check_van(van: Spec, faults: Faults) -> None:
    if van.chassis is None:
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


def _check_chassis_once(vans: Iterable[Spec], faults: Faults) -> None:
    seen: dict[str, Source] = {}
    for chassis in (van.chassis for van in vans if van.chassis):
        key = "".join(chassis.value.split()).casefold()
        if key in seen:
            faults.add(
                f'two build sheets have the chassis "{chassis.value}"', chassis.source, f"the other: {seen[key]}"
            )
        seen.setdefault(key, chassis.source)


def _check_dealer(dealer: Dealer, faults: Faults) -> None:
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
