"""The command line: parses, calls the pipeline, prints what came of it, sets the exit code.

Nothing is decided here. The stages are imported by the commands that need them, so that help is quick.
"""

import os
import secrets
import sys
import traceback
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.errors import Fault, Level, ManualError
from generator.options import day as _day
from generator.options import debug as _debug
from generator.options import library as _library
from generator.options import records as _records
from generator.options import specs as _specs
from generator.options import workspace as _workspace
from generator.printer import paper
from generator.progress import Progress
from generator.writer import editor, language, new, preview, reach

if TYPE_CHECKING:
    from generator.model.manual import Manual
    from generator.pipeline import Judged, Published, Reviewed

DONE, FAULTS, WRONG_COMMAND, BUG, INTERRUPTED = 0, 1, 2, 70, 130
_EXTRAS = {"dd": "prove", "pysat": "prove"}  # libraries that are not in every installation, and the extra they are in

Command = Callable[..., None]


def main() -> None:
    """Run the command line of this process."""
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Run one command and return its exit code.

    Args:
        arguments: The words after the program's name.
    """
    shared: dict[str, bool] = {"debug": False}
    try:
        with cli.make_context("lockerleaf", list(arguments), obj=shared) as context:
            cli.invoke(context)
        sys.stdout.flush()
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.ClickException as wrong:
        wrong.show()
        return WRONG_COMMAND
    except ManualError as error:
        _tell(error.faults)
        return FAULTS
    except (KeyboardInterrupt, click.Abort):
        click.echo("Stopped. Nothing is half-written.", err=True)
        return INTERRUPTED
    except BrokenPipeError:
        return _pipe_closed()
    except Exception as error:
        extra = _EXTRAS.get(error.name or "") if isinstance(error, ModuleNotFoundError) else None
        if extra is None:
            return _bug(error, shared["debug"])
        hint = f'install the extra: python -m pip install -e ".[{extra}]"'
        _tell([Fault("this command needs a library that is not installed", hint=hint)])
        return FAULTS
    return DONE


def _tell(faults: Iterable[Fault]) -> None:
    """Print faults to stderr as an editor can follow them."""
    for fault in faults:
        click.echo(str(fault), err=True)


def _pipe_closed() -> int:
    """End quietly when the reader of a pipe has seen enough, as ``show van.yaml | head`` does.

    Python flushes stdout once more on its way out, so that goes nowhere from here on.
    """
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return DONE


def _bug(error: Exception, debug: bool) -> int:
    """Say that the fault is ours."""
    if debug:
        traceback.print_exception(error)
    what = f"{type(error).__name__}: {error}".splitlines()[0]
    more = "" if debug else " Run it again with --debug for the rest."
    click.echo(
        f"lockerleaf: this is a bug of ours ({what}). Please report it with the command you ran.{more}", err=True
    )
    return BUG


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="lockerleaf")
@_debug
def cli() -> None:
    """From the build sheet of one touring caravan to that van's own owner manual.

    Faults go to stderr as file:line:column with a hint. Exit code: 0 done, 1 faults in what you wrote,
    2 wrong command line, 70 a bug of ours.
    """


for _command in (language, new, editor, preview):
    cli.add_command(_command)


# --- commands ---------------------------------------------------------------------------------------


@cli.command(epilog="Example: lockerleaf publish van_specs/vans/marram-0417.yaml --library /srv/www/vans")
@_specs
@_library
@_records
@_workspace
@_day
@_debug
def publish(specs: tuple[Path, ...], library: Path, records: Path, workspace: Path, day: date) -> None:
    """Make editions of vans and put them online.

    Judges everything you wrote for these vans, and writes nothing while there is a fault in any of
    them. A manual that has not changed keeps its edition. Without SPEC: every van in van_specs/vans.
    """
    from generator import pipeline
    from generator.model.release import Shelf

    shelf = Shelf(library=library.resolve(), records=records.resolve())
    published: list[Published] = []
    try:
        with Progress(sys.stderr) as progress:
            for each in pipeline.publish_vans(
                workspace.resolve(), specs, shelf, day, secrets.token_bytes(32), progress.tick
            ):
                if isinstance(each, pipeline.Published):
                    published.append(each)
                else:
                    progress.hide()
                    _tell(each.warnings)
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


@cli.command(epilog="Example: lockerleaf check van_specs/vans/marram-0417.yaml")
@_specs
@_records
@_workspace
@_day
@_debug
def check(specs: tuple[Path, ...], records: Path, workspace: Path, day: date) -> None:
    """Judge what you wrote, and write nothing.

    Judges build sheets, catalogue and content for these vans by making their manuals whole: every
    stage but publishing. Without SPEC: every van in van_specs/vans.
    """
    from generator import pipeline

    with Progress(sys.stderr) as progress:
        judged = pipeline.check_vans(workspace.resolve(), specs, records.resolve(), day, progress.tick)
    _tell(judged.warnings)
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
    warnings = sum(fault.level is Level.WARNING for fault in judged.warnings)
    counted = "1 van" if len(judged.vans) == 1 else f"{len(judged.vans)} vans"
    if judged.words.ease:
        lines.append(f"{judged.words.summary} (lockerleaf language lists all)")
    lines.append(f"{counted} without faults" + (f", {warnings} to look at above" if warnings else ""))
    return "\n".join(lines)


@cli.command(epilog='Example: lockerleaf review van_specs/vans/marram-0417.yaml --by "Robin Vale"')
@_specs
@click.option("--by", metavar="NAME", help="Record that this person has checked all that is listed.")
@_records
@_workspace
@_day
@_debug
def review(specs: tuple[Path, ...], by: str | None, records: Path, workspace: Path, day: date) -> None:
    """List the safety-critical blocks nobody has checked, or record that somebody has.

    Judges these vans up to their manuals. A manual with an unchecked block says on every page that it is
    a draft. With --by, all blocks listed are recorded as checked in the words they have now: list first,
    read the files, then record. Editing one of them voids its review. Without --by and SPEC: every van.
    """
    from generator import pipeline

    if by is not None and not specs:
        raise click.UsageError("--by needs the build sheets of the vans that were checked")
    with Progress(sys.stderr) as progress:
        done = pipeline.review_vans(workspace.resolve(), specs, records.resolve(), by, day, progress.tick)
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


@cli.command(epilog="Example: lockerleaf show van_specs/vans/marram-0417.yaml")
@click.argument("spec", type=click.Path(path_type=Path))
@_workspace
@_debug
def show(spec: Path, workspace: Path) -> None:
    """Say what is in a van's manual and why.

    Judges one build sheet up to its manual as a tree and prints its traits, its topics in and out, its
    chassis number and every fact the numbers are made from, each with where it comes from.
    """
    from generator import pipeline
    from generator.show import description

    examined = pipeline.examine_van(workspace.resolve(), spec)
    click.echo(description(examined))
    _tell(fault for fault in examined.faults if fault.level is Level.WARNING)
    errors = [fault for fault in examined.faults if fault.level is Level.ERROR]
    if errors:
        raise ManualError(*errors)


@cli.command(epilog="Example: lockerleaf prove")
@_workspace
@_debug
def prove(workspace: Path) -> None:
    """Judge every van that could be ordered.

    Judges catalogue and content over all vans the rules allow: everything written appears in some van,
    everything a page pulls in is there, every topic is answered once, every hazard is printed, every point
    has a page, every number has its inputs, and marked actions keep their order. What does not hold is
    told with the smallest van that shows it, printed as a build sheet.
    """
    from generator import pipeline

    proved = pipeline.prove_workspace(workspace.resolve())
    _tell(broken.fault for broken in proved.broken)
    shown: dict[str, list[str]] = {}
    for broken in proved.broken:
        if broken.spec:
            shown.setdefault(broken.spec, []).append(f"# shows {broken.fault.source}")
    for spec, what in shown.items():
        click.echo("\n".join([*what, spec]))
    if proved.broken:
        raise ManualError()
    click.echo(f"every statement holds in all {proved.vans:,} vans that can be ordered")


for _command in (reach, paper):
    cli.add_command(_command)
