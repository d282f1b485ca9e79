"""One van's site, from build sheet to files, against plain ``mkdocs build`` of the same pages; ratios of one run.

Run from the workspace: ``python tests/bench/against_mkdocs.py [SPEC] [PAIRS]``. The stock side gets the pages as
Markdown, with the stock theme and its search; paper and publication are left out on ours. Both are whole processes,
run in turn; the medians of the pairs' ratios are printed. Nothing is asserted: machines differ.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from generator.model.blocks import Text
from generator.model.pages import (
    Bullets,
    Checks,
    Emphasis,
    FragmentHole,
    Group,
    Heading,
    Line,
    Links,
    Node,
    Page,
    Paragraph,
    PlaceRef,
    Ref,
    SafetyBox,
    Steps,
    Strong,
    Table,
    TextHole,
)
from generator.pipeline.examining import examine_van

OURS = Path(__file__).with_name("one_site.py")
DEMO = Path("van_specs/vans/marram-0417.yaml")


def write_stock(spec: Path, out: Path) -> int:
    """Write the same pages as a plain MkDocs project and return their number."""
    manual = examine_van(Path.cwd(), spec).manual
    assert manual is not None
    (out / "docs").mkdir(parents=True)
    for page in manual.pages:
        name = "index.md" if page.template == "home" else page.path.replace("/index.html", ".html")[:-5] + ".md"
        (out / "docs" / name.removesuffix(".md.md")).write_text(markdown(page), encoding="utf-8")
    (out / "mkdocs.yml").write_text("site_name: Stock\ntheme: {name: material}\n", encoding="utf-8")
    return len(manual.pages)


def markdown(page: Page) -> str:
    """Return a page as Markdown; values stand as their names."""
    return "\n\n".join([f"# {page.title}", *(part for node in page.body for part in _node(node))]) + "\n"


def _node(node: Node) -> Iterator[str]:
    match node:
        case Heading(level, text):
            yield f"{'#' * level} {text}"
        case Paragraph(lines):
            yield "  \n".join(_line(line) for line in lines)
        case SafetyBox(message):
            words = (message.hazard.value, message.consequence.value, message.avoid.value)
            yield f'!!! warning "{message.signal}"\n\n    ' + " ".join(words)
        case Steps(items):
            yield "\n".join(f"{n}. " + "\n    ".join(map(_line, step.lines)) for n, step in enumerate(items, 1))
        case Bullets(items):
            yield "\n".join("- " + " ".join(map(_line, item)) for item in items)
        case Table(head, rows):
            cells = [[_line(cell) for cell in row] for row in (head, *rows)]
            cells.insert(1, ["---"] * len(head))
            yield "\n".join("| " + " | ".join(row) + " |" for row in cells)
        case Links(items):
            yield "\n".join(f"- [{item.title}]({_target(item.path)}) {item.note}" for item in items)
        case Checks(_, items):
            yield "\n".join(f"- {_line(item.line)}" for item in items)
        case FragmentHole(name):
            yield name
        case Group(_, children):
            for child in children:
                yield from _node(child)
        case _:
            pass


def _line(line: Line) -> str:
    return "".join(_inline(item) for item in line)


def _inline(item: object) -> str:
    match item:
        case Text(text):
            return text
        case Strong(children) | Emphasis(children):
            return f"**{_line(children)}**"
        case Ref(path, _, children):
            return f"[{_line(children)}]({_target(path)})"
        case PlaceRef(code, name):
            return f"[{code} {name}]({code}.md)"
        case TextHole(name):
            return name
        case _:
            return ""


def _target(path: str) -> str:
    return path.split("#")[0].replace("/index.html", ".html").replace(".html", ".md")


# pip compiled what stock MkDocs imports. Where Python may not keep its own compiling, only our side compiles each time.
KEEPING = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def measured(command: list[str], cwd: Path) -> tuple[float, int]:
    """Return wall time in seconds and peak memory in KiB of one whole process."""
    started = time.perf_counter()
    process = subprocess.Popen(command, cwd=cwd, env=KEEPING, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    if status:
        raise SystemExit(f"{command} failed with status {status}")
    return time.perf_counter() - started, usage.ru_maxrss


def compare(spec: Path, pairs: int) -> None:
    """Run both sides in turn and print the ratios."""
    with tempfile.TemporaryDirectory() as scratch:
        base = Path(scratch)
        pages = write_stock(spec, base / "stock")
        times, peaks = [], []
        for run in range(pairs + 1):  # the first pair warms up
            out = base / f"ours-{run}"
            ours = measured([sys.executable, str(OURS), str(spec), str(out)], Path.cwd())
            stock_command = [sys.executable, "-m", "mkdocs", "build", "-q", "-d", str(base / f"site-{run}")]
            stock = measured(stock_command, base / "stock")
            if run:
                times.append(ours[0] / stock[0])
                peaks.append(ours[1] / stock[1])
    print(f"{spec}: {pages} pages, {pairs} pairs after one to warm up")
    print(f"wall time   ours / mkdocs build: median {median(times):.2f} ({min(times):.2f} to {max(times):.2f})")
    print(f"peak memory ours / mkdocs build: median {median(peaks):.2f} ({min(peaks):.2f} to {max(peaks):.2f})")


if __name__ == "__main__":
    given = sys.argv[1:]
    compare(Path(given[0]) if given else DEMO, int(given[1]) if len(given) > 1 else 5)
