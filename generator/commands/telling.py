"""How faults are printed: to stderr, as an editor can follow them."""

from collections.abc import Iterable

import click

from generator.errors import Fault


def tell(faults: Iterable[Fault]) -> None:
    """Print faults."""
    for fault in faults:
        click.echo(str(fault), err=True)
