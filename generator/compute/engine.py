"""The engine: picks the declarations that apply to a van, orders and evaluates them.

What a number is stands in the modules by topic.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from graphlib import TopologicalSorter

from generator.compute.assumptions import assumed
from generator.compute.declare import Answer, NumberRecipe, PlacesRecipe, Recipe, Rows, TableRecipe
from generator.compute.inputs import Inputs, NotKnown, Refused
from generator.compute.sheet import Sheet, place_title
from generator.compute.showing import down, not_known, text
from generator.compute.worked import Term, lines
from generator.errors import ComputeError, Fault, Level
from generator.model.caravan import Caravan
from generator.model.numbers import DataTable, Declared, Number, Numbers

PLACE_LIMITS = "room-here"  # the declaration whose numbers are the room left in each place


@dataclass(slots=True)
class _Found:
    """What has been worked out so far for one van. Faults are keys, so that each is told once."""

    numbers: dict[str, Number] = field(default_factory=dict)
    tables: dict[str, DataTable] = field(default_factory=dict)
    in_places: dict[str, dict[str, Number]] = field(default_factory=dict)
    faults: dict[Fault, None] = field(default_factory=dict)
    assumes: set[str] = field(default_factory=set)

    def blame(self, faults: Iterable[Fault]) -> None:
        self.faults.update(dict.fromkeys(faults))


def ordered(recipes: Iterable[Recipe]) -> tuple[Recipe, ...]:
    """Return ``recipes`` so that each comes after what it uses.

    Raises:
        graphlib.CycleError: numbers use each other in a circle.
        ValueError: two have the same id, or one uses a number that does not exist.
    """
    by_id: dict[str, Recipe] = {}
    for recipe in recipes:
        if recipe.declared.id in by_id:
            raise ValueError(f"two declarations of {recipe.declared.id}")
        by_id[recipe.declared.id] = recipe
    for recipe in by_id.values():
        if unknown := set(recipe.declared.uses) - set(by_id):
            raise ValueError(f"{recipe.declared.id} uses {sorted(unknown)}, which nothing declares")
    sorter = TopologicalSorter({id: recipe.declared.uses for id, recipe in by_id.items()})
    return tuple(by_id[id] for id in sorter.static_order())


def evaluate(caravan: Caravan, recipes: Iterable[Recipe]) -> Numbers:
    """Return every number and table of ``caravan``, in the order of ``recipes``.

    Raises:
        SpecError: an assumption of the build sheet does not exist or makes no sense.
        ComputeError: an input makes no sense, or a plate or legal limit is broken; all of them at once.
    """
    recipes = tuple(recipes)
    sheet = Sheet(caravan, assumed(caravan))
    found = _Found()
    for recipe in ordered(recipes):
        if recipe.declared.holds(caravan.traits):
            _evaluate(recipe, sheet, found)
    found.blame(_idle_assumptions(sheet, found.assumes))
    errors = [fault for fault in found.faults if fault.level is Level.ERROR]
    if errors:
        raise ComputeError(*errors)
    listed = [recipe.declared.id for recipe in recipes]
    return Numbers(
        numbers={id: found.numbers[id] for id in listed if id in found.numbers},
        tables={id: found.tables[id] for id in listed if id in found.tables},
        place_limits=found.in_places.get(PLACE_LIMITS, {}),
        warnings=tuple(found.faults),
    )


def _evaluate(recipe: Recipe, sheet: Sheet, found: _Found) -> None:
    declared = recipe.declared
    found.assumes.update(declared.assumes)
    given = Inputs(declared, sheet, found.numbers, found.in_places)
    try:
        match recipe:
            case NumberRecipe():
                found.numbers[declared.id] = _number(recipe, given, found)
            case TableRecipe():
                found.tables[declared.id] = _table(recipe, given, found)
            case PlacesRecipe():
                found.in_places[declared.id] = dict(_places(recipe, sheet, found))
    except Refused as refused:
        found.blame(refused.faults)


def _number(recipe: NumberRecipe, given: Inputs, found: _Found) -> Number:
    declared = recipe.declared
    try:
        _all_known(given)
        answer = recipe.work(given)
    except NotKnown as unknown:
        return _without_value(declared, given, unknown.missing)
    if not isinstance(answer, Answer):
        answer = Answer(value=answer)
    found.blame(answer.faults)
    return _with_value(declared, given, answer)


def _table(recipe: TableRecipe, given: Inputs, found: _Found) -> DataTable:
    declared = recipe.declared
    missing: tuple[str, ...] = ()
    try:
        _all_known(given)
        filled = recipe.work(given)
    except NotKnown as unknown:
        missing = unknown.missing
        filled = Rows(rows=(), note=not_known(missing))
    found.blame(filled.faults)
    return DataTable(
        id=declared.id,
        title=declared.title,
        head=filled.head or declared.head,
        rows=filled.rows,
        note=filled.note,
        group=declared.group,
        method=declared.method,
        source=declared.source,
        inputs=given.read,
        chart=filled.chart,
        due=filled.due,
        worked=filled.worked,
        missing=missing,
    )


def _places(recipe: PlacesRecipe, sheet: Sheet, found: _Found) -> Iterator[tuple[str, Number]]:
    """Yield the number of each place; one place's fault or gap leaves the others alone."""
    for place in sheet.caravan.places:
        given = Inputs(recipe.declared, sheet, found.numbers, found.in_places)
        try:
            answer = recipe.work(given, place)
        except NotKnown as unknown:
            # The function runs first, since it may say that this place has no such number at all.
            missing = tuple(dict.fromkeys((*given.missing(), *unknown.missing)))
            number = _without_value(recipe.declared, given, missing)
        except Refused as refused:
            found.blame(refused.faults)
            continue
        else:
            if answer is None:
                continue
            found.blame(answer.faults)
            number = _with_value(recipe.declared, given, answer)
        yield place.code, _of_place(number, place.code, place_title(place))


def _of_place(number: Number, code: str, title: str) -> Number:
    return replace(number, id=f"{number.id}-{code}", title=f"{number.title}: {title}")


def _all_known(given: Inputs) -> None:
    if missing := given.missing():
        raise NotKnown(*missing)


def _with_value(declared: Declared, given: Inputs, answer: Answer) -> Number:
    value, worked = answer.value, answer.worked
    if isinstance(value, Term):
        worked = worked or lines([("", value)], declared.unit)
        value = value.value
    return Number(
        id=declared.id,
        group=declared.group,
        title=declared.title,
        value=value,
        shown=answer.shown or text(value, declared.unit, declared.rounding, declared.digits),
        sentence=answer.sentence,
        limit=down(answer.limit, declared.unit, declared.digits) if answer.limit is not None else "",
        verdict=answer.verdict,
        moves=declared.moves,
        inputs=given.read,
        method=declared.method,
        worked=worked,
        source=answer.source or declared.source,
        rounding=declared.rounding,
    )


def _without_value(declared: Declared, given: Inputs, missing: tuple[str, ...]) -> Number:
    return Number(
        id=declared.id,
        group=declared.group,
        title=declared.title,
        value=None,
        shown=not_known(missing),
        inputs=given.read,
        method=declared.method,
        source=declared.source,
        rounding=declared.rounding,
        missing=missing,
    )


def _idle_assumptions(sheet: Sheet, used: set[str]) -> Iterator[Fault]:
    """Yield a warning for each assumption the build sheet sets that no number of this van reads."""
    for id, held in sheet.assumed.items():
        if held.source is not None and id not in used:
            yield Fault(f"no number of this van uses the assumption {id}", held.source, level=Level.WARNING)
