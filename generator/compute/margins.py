"""How near a value may come to a limit before a reader is told, and what the verdicts are.

The limits themselves stand in the modules by topic.
"""

from generator.model.numbers import Verdict
from generator.units import Quantity

# Common practice, no source: from nine tenths of a limit a reader weighs rather than trusts a sum.
CLOSE = 0.9
# Common practice, no source: less payload than a tenth of the laden mass is soon used up.
THIN_PAYLOAD = 0.1
_NOISE = 1e-9  # of the limit; a speck of float noise is no breach


def over(value: Quantity, limit: Quantity) -> bool:
    """Return whether ``value`` is above ``limit``."""
    return bool(value > limit * (1 + _NOISE))


def against(value: Quantity, limit: Quantity) -> Verdict:
    """Return how ``value`` stands to the ``limit`` above it."""
    if over(value, limit):
        return Verdict.OVER
    return Verdict.CLOSE if value > limit * CLOSE else Verdict.WITHIN
