"""The commands of the technical writer: parse, call what does the work, print what came of it.

The command line itself is in ``cli``. What does the work is imported by each command, so that help is quick.
"""

import sys
from pathlib import Path

import click

from generator import options
from generator.progress import Progress

_AS = click.Choice(["text", "json", "csv"])


@click.command(epilog="Example: lockerleaf reach gas/change-bottle-two   Example: lockerleaf reach --changed --as csv")
@click.argument("names", metavar="[NAME]...", nargs=-1)
@click.option("--changed", is_flag=True, help="Ask for everything that differs from the last commit.")
@click.option("--since", metavar="COMMIT", help="Ask for everything that differs from this commit, branch or tag.")
@click.option("--as", "form", type=_AS, default="text", show_default=True, help="How it is written.")
@options.workspace
@options.debug
def reach(names: tuple[str, ...], changed: bool, since: str | None, form: str, workspace: Path) -> None:
    """Say where something is used, before you change it.

    Judges nothing: makes the manual of every van in van_specs/vans as a tree and says in which vans, pages,
    checklists, labels, walk-rounds and booklets NAME shows, and which sources name it. NAME is a block, topic,
    message, number, table, kind (slot/kind), slot, trait, term, market, van, model or dealer, or the file it stands
    in. Where one id names several, all are told; write "trait:gas" for one of them.
    """
    from generator.reach import as_csv, as_json, as_text, ask

    if not (names or changed or since):
        raise click.UsageError("name something, or ask for --changed")
    with Progress(sys.stderr) as progress:
        asked = ask(workspace.resolve(), names, since or ("HEAD" if changed else None), progress.tick)
    write = {"text": as_text, "json": as_json, "csv": as_csv}[form]
    click.echo(write(asked.answers), nl=form != "csv")
    for fault in asked.faults:
        click.echo(str(fault), err=True)
