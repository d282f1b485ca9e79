"""Arguments and options that several commands share."""

from datetime import date, datetime
from pathlib import Path

import click


def _note_debug(context: click.Context, parameter: click.Parameter, value: bool) -> None:
    if value:
        context.find_root().obj["debug"] = True


def _as_day(context: click.Context, parameter: click.Parameter, value: datetime | None) -> date:
    return value.date() if value else date.today()


def examples(*commands: str) -> str:
    """Return the end of a command's help: each example on a line of its own, not wrapped."""
    return "\b\n" + "\n".join(f"Example: lockerleaf {command}" for command in commands)


FOLDER = click.Path(file_okay=False, path_type=Path)
debug = click.option(
    "--debug", is_flag=True, expose_value=False, callback=_note_debug, help="Show where a bug of ours happened."
)
workspace = click.option(
    "--workspace",
    type=FOLDER,
    default=Path(),
    help="Folder with content/, van_specs/ and site_template/.  [default: the current folder]",
)
records = click.option(
    "--records", type=FOLDER, default=Path("records"), show_default=True, help="The dealer's own records."
)
library = click.option(
    "--library", type=FOLDER, default=Path("library"), show_default=True, help="The public folder, the web root."
)
day = click.option(
    "--day",
    type=click.DateTime(["%Y-%m-%d"]),
    callback=_as_day,
    metavar="YYYY-MM-DD",
    help="Day of publication.  [default: today]",
)
specs = click.argument("specs", metavar="[SPEC]...", nargs=-1, type=click.Path(path_type=Path))
