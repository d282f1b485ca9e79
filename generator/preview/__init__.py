"""The writer's bench: a van's manual in the browser, made anew at each save, with what is wrong beside it.

``bench`` makes pages, ``chrome`` adds what only the writer sees, ``server`` serves them on this machine alone. Stands
above the pipeline; nothing it adds is in a published page.
"""

from generator.preview.bench import Bench
from generator.preview.server import serve
from generator.preview.views import View, view_named

__all__ = ["Bench", "View", "serve", "view_named"]
