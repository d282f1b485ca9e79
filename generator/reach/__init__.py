"""Where something is used: what a writer asks before changing it.

``asking`` strings the others together: ``subjects`` reads what was asked, ``named`` finds who names it, ``hits`` finds
it in the vans of the workspace, ``changed`` asks git, ``telling`` writes it down. All of it stands above the pipeline,
which makes the manuals.
"""

from generator.reach.asking import Asked, ask
from generator.reach.changed import changed_files
from generator.reach.hits import Hit, hits
from generator.reach.named import Named, named
from generator.reach.subjects import Subject, of_files, of_words
from generator.reach.telling import Answer, as_csv, as_json, as_text

__all__ = [
    "Answer",
    "Asked",
    "Hit",
    "Named",
    "Subject",
    "as_csv",
    "as_json",
    "as_text",
    "ask",
    "changed_files",
    "hits",
    "named",
    "of_files",
    "of_words",
]
