"""The commands of the dealer's office: parse, call what does the work, print what came of it.

The command line itself is in ``cli``. What does the work is imported by each command, so that help is quick.
"""

import secrets
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands import options
from generator.commands.progress import Progress
from generator.commands.telling import tell
from generator.errors import Level, ManualError

if TYPE_CHECKING:
    from generator.model.manual import Manual
    from generator.pipeline.checking import Judged
    from generator.pipeline.finishing import Ready
    from generator.pipeline.publishing import Published
    from generator.pipeline.reviewing import Reviewed


@click.command(epilog=options.examples("publish van_specs/vans/marram-0417.yaml --library /srv/www/vans"))
@options.specs
@options.library
@options.records
@options.workspace
@options.day
@options.debug
def publish(specs: tuple[Path, ...], library: Path, records: Path, workspace: Path, day: date) -> None:
    """Make editions of vans and put them online.

    Judges everything you wrote for these vans, and writes nothing while there is a fault in any of
    them. A manual that has not changed keeps its edition. Without SPEC: every van in van_specs/vans.
    """
    from generator.model.release import Shelf
    from generator.pipeline.publishing import Published, publish_vans

    shelf = Shelf(library=library.resolve(), records=records.resolve())
    published: list[Published] = []
    try:
        with Progress(sys.stderr) as progress:
            for each in publish_vans(workspace.resolve(), specs, shelf, day, secrets.token_bytes(32), progress.tick):
                if isinstance(each, Published):
                    published.append(each)
                else:
                    progress.hide()
                    tell(each.warnings)
    finally:  # where the disk refuses one van, those before it are online
        for done in published:
            click.echo(_published_text(done))
    if published:
        click.echo(f"List of everything published: {shelf.records / 'vans.html'}")


def _published_text(done: "Published") -> str:
    """Return where to look for one van."""
    manual = done.van.manual
    states = {
        "new": f"edition {done.edition} of {done.day}",
        "unchanged": f"unchanged, edition {done.edition} stands",
        "restored": f"unchanged, edition {done.edition} put back into the library",
        "paper": f"unchanged, edition {done.edition} stands; labels set anew",
    }
    lines = [
        f"{manual.model} {manual.tail} ({done.van.file}): {states[done.state]}",
        f"  open     {done.index}",
        f"  address  {done.address}",
        *((f"  draft    {_waiting_text(manual)}: see lockerleaf review",) if manual.waiting else ()),
        *(f"  print    {path}" for path in done.paper),
        *(f"           {line}" for line in (done.labels.lines if done.labels else ())),
    ]
    return "\n".join(lines)


def _waiting_text(manual: "Manual") -> str:
    """Return how many blocks of a manual wait for review."""
    waiting, count = len(manual.waiting), len(manual.safety)
    return f"{waiting} of {count} safety-critical blocks {'waits' if waiting == 1 else 'wait'} for review"


@click.command(epilog=options.examples("check van_specs/vans/marram-0417.yaml"))
@options.specs
@options.records
@options.workspace
@options.day
@options.debug
def check(specs: tuple[Path, ...], records: Path, workspace: Path, day: date) -> None:
    """Judge what you wrote, and write nothing.

    Judges build sheets, catalogue and content for these vans by making their manuals whole: every
    stage but publishing. Without SPEC: every van in van_specs/vans.
    """
    from generator.pipeline.checking import check_vans

    with Progress(sys.stderr) as progress:
        judged = check_vans(workspace.resolve(), specs, records.resolve(), day, progress.tick)
    tell(judged.warnings)
    click.echo(_judged_text(judged))


def _judged_text(judged: "Judged") -> str:
    """Return what was judged and found good."""
    lines = []
    for ready in judged.vans:
        manual = ready.van.manual
        labels = ready.labels.count if ready.labels else 0
        waiting = f", a draft: {_waiting_text(manual)}" if manual.waiting else ""
        lines.append(
            f"{ready.van.file}: {manual.model} {manual.tail}, {len(manual.pages)} pages, {labels} labels{waiting}"
        )
    lines += (line for told in dict.fromkeys(map(_labels_text, judged.vans)) for line in told)
    warnings = sum(fault.level is Level.WARNING for fault in judged.warnings)
    counted = "1 van" if len(judged.vans) == 1 else f"{len(judged.vans)} vans"
    if judged.words.ease:
        lines.append(f"{judged.words.summary} (lockerleaf language lists all)")
    lines.append(f"{counted} without faults" + (f", {warnings} to look at above" if warnings else ""))
    return "\n".join(lines)


