"""Which van is looked at: a build sheet, maybe in another market, or a van improvised from kinds.

A view is written in the address, so that a switch is a link and a page can be kept.
"""

import re
from dataclasses import dataclass

_NAME = re.compile(r"(?P<van>[A-Za-z0-9][A-Za-z0-9_.-]*)(?:@(?P<market>[a-z]{2,8}))?")
_MIX = re.compile(r"mix@(?P<market>[a-z]{2,8})\+(?P<axles>[12])(?P<kinds>(?:\+[a-z0-9_]+\.[a-z0-9-]+)*)")


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One van to be looked at. ``van`` is the name of its build sheet without ending, "" for an improvised one."""

    van: str = ""
    market: str = ""  # "" is the build sheet's own
    kinds: tuple[tuple[str, str], ...] = ()
    axles: int = 1

    @property
    def name(self) -> str:
        """The view as it stands in addresses."""
        if self.van:
            return f"{self.van}@{self.market}" if self.market else self.van
        return "+".join([f"mix@{self.market}", str(self.axles), *(f"{slot}.{kind}" for slot, kind in self.kinds)])


def view_named(name: str) -> View | None:
    """Return the view that an address names, or None."""
    if mix := _MIX.fullmatch(name):
        kinds = [tuple(part.split(".", 1)) for part in mix["kinds"].split("+") if part]
        return View(market=mix["market"], axles=int(mix["axles"]), kinds=tuple((one[0], one[1]) for one in kinds))
    plain = _NAME.fullmatch(name)
    return View(van=plain["van"], market=plain["market"] or "") if plain else None
