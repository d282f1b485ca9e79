"""The house: who imports whom, who touches the disk, who knows which library. Read from the source itself."""

import ast
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

import generator

HOUSE = Path(generator.__file__).parent
STAGES = ("load", "resolve", "compute", "assemble", "render", "fill", "paper", "publish", "verify", "prove", "language")
PURE = ("resolve", "compute", "assemble", "fill", "verify", "prove", "language")  # of their arguments alone
BELOW = ("errors", "units", "model")  # what every stage may import

MODULES = sorted(HOUSE.rglob("*.py"))


def part(path: Path) -> str:
    """Return the subpackage or module of the house that a file belongs to: ``load``, ``errors``, ``cli``."""
    return path.relative_to(HOUSE).parts[0].removesuffix(".py")


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"), str(path))


def imported(path: Path) -> Iterator[tuple[int, str]]:
    """Yield line and full name of everything a module imports, wherever in it that stands."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} imports by dots; the house writes names in full"
            yield from ((node.lineno, f"{node.module}.{alias.name}") for alias in node.names)


def of_the_house(path: Path) -> Iterator[tuple[int, str]]:
    """Yield line and part of the house for each import of our own code."""
    for line, name in imported(path):
        if name.split(".")[0] == "generator" and name != "generator.__all__":
            yield line, name.split(".")[1]


def called(path: Path) -> Iterator[tuple[int, str]]:
    """Yield line and last name of every call: ``open``, ``read_text``, ``now``."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call):
            name = node.func
            yield node.lineno, name.attr if isinstance(name, ast.Attribute) else getattr(name, "id", "")


def files_of(*parts: str) -> list[Path]:
    found = [path for path in MODULES if part(path) in parts]
    assert {part(path) for path in found} == set(parts)
    return found


def ids(path: Path) -> str:
    return path.relative_to(HOUSE).as_posix()


# --- imports ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", files_of(*STAGES), ids=ids)
def test_a_stage_imports_what_lies_below_and_itself_only(path: Path) -> None:
    wrong = [(line, name) for line, name in of_the_house(path) if name not in (*BELOW, part(path))]
    assert not wrong


@pytest.mark.parametrize("path", files_of("model"), ids=ids)
def test_the_model_stands_on_errors_and_units(path: Path) -> None:
    assert not [(line, name) for line, name in of_the_house(path) if name not in BELOW]


def test_errors_and_units_stand_on_nothing_of_ours() -> None:
    for path in files_of("errors", "units"):
        assert not list(of_the_house(path))


def test_only_the_command_line_is_above_the_pipeline() -> None:
    above = {
        part(path) for path in MODULES for _, name in of_the_house(path) if name in ("pipeline", "cli", "commands")
    }
    assert above - {"pipeline"} == {"cli", "commands", "reach", "__main__"}


def test_the_pipeline_uses_every_stage() -> None:
    assert set(STAGES) <= {name for path in files_of("pipeline") for _, name in of_the_house(path)}


@pytest.mark.parametrize("path", files_of("pipeline"), ids=ids)
def test_the_pipeline_imports_stages_and_what_lies_below(path: Path) -> None:
    assert not [(line, name) for line, name in of_the_house(path) if name not in (*STAGES, *BELOW, "pipeline")]


@pytest.mark.parametrize("stage", STAGES)
def test_a_stage_has_a_public_function_of_its_own_name(stage: str) -> None:
    function = getattr(import_module(f"generator.{stage}"), stage)
    assert callable(function) and function.__doc__


def test_nothing_is_public_but_what_all_names() -> None:
    assert isinstance(generator.__all__, list)
    assigned = [node for node in tree(HOUSE / "__init__.py").body if not isinstance(node, ast.Expr)]
    assert [ast.unparse(node).split(":")[0].split(" =")[0] for node in assigned] == ["__all__"]


# --- the disk ---------------------------------------------------------------------------------------

