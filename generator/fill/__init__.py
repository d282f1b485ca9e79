"""fill: rendered pages and one van's values -> every file of its manual, in memory."""

from generator.fill.stage import fill

__all__ = ["fill"]
