"""Writes what the planners of a van reckon with as a script, so that it loads from a folder as well as from a host.

The sums are the page script's.
"""

import json
from dataclasses import asdict

from generator.model.manual import Manual


def plan_script(manual: Manual) -> bytes:
    """Return the script that assigns the planners of ``manual``."""
    data = json.dumps(asdict(manual.planners), separators=(",", ":"), allow_nan=False)
    return f"self.lockerleafPlan={data};\n".encode()
