"""The schemas and the reader accept the same files: both are asked about every shipped file, whole and damaged."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from generator.compute import ASSUMPTIONS
from generator.editor.files import SORTS, schema
from generator.load import load
from generator.load.faults import Faults
from generator.load.nodes import read_nodes
from generator.load.reader import Reader
from generator.load.reviews import _digest
from generator.load.specs import _fitted
from generator.model.reviews import Review
from generator.model.specs import Spec

ROOT = Path(__file__).parents[2]
OWN = {(Spec, "fitted"): _fitted, (Review, "digest"): _digest}


@dataclass(frozen=True)
class Shipped:
    """A file of the repo: its sort, and its YAML."""

    sort: str
    name: str
    text: str


def _shipped() -> Iterator[Shipped]:
    for name, sort in SORTS.items():
        for path in sorted(path for pattern in sort.files for path in ROOT.glob(pattern)):
            text = path.read_text("utf-8")
            yield Shipped(
                name, path.relative_to(ROOT).as_posix(), text.split("---\n")[1] if path.suffix == ".md" else text
            )


SHIPPED = list(_shipped())
NAMES = ("marram-480.yaml", "gas-mains-storage.yaml", "run-on-gas-tank.md")
ONE_OF_EACH = [
    *{one.sort: one for one in SHIPPED}.values(),
    *(next(one for one in SHIPPED if one.name.endswith(name)) for name in NAMES),
]


def as_editor(text: str) -> Any:
    """Return YAML as an editor reads it: YAML 1.2, where "no" and days are words."""

    class Loader(yaml.SafeLoader):
        pass

    Loader.yaml_implicit_resolvers = {
        sign: [(tag, pattern) for tag, pattern in found if tag.endswith((":int", ":float", ":bool", ":null"))]
        for sign, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
    }
    Loader.add_constructor("tag:yaml.org,2002:bool", _yes)
    return yaml.load(text, Loader)


def _yes(loader: yaml.SafeLoader, node: yaml.ScalarNode) -> Any:
    return {"true": True, "false": False}.get(node.value, node.value)


def refuses(name: str, value: Any) -> bool:
    return not jsonschema.Draft202012Validator(schema(name)).is_valid(value)


def reader_refuses(name: str, text: str) -> bool:
    faults = Faults()
    node = read_nodes("x.yaml", text, faults)
    if node is not None:
        given = dict.fromkeys(SORTS[name].given, "x")
        reader = Reader(faults, OWN)
        wanted = SORTS[name].wanted
        reader.record(node, wanted, **given) if given else reader.read(node, wanted)
    return bool(faults)


@pytest.mark.parametrize("one", SHIPPED, ids=lambda one: one.name)
def test_a_shipped_file_keeps_its_schema(one: Shipped) -> None:
    for value in (as_editor(one.text), yaml.load(one.text, yaml.BaseLoader)):
        errors = list(jsonschema.Draft202012Validator(schema(one.sort)).iter_errors(value))
        assert errors == []


def test_a_shipped_file_keeps_the_schema_that_knows_the_names() -> None:
    workspace = load(ROOT, None)
    for name in SORTS:
        validator = jsonschema.Draft202012Validator(schema(name, workspace, tuple(ASSUMPTIONS)))
        for one in SHIPPED:
            if one.sort == name:
                assert [error.message for error in validator.iter_errors(as_editor(one.text))] == [], one.name


def test_the_names_are_offered() -> None:
    workspace = load(ROOT, None)
    made = schema("front-matter", workspace, ())
    assert "gas/open" in made["properties"]["topic"]["enum"]
    assert "scald" in made["properties"]["hazards"]["items"]["enum"]
    fitted = schema("spec", workspace, tuple(ASSUMPTIONS))["properties"]["fitted"]["properties"]
    assert "absorption-three-way" in fitted["fridge"]["anyOf"][1]["properties"]["kind"]["enum"]


# --- damaged files: a key too many, a key less, a value of another sort ------------------------------


def damaged(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], Any]]:
    """Yield copies of a document, each with one thing wrong, or at least changed."""
    if isinstance(value, dict):
        yield path, {**value, "zzz": "x"}
        yield path, ["x"]
        for key, inner in value.items():
            yield (*path, key), {other: kept for other, kept in value.items() if other != key}
            yield from ((where, {**value, key: new}) for where, new in damaged(inner, (*path, key)))
    elif isinstance(value, list):
        yield path, {"zzz": "x"}
        for index, inner in enumerate(value[:2]):
            rest = list(damaged(inner, (*path, index)))
            yield from ((where, [*value[:index], new, *value[index + 1 :]]) for where, new in rest)
    else:
        yield path, ["x", "y", "z"]
        yield path, {"zzz": "x"}
        yield path, ""
        yield path, "zzz"
        yield path, "7 kg"


@pytest.mark.parametrize("one", ONE_OF_EACH, ids=lambda one: one.name)
def test_schema_and_reader_agree_about_damaged_files(one: Shipped) -> None:
    document = yaml.load(one.text, yaml.BaseLoader)
    cases = list(damaged(document))
    if len(cases) > 240:
        cases = cases[:: len(cases) // 240 + 1]
    validator = jsonschema.Draft202012Validator(schema(one.sort))
    disagreed = []
    for path, value in cases:
        text = yaml.safe_dump(value, allow_unicode=True, default_style='"')
        told, read = not validator.is_valid(value), reader_refuses(one.sort, text)
        if told != read and not _known_to_differ(value, told, read):
            disagreed.append((path, "schema refuses" if told else "reader refuses", value))
    assert [(path, who) for path, who, _ in disagreed] == []
    assert len(cases) > 3


def _known_to_differ(value: Any, told: bool, read: bool) -> bool:
    """Say whether the reader alone refuses, for a quantity of the wrong dimension: a schema knows no units."""
    return read and not told and re.search(r"'7 kg'", repr(value)) is not None
