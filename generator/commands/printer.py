"""The command of who prints: parse, call what does the work, print what came of it.

The command line itself is in ``cli``. What does the work is imported by the command, so that help is quick.
"""

import os
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands import options
from generator.commands.progress import Progress

if TYPE_CHECKING:
    from generator.pipeline.printing import Printed


@click.command(epilog=options.examples("paper van_specs/vans/marram-0417.yaml --out print"))
@options.specs
@click.option("--out", type=options.FOLDER, help="Write here, a folder for each van.  [default: paper/ in the records]")
@click.option(
    "--from", "first", type=click.IntRange(min=1), metavar="N", help="Only labels, from position N of the first sheet."
)
@click.option("--only", metavar="CODES", help="Only labels, and only of these places: A1,B2.")
@options.records
@options.workspace
@options.day
@options.debug
def paper(
    specs: tuple[Path, ...],
    out: Path | None,
    first: int | None,
    only: str | None,
    records: Path,
    workspace: Path,
    day: date,
) -> None:
    """Make all that is printed for vans.

    Labels, booklet in A5 and A4 and laid out for stapling, walk-round sheet, card, calendar, and each label as SVG.
    Judges everything you wrote for these vans, and reads every label back from its finished sheet. A van that is not
    published as it stands gets a proof. With --from or --only: labels alone, to use up a sheet or replace some.
    """
    from generator.model.paper import LabelChoice
    from generator.pipeline.printing import paper_vans

    if only is not None and len(specs) != 1:
        raise click.UsageError("--only needs one build sheet: places of different vans share their codes")
    codes = tuple(code.strip().upper() for code in (only or "").split(",") if code.strip())
    choice = LabelChoice(first=first or 1, only=codes) if first or only is not None else None
    with Progress(sys.stderr) as progress:
        made = paper_vans(
            workspace.resolve(), specs, records.resolve(), day, out.resolve() if out else None, choice, progress.tick
        )
        for printed in made:
            progress.hide()
            click.echo(_printed_text(printed))


def _printed_text(printed: "Printed") -> str:
    """Return where the paper of one van lies and what to know when printing it."""
    manual, edition = printed.van.manual, printed.edition
    if all(path.name == "labels-some.pdf" for path, _ in printed.files):
        what = f"labels that lead to {printed.address}"
    elif edition:
        what = f"edition {edition.number} of {edition.day}"
    elif printed.address:
        what = "a proof: the manual has changed since it was published"
    else:
        what = "a proof without labels and codes: the van is not published yet"
    lines = [f"{manual.model} {manual.tail} ({printed.van.file}): {what}"]
    files = [(path, note) for path, note in printed.files if path.suffix != ".svg"]
    engraved = [path for path, _ in printed.files if path.suffix == ".svg"]
    for path, note in files:
        lines.append(f"  print    {path}")
        if path.name.startswith("labels") and printed.labels:
            lines += (f"           {line}" for line in printed.labels.lines)
        elif note:
            lines.append(f"           {note}")
    if engraved:
        lines.append(
            f"  engrave  {engraved[0].parent}{os.sep}*.svg, {len(engraved)} labels at full size, dark shapes only"
        )
    return "\n".join(lines)
