"""The files that an editor reads: a schema for each sort of file, which files it is for, and a problem matcher."""

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from generator.editor.known import any_fitted, fitted, known_names
from generator.editor.schema import Json, Schemas
from generator.model.blocks import Block
from generator.model.catalogue import DerivedTrait, Kind, Rule, Slot
from generator.model.content import (
    Market,
    OrderRule,
    Outline,
    SafetyMessage,
    Terms,
    Workspace,
)
from generator.model.handover import Handover, LabelSign
from generator.model.language import Language
from generator.model.pictures import PictureEntry
from generator.model.reviews import Register
from generator.model.specs import Dealer, Spec


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """A sort of file: how it is read, and where it lies. ``given`` are fields that do not stand in it."""

    title: str
    wanted: Any
    given: Collection[str] = ()
    files: tuple[str, ...]


SORTS: Mapping[str, Sort] = {
    "spec": Sort(title="Build sheet", wanted=Spec, files=("van_specs/vans/*.yaml", "van_specs/models/*.yaml")),
    "dealer": Sort(title="Dealer", wanted=Dealer, given=("id",), files=("van_specs/dealers/*.yaml",)),
    "kind": Sort(title="Kind", wanted=Kind, given=("id", "slot"), files=("content/equipment/*/*.yaml",)),
    "slots": Sort(title="Slots", wanted=dict[str, Slot], files=("content/equipment/slots.yaml",)),
    "rules": Sort(title="Rules of the catalogue", wanted=tuple[Rule, ...], files=("content/equipment/rules.yaml",)),
    "traits": Sort(title="Derived traits", wanted=tuple[DerivedTrait, ...], files=("content/traits.yaml",)),
    "market": Sort(title="Market", wanted=Market, given=("id",), files=("content/markets/*.yaml",)),
    "outline": Sort(title="Outline", wanted=Outline, files=("content/outline.yaml",)),
    "message": Sort(title="Safety message", wanted=SafetyMessage, given=("id",), files=("content/safety/*.yaml",)),
    "pictures": Sort(title="Pictures", wanted=dict[str, PictureEntry], files=("content/pictures.yaml",)),
    "terms": Sort(title="Words", wanted=Terms, files=("content/terms.yaml",)),
    "order": Sort(title="Order of actions", wanted=tuple[OrderRule, ...], files=("content/order.yaml",)),
    "language": Sort(title="Rules of language", wanted=Language, files=("content/language.yaml",)),
    "handover": Sort(title="Handover", wanted=Handover, files=("content/handover.yaml",)),
    "labels": Sort(title="Signs of labels", wanted=tuple[LabelSign, ...], files=("content/labels.yaml",)),
    "reviews": Sort(title="Reviews", wanted=Register, files=("content/reviews.yaml",)),
    "front-matter": Sort(
        title="Front matter of a block",
        wanted=Block,
        given=("id", "source", "body", "digest", "fragments"),
        files=("content/blocks/*/*.md",),
    ),
}
_DIGEST: Json = {"type": "string", "pattern": "^[0-9a-f]{64}$"}

# One fault is one line and perhaps a hint under it: file:line:column: error: message.
MATCHER: Json = {
    "problemMatcher": [
        {
            "owner": "lockerleaf",
            "source": "lockerleaf",
            "fileLocation": ["relative", "${workspaceFolder}"],
            "pattern": [
                {
                    "regexp": r"^(.+?):(\d+):(\d+): (error|warning): (.*)$",
                    "file": 1,
                    "line": 2,
                    "column": 3,
                    "severity": 4,
                    "message": 5,
                }
            ],
        }
    ]
}


def schema(name: str, workspace: Workspace | None = None, assumptions: Collection[str] = ()) -> Json:
    """Return the schema of one sort of file; with a workspace it offers the names that are known there."""
    sort = SORTS[name]
    names = known_names(workspace, assumptions) if workspace else {}
    equipment = fitted(workspace.catalogue) if workspace else any_fitted()
    if workspace is None:
        equipment = {"type": "object", "additionalProperties": equipment}
    own = {("Spec", "fitted"): equipment, ("Review", "digest"): _DIGEST}
    return Schemas(names, own).document(sort.wanted, sort.given, sort.title)


def editor_files(workspace: Workspace, assumptions: Collection[str], folder: str) -> Mapping[str, str]:
    """Return what the command writes, by name within its folder.

    Args:
        workspace: Whose names the schemas offer.
        assumptions: Ids of the assumptions that a build sheet may replace.
        folder: Where they will lie, relative to the workspace, for the settings.
    """
    files = {f"schemas/{name}.schema.json": _json(schema(name, workspace, assumptions)) for name in SORTS}
    settings = {f"{folder}/schemas/{name}.schema.json": list(sort.files) for name, sort in SORTS.items()}
    return {
        **files,
        "problem-matcher.json": _json(MATCHER),
        "settings.json": _json({"yaml.schemas": settings}),
        "tasks.json": _json(_tasks()),
    }


def _tasks() -> Json:
    """Return tasks that run our commands and show their faults at the line."""
    (matcher,) = MATCHER["problemMatcher"]
    tasks = [
        {
            "label": f"lockerleaf {command}",
            "type": "shell",
            "command": f"lockerleaf {command}",
            "group": "test",
            "problemMatcher": matcher,
        }
        for command in ("check", "prove", "language")
    ]
    return {"version": "2.0.0", "tasks": tasks}


def _json(value: Json) -> str:
    return json.dumps(value, ensure_ascii=False, indent=2) + "\n"