def _labels_text(ready: "Ready") -> tuple[str, ...]:
    """Return what a dealer is to expect of the labels on these sheets, the same for all vans of the dealer."""
    if ready.labels is None:
        return ()
    _, symbol, reads, *note = ready.labels.lines
    return (
        f"labels of {ready.van.manual.dealer} ({ready.labels.stock}): {symbol}",
        f"  {reads}",
        *(f"  {one}" for one in note),
    )


@click.command(epilog=options.examples("verify --library /srv/www/vans"))
@options.library
@options.records
@options.debug
def verify(library: Path, records: Path) -> None:
    """Judge what is online, and change nothing.

    Judges every manual in the library, file by file: each is there, as it was published, nothing else beside it,
    every link and every label leads to a page. With the records also that each van they list is there in the edition
    they hold; without them manuals are judged by their own lists.
    """
    from generator.pipeline.verifying import verify_library

    with Progress(sys.stderr) as progress:
        done = verify_library(library.resolve(), records.resolve(), progress.tick)
    manuals = "1 manual" if done.manuals == 1 else f"{done.manuals} manuals"
    by = "" if done.by_records else " (by their own lists: there are no records here)"
    click.echo(f"{manuals}, {done.files} files: all as published{by}")


@click.command(epilog=options.examples('review van_specs/vans/marram-0417.yaml --by "Robin Vale"'))
@options.specs
@click.option("--by", metavar="NAME", help="Record that this person has checked all that is listed.")
@options.records
@options.workspace
@options.day
@options.debug
def review(specs: tuple[Path, ...], by: str | None, records: Path, workspace: Path, day: date) -> None:
    """List the safety-critical blocks nobody has checked, or record that somebody has.

    Judges these vans up to their manuals. A manual with an unchecked block says on every page that it is
    a draft. With --by, all blocks listed are recorded as checked in the words they have now: list first,
    read the files, then record. Editing one of them voids its review. Without --by and SPEC: every van.
    """
    from generator.pipeline.reviewing import review_vans

    if by is not None and not specs:
        raise click.UsageError("--by needs the build sheets of the vans that were checked")
    with Progress(sys.stderr) as progress:
        done = review_vans(workspace.resolve(), specs, records.resolve(), by, day, progress.tick)
    click.echo(_reviewed_text(done))


def _reviewed_text(done: "Reviewed") -> str:
    """Return what waited for review, and what became of it."""
    lines = []
    for block in done.waiting:
        lines.append(f"{block.file}: {block.title} ({'; '.join(block.why)})")
        if block.sentences:
            lines.append(f"  with sentences from {', '.join(block.sentences)}")
    if done.register:
        lines.append(f"{len(done.waiting)} recorded as checked in {done.register}")
        lines.append("Publish these vans to take the draft notice off.")
    else:
        for van in done.vans:
            state = _waiting_text(van.manual) if van.manual.waiting else "nothing waits for review"
            lines.append(f"{van.file}: {van.manual.model} {van.manual.tail}, {state}")
    return "\n".join(lines)


@click.command(epilog=options.examples("show van_specs/vans/marram-0417.yaml"))
@click.argument("spec", type=click.Path(path_type=Path))
@options.workspace
@options.debug
def show(spec: Path, workspace: Path) -> None:
    """Say what is in a van's manual and why.

    Judges one build sheet up to its manual as a tree and prints its traits, its topics in and out, its
    chassis number and every fact the numbers are made from, each with where it comes from.
    """
    from generator.commands.show import description
    from generator.pipeline.examining import examine_van

    examined = examine_van(workspace.resolve(), spec)
    click.echo(description(examined))
    tell(fault for fault in examined.faults if fault.level is Level.WARNING)
    errors = [fault for fault in examined.faults if fault.level is Level.ERROR]
    if errors:
        raise ManualError(*errors)
