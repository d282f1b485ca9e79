"""Whatever a writer does to a block, kind, outline or the like ends in a page or in a fault with its position.

A small number of slips is tried each time; ``pytest tests/fuzz --mutations 2000`` tries as many as are asked for.
"""

import random
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from generator.errors import Fault
from generator.preview import Bench, View
from generator.preview.bench import Shown
from generator.render.html import body

from ..test_cli import REPO, copied
from .mutations import mutated

pytestmark = pytest.mark.fuzz
MARRAM = "van_specs/vans/marram-0431-nz.yaml"  # the van with most in it
SORTS = {
    "block": "content/blocks/*/*.md",
    "kind": "content/equipment/*/*.yaml",
    "outline": "content/outline.yaml",
    "fragment": "content/fragments/*.md",
    "message": "content/safety/*.yaml",
    "words": "content/[tlp]*.yaml",
}
# How often each sort is changed: blocks are edited most.
WEIGHTS = {"block": 10, "kind": 5, "outline": 3, "fragment": 1, "message": 1, "words": 1}
CHUNKS = 10
VIEW = View(van="marram-0431-nz")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "chunk" in metafunc.fixturenames:
        many = metafunc.config.getoption("--mutations")
        shares = [many // CHUNKS + (number < many % CHUNKS) for number in range(CHUNKS)]
        metafunc.parametrize("chunk", [(number, share) for number, share in enumerate(shares) if share], ids=str)


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    root = copied(tmp_path_factory.mktemp("fuzz") / "desk", MARRAM)
    bench = Bench(root, root / "site_template", [], date(2026, 11, 25))
    assert bench.shown(VIEW).errors == ()
    yield bench
    bench.close()


@pytest.fixture(scope="module")
def files() -> dict[str, dict[str, str]]:
    """The files of the repo by sort and name."""
    found = {
        sort: {path.relative_to(REPO).as_posix(): path.read_text("utf-8") for path in sorted(REPO.glob(pattern))}
        for sort, pattern in SORTS.items()
    }
    assert all(found.values())
    return found


def test_a_slip_ends_in_a_page_or_a_fault_with_its_position(
    chunk: tuple[int, int], bench: Bench, files: dict[str, dict[str, str]]
) -> None:
    number, many = chunk
    ends: Counter[str] = Counter()
    for seed in range(many):
        chance = random.Random(f"{number}/{seed}")
        sort = chance.choices(list(WEIGHTS), list(WEIGHTS.values()))[0]
        name = chance.choice(list(files[sort]))
        text = mutated(files[sort][name], list(files[sort].values()), chance)
        ends[tried(bench, name, text, files[sort][name], f"{number}/{seed}")] += 1
    assert sum(ends.values()) == many


def tried(bench: Bench, name: str, text: str, before: str, seed: str) -> str:
    """Save a changed file, see what comes of it, and put the file back; return "page" or "fault"."""
    path = bench.root / name
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        bench.refresh()
        shown = bench.shown(VIEW)
        for fault in shown.errors:
            assert_position(fault, bench.root, f"seed {seed}, {name}")
        if not shown.errors:
            write_pages(shown, bench)
        return "fault" if shown.errors else "page"
    except Exception as error:
        error.add_note(f"seed {seed}, {name}:\n{text[:4000]}")
        raise
    finally:
        path.write_text(before, encoding="utf-8")


def assert_position(fault: Fault, root: Path, what: str) -> None:
    assert fault.message and fault.source is not None, f"{what}: {fault}"
    file = root / fault.source.file
    assert file.exists(), f"{what}: {fault}"
    lines = file.read_bytes().count(b"\n") + 2 if file.is_file() else 1
    assert 1 <= fault.source.line <= lines and fault.source.column >= 1, f"{what}: {fault}"


def write_pages(shown: Shown, bench: Bench) -> None:
    """Write the pages that changed, and judge their words, as the preview does."""
    assert shown.manual is not None
    for page in shown.manual.pages:
        if page.path in shown.changed:
            assert body(page, {}) is not None
            bench.judged(VIEW, page)
