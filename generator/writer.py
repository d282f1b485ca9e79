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
    message, number, table, kind (slot/kind), slot, trait, term, fragment, market, van, model or dealer, or the
    file it stands in. Where one id names several, all are told; write "trait:gas" for one of them.
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


@click.command(epilog="Example: lockerleaf language gas/change-bottle-two")
@click.argument("names", metavar="[NAME]...", nargs=-1)
@click.option("--scores", is_flag=True, help="List the reading ease of each page with steps, hardest first.")
@options.workspace
@options.debug
def language(names: tuple[str, ...], scores: bool, workspace: Path) -> None:
    """Judge the words: rules of safety and style, and how easily they are read.

    Judges every sentence of blocks, kinds and safety messages by content/language.yaml and lists each place that
    breaks a rule. Without NAME: all of them; NAME is a rule, a block or a file. Errors stop publication, warnings
    may be as many as their rule's budget.
    """
    from generator import pipeline
    from generator.errors import ManualError

    judged = pipeline.judge_words(workspace.resolve())
    for hit in judged.hits:
        if not names or _asked(names, hit.rule, hit.fault.source.file if hit.fault.source else ""):
            click.echo(str(hit.fault), err=True)
    for block, score in sorted(judged.ease.items(), key=lambda one: one[1]) if scores else ():
        if not names or _asked(names, "", f"content/blocks/{block}.md"):
            click.echo(f"{score:4.0f}  {block}")
    over = [fault for fault in judged.faults if fault not in judged.errors]
    if judged.faults:
        raise ManualError(*over)
    click.echo(judged.summary)


def _asked(names: tuple[str, ...], rule: str, file: str) -> bool:
    """Return whether a hit is of a rule, block or file that was named."""
    return any(name in (rule, file) or file == f"content/blocks/{name}.md" for name in names)
