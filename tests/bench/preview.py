"""From a save to the fresh page, against a full build of the same van; medians and their ratio of one run.

Run from the workspace: ``python tests/bench/preview.py [SPEC] [SAVES]``. A block of a copy of the workspace is saved
again and again with other words; the clock stops when the page with these words has been fetched from the preview.
Between saves the same van's site is built whole in this process, which is warm: read, resolved, computed, assembled,
rendered and filled, without paper, and without the start of a process. Nothing is asserted: machines differ.
"""

import shutil
import subprocess
import sys
import tempfile
import time
import urllib.request
from datetime import date
from pathlib import Path
from statistics import median

from generator.fill import fill
from generator.model.site import Edition
from generator.pipeline.examining import examine_van
from generator.pipeline.making import TEMPLATE
from generator.render import render

DEMO = "van_specs/vans/marram-0417.yaml"
BLOCK, PAGE = "content/blocks/gas/change-bottle-two.md", "change-the-gas-bottle.html"
LONGEST_S = 60


def full_build(root: Path, spec: Path) -> float:
    """Build the site of a van and return the seconds it took."""
    began = time.perf_counter()
    manual = examine_van(root, spec).manual
    assert manual is not None
    with tempfile.TemporaryDirectory() as scratch:
        rendered = render(manual.pages, root / TEMPLATE, Path(scratch))
    fill(manual, rendered, Edition(number=1, day=date(2026, 1, 1)), "BENCHMARKS")
    return time.perf_counter() - began


def fetched(address: str) -> str:
    with urllib.request.urlopen(address, timeout=LONGEST_S) as answer:
        return str(answer.read().decode("utf-8"))


def save(root: Path, site: str, text: str, number: int) -> float:
    """Save the block with other words and return the seconds until they were fetched; waits as a browser does."""
    words = f"Save number {number}."
    epoch = int(fetched(f"{site}livereload/0/1"))
    began = time.perf_counter()
    (root / BLOCK).write_text(text + f"\n{words}\n", encoding="utf-8")
    while True:
        epoch = int(fetched(f"{site}livereload/{epoch}/1"))
        if words in fetched(f"{site}{Path(DEMO).stem}/{PAGE}"):
            return time.perf_counter() - began
        if time.perf_counter() - began > LONGEST_S:
            raise SystemExit("the page never showed the save")


def main() -> None:
    """Measure and print."""
    spec = sys.argv[1] if len(sys.argv) > 1 else DEMO
    saves = int(sys.argv[2]) if len(sys.argv) > 2 else 20
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        for name in ("content", "van_specs", TEMPLATE):
            shutil.copytree(name, root / name)
        text = (root / BLOCK).read_text(encoding="utf-8")
        command = [sys.executable, "-m", "generator", "preview", spec, "--workspace", str(root)]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
            assert server.stdout is not None
            site = server.stdout.readline().strip().rpartition("/")[0].rpartition("/")[0] + "/"
            fetched(f"{site}{Path(spec).stem}/{PAGE}")
            full_build(root, root / spec)
            pairs = []
            for number in range(saves):
                pairs.append((save(root, site, text, number), full_build(root, root / spec)))
            server.terminate()
    one, whole = median(pair[0] for pair in pairs), median(pair[1] for pair in pairs)
    print(f"save to fresh page  {one:.2f} s (median of {saves}, slowest {max(pair[0] for pair in pairs):.2f} s)")
    print(f"full build, warm    {whole:.2f} s (median of {saves})")
    print(f"ratio               {one / whole:.2f}")


if __name__ == "__main__":
    main()
