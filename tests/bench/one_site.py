"""Makes and writes the site of one van, in a process set up as a command's is: ``one_site.py SPEC OUT``.

What is measured of it, and against what, is left to ``against_mkdocs``.
"""

import sys
from datetime import date
from pathlib import Path

from generator.cli import collect_rarely


def build(spec: Path, out: Path) -> None:
    """Make and write every file of the van's manual."""
    from generator.fill import fill
    from generator.model.site import Edition
    from generator.pipeline.examining import examine_van
    from generator.pipeline.making import TEMPLATE
    from generator.render import render

    manual = examine_van(Path.cwd(), spec).manual
    assert manual is not None
    rendered = render(manual.pages, Path(TEMPLATE), out / "scratch")
    for name, content in fill(manual, rendered, Edition(number=1, day=date(2026, 1, 1)), "BENCHMARKS").files.items():
        target = out / "site" / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)


if __name__ == "__main__":
    collect_rarely()
    build(Path(sys.argv[1]), Path(sys.argv[2]))
