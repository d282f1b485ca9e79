"""The faults of one van, gathered before any is raised."""

from collections.abc import Iterable

from generator.errors import Fault, Source, SpecError
from generator.model.specs import ANY
from generator.model.spoilt import NOTHING, Spoilt

KINDS = "kinds"  # among what is lost of a van: a kind that is fitted, or what else of the catalogue gives traits


class Faults:
    """Collects what the author of a build sheet must put right.

    Args:
        spoilt: Files that have faults of their own, told already.
    """

    def __init__(self, spoilt: Spoilt = NOTHING) -> None:
        self._found: list[Fault] = []
        self._spoilt = spoilt
        self._lost: set[str] = set()
        self._stopped = False

    def lose(self, parts: Iterable[str]) -> None:
        """Note fields of the sheet of which something is lost, by a fault told here or before."""
        self._lost.update(parts)

    def rest_on(self, *files: str) -> bool:
        """Note files that the van rests on; return False where one has faults, and the van goes no further."""
        sound = not self._spoilt.any_of(files)
        if not sound:
            self.lose([KINDS])
        return sound

    def add(self, message: str, source: Source, hint: str = "") -> None:
        """Take down one fault; one at a file of the content that has faults of its own may follow from them."""
        if source.file in self._spoilt and source.file.startswith("content/"):
            self._stopped = True
        else:
            self._found.append(Fault(message, source, hint))

    def absent(
        self, message: str, source: Source, hint: str = "", *, of: Iterable[str] = (), name: str = "", by: str = ""
    ) -> None:
        """Take down that something is not there, unless it may stand where something was lost.

        Args:
            message: What is wrong.
            source: Where it shows.
            hint: What to do.
            of: The fields of the sheet where it would stand.
            name: What it is called, where a file of the workspace would give it.
            by: How the path of that file begins.
        """
        lost = not self._lost.isdisjoint((*of, ANY)) if of else False
        if lost or (by and self._spoilt.may_hold(name, by)):
            self._stopped = True
        else:
            self.add(message, source, hint)

    def raise_any(self) -> None:
        """Raise all faults at once, by file, line and column.

        Raises:
            SpecError: there is a fault; without any in it where what was told before keeps the van from being made.
        """
        if self._found or self._stopped or self._lost:
            order = sorted(dict.fromkeys(self._found), key=lambda fault: (fault.source or Source(""), fault.message))
            raise SpecError(*order)
