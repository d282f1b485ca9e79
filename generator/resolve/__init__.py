"""The stage that follows every reference of a build sheet: documents to one ``Caravan``.

Numbers are left to ``compute``.
"""

from generator.resolve.caravan import resolve

__all__ = ["resolve"]
