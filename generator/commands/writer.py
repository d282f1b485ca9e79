"""The commands of the technical writer: parse, call what does the work, print what came of it.

The command line itself is in ``cli``. What does the work is imported by each command, so that help is quick.
"""

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands import options
from generator.commands.progress import Progress
from generator.commands.telling import tell
from generator.errors import Fault, ManualError, Source

if TYPE_CHECKING:
    from generator.editor import Insert

_AS = click.Choice(["text", "json", "csv"])


@click.command(epilog=options.examples("reach gas/change-bottle-two", "reach --changed --as csv"))
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
    message, number, table, kind (slot/kind), slot, trait, term, fragment, picture, market, van, model or dealer, or
    the file it stands in. Where one id names several, all are told; write "trait:gas" for one of them.
    """
    from generator.reach import as_csv, as_json, as_text, ask

    if not (names or changed or since):
        raise click.UsageError("name something, or ask for --changed")
    with Progress(sys.stderr) as progress:
        asked = ask(workspace.resolve(), names, since or ("HEAD" if changed else None), progress.tick)
    write = {"text": as_text, "json": as_json, "csv": as_csv}[form]
    click.echo(write(asked.answers), nl=form != "csv")
    tell(asked.faults)


@click.command(epilog=options.examples("language gas/change-bottle-two"))
@click.argument("names", metavar="[NAME]...", nargs=-1)
@click.option(
    "--scores",
    is_flag=True,
    help="List the reading ease (Flesch) of each page with steps, hardest first; content/language.yaml has the target.",
)
@options.workspace
@options.debug
def language(names: tuple[str, ...], scores: bool, workspace: Path) -> None:
    """Judge the words: rules of safety and style, and how easily they are read.

    Judges every sentence of blocks, kinds and safety messages by content/language.yaml and lists each place that
    breaks a rule. Without NAME: all of them; NAME is a rule, a block, topic, kind (slot/kind), safety message or
    fragment, or a file. Errors stop publication, warnings may be as many as their rule's budget.
    """
    from generator.pipeline.reading import judge_words

    judged = judge_words(workspace.resolve(), names)
    tell([hit.fault for hit in judged.hits])
    for block, score in sorted(judged.ease.items(), key=lambda one: one[1]) if scores else ():
        click.echo(f"{score:4.0f}  {block}")
    if judged.faults:
        raise ManualError(*judged.over.values())
    click.echo(judged.summary)


_WHAT = click.Choice(["block", "kind", "van", "fragment", "message"])


_NEW = """Start a file: a block, kind, van, fragment or safety message.

\b
new block FORM TOPIC         FORM: description, procedure, fault,
                             emergency, reference
new kind SLOT/KIND [AFTER]   a copy of another kind of the slot
new van MODEL CHASSIS        a chassis of a model
new fragment NAME            steps that blocks share
new message NAME             a safety message

