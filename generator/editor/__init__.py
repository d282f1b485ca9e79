"""Help for a writer's editor: JSON Schemas, a problem matcher, and files to start from.

Stands beside the pipeline: nothing of a manual is made here.
"""

from generator.editor.files import editor_files
from generator.editor.starters import FORMS, Insert, Starter, starter

__all__ = ["FORMS", "Insert", "Starter", "editor_files", "starter"]
