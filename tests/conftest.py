"""What tests of several stages share: a builder of small workspaces, and expected texts kept in files."""

import shutil
import signal
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

SMALL = Path(__file__).parent / "small"

Files = Mapping[str, str | bytes | None]
BuildWorkspace = Callable[..., Path]
CheckGolden = Callable[[Path, str], None]


# A shell starts what runs in its background with Ctrl-C ignored, and what is started from there ignores it too.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update-golden", action="store_true", help="rewrite expected texts; review the diff like code")
    parser.addoption("--mutations", type=int, default=60, help="how many slips of a writer are tried (tests/fuzz)")


@pytest.fixture
def build_workspace(tmp_path: Path) -> BuildWorkspace:
    """Return a function that builds the small workspace of ``tests/small`` with some files replaced.

    Its argument maps paths to new text or bytes; None takes a file away. A second argument is a folder that is
    copied over the workspace first.
    """

    def build(files: Files | None = None, over: Path | None = None) -> Path:
        root = tmp_path / "workspace"
        shutil.copytree(SMALL, root, dirs_exist_ok=True)
        if over is not None:
            shutil.copytree(over, root, dirs_exist_ok=True)
        for name, content in (files or {}).items():
            write(root / name, content)
        return root

    return build


def write(path: Path, content: str | bytes | None) -> None:
    """Write one file, or take it away where there is no content."""
    if content is None:
        path.unlink()
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())


@pytest.fixture
def check_golden(request: pytest.FixtureRequest) -> CheckGolden:
    """Return a function that compares a text with a file, or rewrites the file with ``--update-golden``."""

    def check(path: Path, text: str) -> None:
        if request.config.getoption("--update-golden"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert path.exists(), f"{path} is missing; write it with --update-golden and review it"
        assert text == path.read_text(encoding="utf-8")

    return check
