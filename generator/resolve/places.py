"""Places of a van: complete, within the van, with their facts."""

from generator.errors import nearest
from generator.model.caravan import Place
from generator.model.sourced import Fact, Given, Origin, Unknown
from generator.model.specs import PlaceEntry, Spec
from generator.resolve.faults import Faults
from generator.resolve.plausible import check_plausible
from generator.units import Quantity, parse

_BEYOND = parse("0.2 m", "m")  # how far a place may stand out of the van: a step, an open flap


def read_places(spec: Spec, faults: Faults) -> tuple[Place, ...]:
    """Return the places of a merged build sheet in walking order.

    Args:
        spec: The merged build sheet.
        faults: Takes places without name or side, and positions away from the van.
    """
    places = tuple(place for entry in spec.places if (place := _place(entry, spec, faults)) is not None)
    if not places:
        faults.absent("the van has no places", spec.source, 'list them under "places"', of=["places"])
        faults.lose(["places"])
    return places


def _place(entry: PlaceEntry, spec: Spec, faults: Faults) -> Place | None:
    code = entry.code
    lacking = [name for name in ("name", "where") if getattr(entry, name) is None]
    if lacking:
        others = [place.code.value for place in spec.places if place.name and place.where]
        names = " and ".join(f'"{name}"' for name in lacking)
        message = f"place {code.value} has no {names}"
        faults.absent(message, code.source, nearest(code.value, others), of=["places"])
    if entry.name is None or entry.where is None:
        return None
    _check_position(entry, spec, faults)
    return Place(
        code=code.value,
        name=entry.name.value,
        where=entry.where.value,
        position=entry.position.value if entry.position else None,
        max_contents=_limit(entry, faults),
        vented=entry.vented or False,
        label=entry.label or False,
        source=code.source,
    )


def _limit(entry: PlaceEntry, faults: Faults) -> Fact | None:
    limit = entry.max_contents
    if limit is None:
        return None
    check_plausible("max_contents", limit.value, limit.source, faults)
    return Fact(limit.value, Origin.PLATE, limit.source)


def _check_position(entry: PlaceEntry, spec: Spec, faults: Faults) -> None:
    """Refuse a position outside the van by more than ``_BEYOND``."""
    if entry.position is None:
        return
    behind, left = entry.position.value
    length, width = _known(spec.body.overall_length), _known(spec.body.width)
    if behind < -_BEYOND or (length is not None and behind > length + _BEYOND):
        hint = "metres behind the coupling, within the overall length"
        faults.add(f"place {entry.code.value} stands before or behind the van", entry.position.source, hint)
    if width is not None and abs(left) > width / 2 + _BEYOND:
        hint = "metres to the left of the middle, to the right with a minus"
        faults.add(f"place {entry.code.value} stands beside the van", entry.position.source, hint)


def _known(length: Given[Quantity | Unknown] | None) -> Quantity | None:
    return None if length is None or isinstance(length.value, Unknown) else length.value


def place_facts(places: tuple[Place, ...]) -> dict[str, Fact]:
    """Return the facts of places by path."""
    return {f"place.{place.code}.max_contents": place.max_contents for place in places if place.max_contents}
