"""The stage that reads workspace and records: files to typed documents with source positions.

Following references of a van is left to ``resolve``.
"""

from generator.load.records import load_records
from generator.load.workspace import load, load_sound

__all__ = ["load", "load_records", "load_sound"]
