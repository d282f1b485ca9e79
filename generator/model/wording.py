"""Where an input is from and how a number was rounded, in the words that site and paper print alike."""

from collections.abc import Mapping

from generator.model.numbers import Input
from generator.model.sourced import Origin
from generator.units import Rounding

_ORIGIN: Mapping[Origin, str] = {
    Origin.PLATE: "from the plates and papers of this van",
    Origin.MEASURED: "measured on this van",
    Origin.CATALOGUE: "usual for this equipment",
    Origin.MARKET: "set for this country",
    Origin.ASSUMPTION: "assumed",
}
ROUNDING: Mapping[Rounding, str] = {
    Rounding.DOWN: "Rounded down, to the safe side.",
    Rounding.UP: "Rounded up, to the safe side.",
    Rounding.NEAREST: "Rounded to the nearest.",
}


def origin_of(one: Input) -> str:
    """Return where an input is from: "usual for this equipment", "assumed: common practice, no source"."""
    phrase = _ORIGIN[one.origin]
    return phrase if one.where in ("", one.origin.value, phrase) else f"{phrase}: {one.where}"
