"""One van's numbers, from build sheet to every number, table and planner, against plain ``mkdocs build`` of its pages.

Run from the workspace: ``python tests/bench/numbers_against_mkdocs.py [SPEC] [PAIRS]``. Two ratios are printed: of
working the numbers out alone, as ``check`` does for each further van of a fleet, and of a whole process that starts
Python, reads the workspace and works them out. The stock side is a whole process in both. Nothing is asserted:
machines differ; the aim is that the numbers take less than a tenth.
"""

import sys
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter

if __package__ in (None, ""):  # run as a script, from the workspace
    sys.path.insert(0, str(Path(__file__).parents[2]))

from generator.compute import compute
from generator.load import load
from generator.resolve import resolve
from tests.bench.against_mkdocs import DEMO, measured, write_stock

AIM = 0.1
REPEATS = 5  # of the numbers alone, which are soon done


def work_out(spec: Path, repeats: int) -> float:
    """Return the median time in seconds that the numbers of a resolved van take."""
    workspace = load(Path.cwd(), (spec,))
    caravan = resolve(next(iter(workspace.vans.values())), workspace)
    times = []
    for _ in range(repeats + 1):  # the first warms up: units are read once in a process
        started = perf_counter()
        compute(caravan)
        times.append(perf_counter() - started)
    return median(times[1:])


def whole_process(spec: Path) -> None:
    """Do what a process does that is asked for the numbers of one van and no more."""
    workspace = load(Path.cwd(), (spec,))
    compute(resolve(next(iter(workspace.vans.values())), workspace))


def compare(spec: Path, pairs: int) -> None:
    """Run both sides in turn and print the ratios."""
    alone, whole = [], []
    with tempfile.TemporaryDirectory() as scratch:
        base = Path(scratch)
        pages = write_stock(spec, base / "stock")
        for run in range(pairs + 1):  # the first pair warms up
            numbers = work_out(spec, REPEATS)
            process, _ = measured([sys.executable, __file__, "--numbers", str(spec)], Path.cwd())
            command = [sys.executable, "-m", "mkdocs", "build", "-q", "-d", str(base / f"site-{run}")]
            stock, _ = measured(command, base / "stock")
            if run:
                alone.append(numbers / stock)
                whole.append(process / stock)
    print(f"{spec}: numbers against {pages} pages, {pairs} pairs after one to warm up")
    for name, ratios in (("numbers alone ", alone), ("whole process ", whole)):
        said = f"median {median(ratios):.3f} ({min(ratios):.3f} to {max(ratios):.3f})"
        print(f"{name} ours / mkdocs build: {said}, {'under' if median(ratios) < AIM else 'NOT under'} {AIM}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--numbers"]:
        whole_process(Path(sys.argv[2]))
    else:
        given = sys.argv[1:]
        compare(Path(given[0]) if given else DEMO, int(given[1]) if len(given) > 1 else 5)
