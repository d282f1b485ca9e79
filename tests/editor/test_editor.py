"""What ``editor`` writes: schemas that are schemas, and a matcher that finds our faults."""

import json
import re
from pathlib import Path

import jsonschema
import pytest

from generator.editor.files import MATCHER, SORTS

from ..test_cli import SORREL, change, command, copied


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    return copied(tmp_path / "desk", SORREL)


def test_the_command_writes_a_schema_for_each_sort_of_file(desk: Path) -> None:
    done = command("editor", "--into", "help", cwd=desk)
    assert done.returncode == 0, done.stderr
    settings = json.loads((desk / "help/settings.json").read_text("utf-8"))["yaml.schemas"]
    assert set(settings) == {f"help/schemas/{name}.schema.json" for name in SORTS}
    for path, files in settings.items():
        jsonschema.Draft202012Validator.check_schema(json.loads((desk / path).read_text("utf-8")))
        assert files
    assert {task["label"] for task in json.loads((desk / "help/tasks.json").read_text("utf-8"))["tasks"]} == {
        "lockerleaf check",
        "lockerleaf prove",
        "lockerleaf language",
    }


def test_the_matcher_finds_the_faults_of_a_command(desk: Path) -> None:
    change(desk / "content/blocks/gas/open.md", "topic:", "topc:")
    told = command("check", cwd=desk).stderr.splitlines()
    (pattern,) = MATCHER["problemMatcher"][0]["pattern"]
    found = [match for line in told if (match := re.match(pattern["regexp"], line))]
    fields = [{name: match[number] for name, number in pattern.items() if name != "regexp"} for match in found]
    wanted = {"file": "content/blocks/gas/open.md", "line": "2", "column": "1", "severity": "error"}
    assert {**wanted, "message": 'unknown key "topc"'} in fields
    assert len(found) == sum(" error: " in line for line in told)
