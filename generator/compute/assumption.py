"""What an assumption is. Which there are stands in ``assumptions`` and ``energy_assumptions``."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.units import Quantity

HABIT = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """One assumption; what a build sheet sets must lie between ``least`` and ``most``.

    ``by_market`` holds, by market id, what is assumed there instead of the default.
    """

    id: str
    title: str
    default: Quantity
    unit: str
    least: float
    most: float
    source: str
    by_market: Mapping[str, Quantity] = field(default_factory=dict)


def assumption(
    id: str, title: str, default: float, unit: str, span: tuple[float, float], source: str, **by_market: float
) -> Assumption:
    """Return an assumption whose default, span and values by market are in ``unit``."""
    least, most = span
    return Assumption(
        id=id,
        title=title,
        default=Quantity(default, unit),
        unit=unit,
        least=least,
        most=most,
        source=source,
        by_market={market: Quantity(value, unit) for market, value in by_market.items()},
    )
