"""What the load index and the speed symbol on the side of a tyre mean, and reading them from its size.

Whether the tyres are strong enough for the van is judged in ``tyres``.
"""

import re
from dataclasses import dataclass

# Load of one tyre in kg by load index, ISO 4000-1 and ETRTO. Read in published tables, except 60 to 67 and
# 124 to 126 (from memory; all lie within 1.8 % of the series 45 x 10^(index/80) behind the standard).
_FIRST = 60
_LOADS_KG = (
    *(250, 257, 265, 272, 280, 290, 300, 307, 315, 325),  # 60 to 69
    *(335, 345, 355, 365, 375, 387, 400, 412, 425, 437),  # 70 to 79
    *(450, 462, 475, 487, 500, 515, 530, 545, 560, 580),  # 80 to 89
    *(600, 615, 630, 650, 670, 690, 710, 730, 750, 775),  # 90 to 99
    *(800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030),  # 100 to 109
    *(1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360),  # 110 to 119
    *(1400, 1450, 1500, 1550, 1600, 1650, 1700),  # 120 to 126
)
LOAD_KG = {_FIRST + step: load for step, load in enumerate(_LOADS_KG)}

# Greatest speed in km/h by speed symbol, ISO 4000-1 and UN R54. F, G, J and K from memory, the others read.
SPEED_KM_H = {
    **{"F": 80, "G": 90, "J": 100, "K": 110, "L": 120, "M": 130, "N": 140, "P": 150, "Q": 160, "R": 170},
    **{"S": 180, "T": 190, "U": 200, "H": 210, "V": 240, "W": 270, "Y": 300},
}

# "195/70 R14 96N", "185 R14C 102/100Q", "155/70 R 12 C 104/102 N", "5.00-10 79M": behind the rim, the index of a
# tyre fitted singly, perhaps that of one of two side by side, and the letter.
_STAMPED = re.compile(
    r"(?:(?<![A-Z])[RBD]|-)\s?\d{2}(?:\.\d)?\s?C?\s+(?P<index>\d{2,3})(?:/\d{2,3})?\s?(?P<speed>[A-Z])(?![A-Z0-9])"
)


@dataclass(frozen=True, slots=True)
class Service:
    """Load index and speed symbol of a tyre fitted singly."""

    index: int
    symbol: str


def service(stamped: str) -> Service | None:
    """Return load index and speed symbol of a size as it is stamped on the tyre; None where it has none."""
    found = _STAMPED.search(stamped.upper())
    return Service(int(found["index"]), found["speed"]) if found else None
