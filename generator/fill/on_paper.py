"""The drawings of a manual as paper takes them: by hole, each with its words."""

from collections.abc import Mapping

from generator.fill.drawing import van_pictures
from generator.fill.panel import panel_picture
from generator.model.holes import HoleValue, VanDrawing
from generator.model.panels import PanelDrawing
from generator.model.paper import Picture


def drawings_on_paper(values: Mapping[str, HoleValue]) -> dict[str, tuple[Picture, ...]]:
    """Return the pictures of every drawing among ``values``, by the name of its hole."""
    made: dict[str, tuple[Picture, ...]] = {}
    for name, value in values.items():
        match value:
            case VanDrawing():
                made[name] = van_pictures(value)
            case PanelDrawing():
                made[name] = (panel_picture(value),)
    return made
