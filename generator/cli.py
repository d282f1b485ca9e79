"""The command line: parses, calls the pipeline, prints what came of it, sets the exit code.

Nothing is decided here. The stages are imported by the commands that need them, so that help is quick.
"""

import gc
import os
import sys
import traceback
from collections.abc import Sequence

import click

from generator.commands import office, options, printer, writer
from generator.commands.telling import tell
from generator.errors import Fault, ManualError

DONE, FAULTS, WRONG_COMMAND, BUG, INTERRUPTED = 0, 1, 2, 70, 130
_EXTRAS = {"dd": "prove", "pysat": "prove"}  # libraries that are not in every installation, and the extra they are in


def main() -> None:
    """Run the command line of this process."""
    collect_rarely()
    sys.exit(run(sys.argv[1:]))


def collect_rarely() -> None:
    """Let Python look for garbage less often: documents and pages are trees that live to the end of the command."""
    gc.set_threshold(1_000_000, 20, 20)


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
        tell(error.faults)
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
        tell([Fault("this command needs a library that is not installed", hint=hint)])
        return FAULTS
    return DONE


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
@options.debug
def cli() -> None:
    """From the build sheet of one touring caravan to that van's own owner manual.

    Faults go to stderr as file:line:column with a hint. Exit code: 0 done, 1 faults in what you wrote,
    2 wrong command line, 70 a bug of ours.
    """


_IN_ORDER = (
    *(office.publish, office.check, office.verify, office.review, office.show),
    *(writer.language, writer.new, writer.editor, writer.preview, writer.prove, writer.reach),
    printer.paper,
)
for _command in _IN_ORDER:
    cli.add_command(_command)
