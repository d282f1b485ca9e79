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

_UNSOURCED = "common practice, no source"
_UNREAD = "from memory"


def cited(source: str, read_on: str) -> str:
    """Return a source in an owner's words, with the day it was read, or that nobody looked it up again.

    The marks of our files, "common practice, no source" and "from memory", are not for owners.
    """
    if _UNSOURCED in source:
        return source.replace(_UNSOURCED, "common practice; your dealer knows the rule")
    if _UNREAD in source:
        return source.replace(_UNREAD, "not looked up again")
    return f"{source} (not looked up again)" if read_on == _UNREAD else f"{source}; read {read_on}"


def origin_of(one: Input) -> str:
    """Return where an input is from: "usual for this equipment", "assumed: common practice, no source"."""
    phrase = _ORIGIN[one.origin]
    return phrase if one.where in ("", one.origin.value, phrase) else f"{phrase}: {one.where}"
