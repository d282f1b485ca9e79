"""Packs the pages for their way to the phone: a few compressed files instead of one request for each page.

Which of them is fetched when is the worker's business; who opens the manual from a folder needs none of them.
"""

import hashlib
import itertools
import json
import zlib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass

from generator.fill.assets import FOLDER

# Small enough that a cut loses seconds, large enough that pages share what they have in common.
_MOST_BYTES = 300_000


@dataclass(frozen=True, slots=True)
class Pack:
    """Pages in one file, ``path`` with the hash of its content.

    The content is deflated JSON: the lines that stand in it more than once, then by path each page as a list of pieces,
    a number for a line or text of its own. Deflate alone finds repetitions over 32 kB only, and pages are 9 kB each.
    """

    path: str
    content: bytes
    pages: tuple[str, ...]


def packs(pages: Mapping[str, bytes], at_once: Set[str]) -> tuple[Pack, ...]:
    """Return all pages in packs: first one pack of those wanted ``at_once``, then the others.

    Pages that stand side by side share most words, so reading order makes the smallest packs.

    Args:
        pages: HTML by path, in reading order.
        at_once: Paths of pages that a first visit takes before all else.
    """
    first = [path for path in pages if path in at_once]
    later = [path for path in pages if path not in at_once]
    parts = [first, *_cut(later, pages)]
    return tuple(_pack(number, part, pages) for number, part in enumerate(parts))


def _cut(paths: Sequence[str], pages: Mapping[str, bytes]) -> Iterator[list[str]]:
    part: list[str] = []
    size = 0
    for path in paths:
        if part and size + len(pages[path]) > _MOST_BYTES:
            yield part
            part, size = [], 0
        part.append(path)
        size += len(pages[path])
    if part:
        yield part


def _pack(number: int, paths: Sequence[str], pages: Mapping[str, bytes]) -> Pack:
    pieces = _pieces({path: pages[path].decode("utf-8").splitlines(keepends=True) for path in paths})
    content = zlib.compress(json.dumps(pieces, ensure_ascii=False, separators=(",", ":")).encode("utf-8"), 9)
    # An ending no host compresses again or takes for something else.
    path = f"{FOLDER}/pages-{number}.{hashlib.sha256(content).hexdigest()[:10]}.bin"
    return Pack(path, content, tuple(paths))


def _pieces(lines: Mapping[str, Sequence[str]]) -> tuple[list[str], dict[str, list[int | str]]]:
    counts = Counter(line for page in lines.values() for line in page)
    numbers = {line: number for number, line in enumerate(line for line, count in counts.items() if count > 1)}
    pages: dict[str, list[int | str]] = {}
    for path, page in lines.items():
        pages[path] = []
        for repeats, group in itertools.groupby(page, key=numbers.__contains__):
            found = list(group)
            pages[path] += [numbers[line] for line in found] if repeats else ["".join(found)]
    return list(numbers), pages
