"""What could not be read, so that nobody is told that something is missing which may stand there.

Which files those are is left to ``load``.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Spoilt:
    """The files of a workspace that have faults: their text, or None where nothing is left of it."""

    texts: Mapping[str, str | None] = field(default_factory=dict)  # by path relative to the workspace

    def __contains__(self, file: str) -> bool:
        return file in self.texts

    def __bool__(self) -> bool:
        return bool(self.texts)

    def may_hold(self, name: str, *starts: str, asked_in: str = "") -> bool:
        """Return whether a spoilt file may be what gives ``name``: it holds the word, is called so, or has no text.

        Args:
            name: A trait, topic, point or the like; hyphen and underscore are one.
            starts: How the paths of files begin that could give it.
            asked_in: The file that asks for it, and so holds it once for that.
        """
        word = re.sub(r"\\?[-_]", "[-_]", re.escape(name))
        pattern = re.compile(rf"(?<![\w-]){word}(?![\w-])")
        return any(
            text is None or len(pattern.findall(f"{file}\n{text}")) > (file == asked_in)
            for file, text in self.texts.items()
            if file.startswith(starts)
        )

    def any_of(self, files: Iterable[str]) -> bool:
        """Return whether one of ``files`` has faults."""
        return any(file in self.texts for file in files)


NOTHING = Spoilt()