Judges the words only, and writes over no file. What is left to write says TODO, which the language rules refuse to
publish. A new topic gets a page of its own in content/outline.yaml.
"""


@click.command(
    help=_NEW, epilog=options.examples("new block procedure fridge/run-on-gas", "new kind oven/electric gas")
)
@click.argument("what", type=_WHAT)
@click.argument("words", metavar="WORD...", nargs=-1, required=True)
@options.workspace
@options.debug
def new(what: str, words: tuple[str, ...], workspace: Path) -> None:
    """Start a file and say what is left to do."""
    from generator.editor import starter
    from generator.pipeline.reading import read_workspace

    root = workspace.resolve()
    there = read_workspace(root, names_known=False)  # a kind may name a topic before its page is there
    made = starter(what, words, there, lambda file: (root / file).read_text(encoding="utf-8"))
    _write_new(root / made.file, made.text, made.file)
    page = _put_in(root, made.insert) if made.insert else ""
    click.echo("\n".join([made.file, *filter(None, [page]), *(f"  then: {line}" for line in made.then)]))


def _write_new(path: Path, text: str, name: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise ManualError(Fault("this file is there already", Source(name), "choose another name")) from None


def _put_in(root: Path, insert: "Insert") -> str:
    """Put a line into a file below another, indented alike where that is an entry of a list; say what was done."""
    path = root / insert.file
    lines = path.read_text(encoding="utf-8").split("\n")
    above = lines[insert.below - 1]
    if not above.lstrip().startswith("- {"):
        return f"  then: put a page into {insert.file}: {insert.text}"
    lines.insert(insert.below, above[: len(above) - len(above.lstrip())] + insert.text)
    path.write_text("\n".join(lines), encoding="utf-8", newline="\n")
    return f"{insert.file}:{insert.below + 1}: {insert.text}"


@click.command(epilog=options.examples("editor"))
@click.option("--into", type=click.Path(file_okay=False), default="editor", show_default=True, help="Folder to write.")
@options.workspace
@options.debug
def editor(into: str, workspace: Path) -> None:
    """Write what helps an editor: JSON Schemas, a problem matcher, tasks.

    Judges nothing: the schemas are made from the program's own types and from the names this workspace knows, so
    write them anew when kinds, topics or messages have come. settings.json maps files to schemas, tasks.json runs
    check, prove and language and shows their faults at the line.
    """
    from generator.compute import ASSUMPTIONS
    from generator.editor import editor_files
    from generator.pipeline.reading import read_workspace

    root = workspace.resolve()
    files = editor_files(read_workspace(root), tuple(ASSUMPTIONS), into)
    for name, text in files.items():
        path = root / into / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    click.echo(
        f"{len(files)} files in {root / into}\n"
        "  Visual Studio Code: copy settings.json and tasks.json into .vscode/; its YAML support reads the schemas\n"
        "  another editor: give its YAML language server the schemas/ as settings.json says, and problem-matcher.json"
    )


@click.command(epilog=options.examples("preview van_specs/vans/marram-0417.yaml --open"))
@click.argument("spec", type=click.Path(path_type=Path), required=False)
@click.option("--fit", "kinds", metavar="SLOT/KIND", multiple=True, help="Improvise a van with this kind; repeatable.")
@click.option("--market", default="", metavar="MARKET", help="Show it in this market.")
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="Port on this machine.  [default: any free one]")
@click.option(
    "--idle",
    type=click.IntRange(1, 480),
    default=30,
    show_default=True,
    help="Minutes without a look or a save, after which it stops by itself.",
)
@click.option("--open", "opens", is_flag=True, help="Open it in your browser.")
@options.workspace
@options.day
@options.debug
def preview(
    spec: Path | None,
    kinds: tuple[str, ...],
    market: str,
    port: int,
    idle: int,
    opens: bool,
    workspace: Path,
    day: date,
) -> None:
    """Show a van's manual in the browser and make it anew at each save.

    Judges as you write: faults stand in the page with file and line, the page you changed is opened, and switches
    on the page lead to other vans, markets and colours. Without SPEC, a van is improvised: the smallest that can be
    ordered with the kinds of --fit. Only this machine can see it. Ctrl-C stops it.
    """
    import logging
    import webbrowser

    from generator.pipeline.making import TEMPLATE
    from generator.preview import Bench, View, serve

    logging.getLogger("mkdocs").addHandler(logging.NullHandler())  # it would tell of each request
    root = workspace.resolve()
    if spec is None and not kinds:
        raise click.UsageError("name a build sheet, or kinds with --fit")
    pairs = [kind.partition("/") for kind in kinds]
    improvised = View(market=market or "uk", kinds=tuple((slot, kind) for slot, _, kind in pairs))
    view = View(van=spec.stem, market=market) if spec else improvised
    path = spec.resolve() if spec and spec.exists() else root / spec if spec else None
    if path and not path.is_file():
        raise ManualError(Fault("this build sheet is missing", Source(str(spec)), "lockerleaf new van starts one"))

    def told(address: str) -> None:
        click.echo(f"{address}\nStops after {idle} minutes without a look, or with Ctrl-C.")
        if opens:
            webbrowser.open(address)

    serve(Bench(root, root / TEMPLATE, [path] if path else [], day), view, port, idle * 60, told)
    click.echo("Preview stopped.")


@click.command(epilog=options.examples("prove"))
@options.workspace
@options.debug
def prove(workspace: Path) -> None:
    """Judge every van that could be ordered.

    Judges catalogue and content over all vans the rules allow: everything written appears in some van,
    everything a page pulls in is there, every topic is answered once, every hazard is printed, every point
    has a page, every number has its inputs, and marked actions keep their order. What does not hold is
    told with the smallest van that shows it, printed as a build sheet.
    """
    from generator.pipeline.proving import prove_workspace

    proved = prove_workspace(workspace.resolve())
    tell(broken.fault for broken in proved.broken)
    shown: dict[str, list[str]] = {}
    for broken in proved.broken:
        if broken.spec:
            shown.setdefault(broken.spec, []).append(f"# shows {broken.fault.source}")
    for spec, what in shown.items():
        click.echo("\n".join([*what, spec]))
    if proved.broken:
        raise ManualError()
    click.echo(f"every statement holds in all {proved.vans:,} vans that can be ordered")
