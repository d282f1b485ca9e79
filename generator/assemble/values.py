"""The values that go into holes, by the names the pages use.

Escaping and turning them into HTML is left to ``fill``.
"""

from collections.abc import Iterator, Mapping

from generator.assemble.drawing import draw
from generator.assemble.panels import panels_of
from generator.assemble.sitemap import group_path
from generator.assemble.van import Van
from generator.assemble.words import slug
from generator.model.caravan import Place
from generator.model.holes import HoleValue, Summary, Verdicts, Working
from generator.model.numbers import Numbers, Verdict
from generator.model.sourced import Unknown
from generator.units import Rounding, show

VERDICTS = "verdicts"  # the hole of all numbers that have a limit


def values_of(van: Van) -> Mapping[str, HoleValue]:
    """Return every value of ``van`` under its hole name."""
    values: dict[str, HoleValue] = dict(_names(van))
    for number in van.numbers.numbers.values():
        values[f"number/{number.id}"] = number.shown
        values[f"verdict/{number.id}"] = number
    values |= {f"table/{table.id}": table for table in van.numbers.tables.values()}
    values["drawing/van"] = draw(van)
    values |= dict(panels_of(van))
    for place in van.places:
        values |= dict(_of_place(place, van))
    for group, working in workings(van.numbers).items():
        values[working_hole(group)] = working
        rows = Summary(path=group_path(group), numbers=working.numbers, tables=working.tables)
        values[summary_hole(group)] = rows
    values[VERDICTS] = verdicts(van.numbers)
    return values


def _names(van: Van) -> Iterator[tuple[str, str]]:
    dealer = van.caravan.dealer
    yield "van/name", van.caravan.model
    yield "van/tail", van.caravan.tail
    yield "dealer/name", dealer.name.value
    yield "dealer/phone", dealer.phone.value
    yield "dealer/address", ", ".join(dealer.address)


def _of_place(place: Place, van: Van) -> Iterator[tuple[str, HoleValue]]:
    if place.position is not None:
        yield f"drawing/place/{place.code}", draw(van, place.code)
    if place.max_contents is not None:
        yield f"place/{place.code}/limit", _limit(place)
    if place.code in van.numbers.place_limits:
        yield f"place/{place.code}/left", van.numbers.place_limits[place.code].shown


def _limit(place: Place) -> str:
    limit = place.max_contents.value if place.max_contents else None
    if limit is None or isinstance(limit, int | str | Unknown):
        return "not known; read the label there or ask your dealer"
    return show(limit, "kg", Rounding.DOWN)


def working_hole(group: str) -> str:
    """Return the name of the hole that holds the working of a group of numbers."""
    return f"working/{slug(group)}"


def summary_hole(group: str) -> str:
    """Return the name of the hole that holds a row for each number of a group."""
    return f"summary/{slug(group)}"


def verdicts(numbers: Numbers) -> Verdicts:
    """Return every number that stands to a limit: over it, close to it, within it."""
    grave = (Verdict.OVER, Verdict.CLOSE, Verdict.WITHIN)
    judged = ((number.verdict, number) for number in numbers.numbers.values() if number.verdict is not None)
    found = sorted(judged, key=lambda each: grave.index(each[0]))
    return Verdicts(numbers=tuple((group_path(number.group), number) for _, number in found))


def workings(numbers: Numbers) -> dict[str, Working]:
    """Return numbers and tables by group, groups in the order they were computed."""
    groups = dict.fromkeys([n.group for n in numbers.numbers.values()] + [t.group for t in numbers.tables.values()])
    groups.pop("", None)  # a table without a group is printed by its topic alone
    return {
        group: Working(
            numbers=tuple(number for number in numbers.numbers.values() if number.group == group),
            tables=tuple(table for table in numbers.tables.values() if table.group == group),
        )
        for group in groups
    }