READS = {"open", "read_text", "read_bytes", "iterdir", "glob", "rglob", "scandir", "listdir", "walk", "is_file", "stat"}
WRITES = {
    "write_text", "write_bytes", "mkdir", "makedirs", "touch", "unlink", "rmdir", "rmtree", "symlink_to", "hardlink_to",
    "rename", "copy", "copyfile", "copytree", "move", "remove", "truncate", "chmod", "mkdtemp", "fsync",
}  # fmt: skip
NOT_OF_FILES = {"copy", "remove", "replace", "open"}  # also names of methods of lists, mappings, archives and pictures


@pytest.mark.parametrize("path", files_of(*PURE, "model", "errors", "units"), ids=ids)
def test_stages_between_touch_no_file(path: Path) -> None:
    touched = [(line, name) for line, name in called(path) if name in (READS | WRITES) - NOT_OF_FILES]
    assert not touched
    assert not [
        (line, name) for line, name in called(path) if name == "open" and "zipfile" not in path.read_text("utf-8")
    ]


@pytest.mark.parametrize("path", files_of("load", "paper"), ids=ids)
def test_load_and_paper_write_nothing(path: Path) -> None:
    assert not [(line, name) for line, name in called(path) if name in WRITES - NOT_OF_FILES]


def test_one_module_changes_library_and_records() -> None:
    """What an interruption can hit is in one place, where the tests of interruptions stop it."""
    writers = {
        ids(path)
        for path in files_of("publish")
        for _, name in called(path)
        if name in WRITES - NOT_OF_FILES - {"rename", "mkdir"}
    }
    assert writers == {"publish/disk.py"}
    folders = {ids(path) for path in files_of("publish") for _, name in called(path) if name == "mkdir"}
    assert folders == {"publish/disk.py", "publish/__init__.py"}


# --- the world --------------------------------------------------------------------------------------

WORLD = {
    "random",
    "secrets",
    "socket",
    "subprocess",
    "time",
    "requests",
    "http",
    "asyncio",
    "getpass",
    "locale",
    "uuid",
}
CLOCK = {"now", "today", "utcnow", "getenv", "time", "monotonic", "getcwd", "chdir", "cwd", "gethostname"}


@pytest.mark.parametrize("path", files_of(*STAGES, "model", "errors", "units", "pipeline"), ids=ids)
def test_no_stage_asks_clock_chance_or_network(path: Path) -> None:
    """Day and secret are arguments: the same inputs give the same bytes."""
    assert not [(line, name) for line, name in imported(path) if name.split(".")[0] in WORLD]
    assert not [(line, name) for line, name in imported(path) if name.startswith(("urllib.request", "os.environ"))]
    assert not [(line, name) for line, name in called(path) if name in CLOCK]
    assert "environ" not in {node.attr for node in ast.walk(tree(path)) if isinstance(node, ast.Attribute)}


KNOWN_BY = {
    "mkdocs": {"render/site.py", "preview/server.py"},
    "material": {"render/site.py"},
    "typst": {"paper/typeset.py"},
    "segno": {"paper/symbol.py"},
    "zxingcpp": {"paper/readback.py"},
    "pypdfium2": {"paper/readback.py"},
    "pint": {"units.py", "load/catalogue.py"},  # there for the errors it raises on a bad default
    "PIL": {"load/shrink.py"},
    "click": {
        "cli.py",
        *(f"commands/{name}.py" for name in ("office", "options", "printer", "progress", "telling", "writer")),
    },
}


@pytest.mark.parametrize("library", KNOWN_BY)
def test_a_library_is_known_in_one_place(library: str) -> None:
    known = {ids(path) for path in MODULES for _, name in imported(path) if name.split(".")[0] == library}
    assert known <= KNOWN_BY[library]


def test_yaml_is_read_by_load_only() -> None:
    assert {part(path) for path in MODULES for _, name in imported(path) if name.split(".")[0] == "yaml"} <= {"load"}
