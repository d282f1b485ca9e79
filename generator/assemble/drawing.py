"""The van as drawn from above: body, coupling and places in metres.

Turning it into a picture is left to ``fill``.
"""

from generator.assemble.sitemap import place_path
from generator.assemble.van import Van
from generator.model.caravan import Place
from generator.model.holes import DrawnPlace, VanDrawing
from generator.model.sourced import Unknown

_DRAWBAR_M = 1.2  # for a drawing of a van whose lengths are unknown; no number is made from it
_WIDTH_M = 2.2


def draw(van: Van, focus: str = "") -> VanDrawing:
    """Return the drawing of ``van`` with the place ``focus`` stressed.

    Where a length is unknown the places set the scale, so that they stay in order.
    """
    places = tuple(drawn for place in van.places if (drawn := _drawn(place)))
    farthest = max((place.behind_coupling_m for place in places), default=0.0)
    overall = _metres(van, "body.overall_length") or max(farthest, _DRAWBAR_M) + 1.0
    return VanDrawing(
        length_m=_metres(van, "body.length") or overall - _DRAWBAR_M,
        width_m=_metres(van, "body.width") or _WIDTH_M,
        overall_m=overall,
        axle_m=_metres(van, "body.coupling_to_axle") or (overall + _DRAWBAR_M) / 2,
        axles=_axles(van),
        places=places,
        focus=focus,
    )


def _drawn(place: Place) -> DrawnPlace | None:
    if place.position is None:
        return None
    behind, left = place.position
    return DrawnPlace(
        code=place.code,
        name=place.name,
        where=place.where,
        behind_coupling_m=float(behind.to("m").magnitude),
        left_m=float(left.to("m").magnitude),
        path=place_path(place.code),
    )


def _metres(van: Van, path: str) -> float | None:
    fact = van.caravan.facts.get(path)
    if fact is None or isinstance(fact.value, int | str | Unknown):
        return None
    return float(fact.value.to("m").magnitude)


def _axles(van: Van) -> int:
    fact = van.caravan.facts.get("axles")
    if fact and isinstance(fact.value, int):
        return fact.value
    return 2 if "twin-axle" in van.caravan.traits else 1
