"""All paper of one van against Typst alone; ratios of one run.

Run from the workspace: ``python tests/bench/paper_against_typst.py [SPEC] [PAIRS]``. Typst alone compiles the same
documents, prepared beforehand: labels, booklet in both sizes, sheets to staple, walk-round, card, engravings. Ours is
the whole stage: trees to data, the check of characters, Typst, every label read back, calendar, SVG made plain. Each
run is a process of its own, forked ready to start (not on Windows), and they take turns; the medians of the pairs are
printed. Nothing is asserted: machines differ.
"""

import multiprocessing
import sys
import time
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from statistics import median
from typing import Any, TypeVar

import typst

from generator.fill.drawing import bare_picture
from generator.fill.on_paper import drawings_on_paper
from generator.model.holes import VanDrawing
from generator.model.manual import Manual
from generator.model.paper import Whole
from generator.model.site import Edition
from generator.paper import paper
from generator.paper import typeset as typesetting
from generator.pipeline.examining import examine_van

ROOT = Path(__file__).resolve().parents[2]
SPEC = "van_specs/vans/marram-0417.yaml"
ADDRESS = "https://vans.example/7K3QX9F4WM/"

T = TypeVar("T")
Job = tuple[Mapping[str, bytes], Mapping[str, Any]]


def main(spec: str = SPEC, pairs: str = "5") -> None:
    """Print how long both took and the ratio."""
    manual = examine_van(ROOT, ROOT / spec).manual
    assert manual is not None
    whole = _whole(manual)

    def ours() -> None:
        paper(manual, ADDRESS, None, whole.signs, whole)

    jobs = _apart(lambda: _recorded(ours))

    def alone() -> None:
        for files, settings in jobs:
            typst.compile(dict(files), **settings)  # type: ignore[call-overload]

    times = [(_apart(lambda: _timed(ours)), _apart(lambda: _timed(alone))) for _ in range(int(pairs))]
    for name, found in (("all paper", [one for one, _ in times]), ("Typst alone", [two for _, two in times])):
        print(f"{name}: {median(found):.2f} s ({len(jobs)} documents, median of {pairs})")
    print(f"ratio: {median(one / two for one, two in times):.2f}")


def _apart(work: Callable[[], T]) -> T:
    """Return what ``work`` gives in a process of its own: Typst remembers what it has set."""
    here, there = multiprocessing.Pipe(duplex=False)
    child = multiprocessing.get_context("fork").Process(target=lambda: there.send(work()))
    child.start()
    there.close()
    result: T = here.recv()
    child.join()
    return result


def _whole(manual: Manual) -> Whole:
    outline = manual.values["drawing/van"]
    return Whole(
        edition=Edition(number=2, day=date(2026, 11, 20)),
        day=date(2026, 11, 20),
        cover=bare_picture(outline) if isinstance(outline, VanDrawing) else None,
        drawings=drawings_on_paper(manual.values),
        signs={path.stem: path.read_text("utf-8") for path in (ROOT / "site_template/signs").glob("*.svg")},
    )


def _recorded(run: Callable[[], None]) -> list[Job]:
    """Return what a run hands to Typst."""
    jobs: list[Job] = []
    compiled = typst.compile

    def keep(files: Mapping[str, bytes], **settings: Any) -> Any:
        jobs.append((files, settings))
        return compiled(dict(files), **settings)

    typesetting.typst.compile = keep  # type: ignore[assignment]
    try:
        run()
    finally:
        typesetting.typst.compile = compiled
    return jobs


def _timed(run: Callable[[], None]) -> float:
    started = time.perf_counter()
    run()
    return time.perf_counter() - started


if __name__ == "__main__":
    main(*sys.argv[1:])
