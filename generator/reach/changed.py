"""Which files a writer has changed, as git knows it.

What they hold is left to ``subjects``.
"""

import subprocess
from pathlib import Path

from generator.errors import Fault, ManualError


def changed_files(root: Path, since: str = "HEAD") -> tuple[str, ...]:
    """Return what differs from a commit, new files included, relative to ``root``.

    Args:
        root: The workspace.
        since: A commit, branch or tag.

    Raises:
        ManualError: the workspace is not under git, or it knows no such commit.
    """
    if since.startswith("-"):  # git would take it for an option
        raise ManualError(Fault(f'"{since}" is no commit'))
    diff = _git(root, "diff", "--name-only", "--relative", "-z", since, "--")
    new = _git(root, "ls-files", "--others", "--exclude-standard", "-z")
    return tuple(sorted({*diff.split("\0"), *new.split("\0")} - {""}))


def _git(root: Path, *words: str) -> str:
    try:
        done = subprocess.run(["git", "-C", str(root), *words], capture_output=True, check=False)
    except OSError as error:
        raise ManualError(
            Fault(f"git cannot be run: {error.strerror}", hint="name what you changed instead")
        ) from error
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()
        raise ManualError(Fault(f"git says: {said[0] if said else 'nothing'}", hint="name what you changed instead"))
    return done.stdout.decode("utf-8", "replace")
