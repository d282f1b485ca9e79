"""The names a workspace knows, by the field they may stand in, so that an editor can offer them."""

from collections.abc import Collection, Mapping, Sequence

from generator.editor.schema import Json, Names, quantity
from generator.model.blocks import Steps
from generator.model.catalogue import Catalogue, Kind, Parameter
from generator.model.content import Workspace


def known_names(workspace: Workspace, assumptions: Collection[str]) -> Names:
    """Return what may stand in the fields that name something.

    Args:
        workspace: Where the names are declared.
        assumptions: Ids of the assumptions that a build sheet may replace.
    """
    content, catalogue = workspace.content, workspace.catalogue
    pages = (page for section in content.outline.sections for page in section.pages)
    topics = [topic.value for page in pages for topic in page.topics]
    traits, messages, slots = _traits(workspace), list(content.safety), list(catalogue.slots)
    marks = [step.mark for b in content.blocks for n in b.body if isinstance(n, Steps) for step in n.items if step.mark]
    points = {f"{slot}.{point}" for (slot, _), kind in catalogue.kinds.items() for point in kind.points}
    by_sort: Mapping[tuple[str, ...], Collection[str]] = {
        ("Block.topic", "Kind.must_answer", "Control.means", "Phase.topics"): topics,
        ("Block.hazards", "Kind.hazards", "LanguageRule.needs"): messages,
        ("Block.at",): points,
        ("Block.allow",): [words.id for words in content.terms.tied],
        ("Condition.all", "Condition.none", "Rule.when", "Rule.need", "Rule.exclude"): traits,
        ("DerivedTrait.any", "DerivedTrait.all", "DerivedTrait.none", "TiedWords.trait", "OrderRule.where"): traits,
        ("OrderRule.first", "OrderRule.then"): marks,
        ("Kind.also_fills", "Masses.unladen_includes", "AsBuilt.includes"): slots,
        ("Spec.market",): list(workspace.markets),
        ("Spec.dealer",): list(workspace.dealers),
        ("Spec.based_on",): list(workspace.models),
        ("Spec.assume",): assumptions,
    }
    return {_split(field): dict.fromkeys(names) for fields, names in by_sort.items() for field in fields if names}


def _split(field: str) -> tuple[str, str]:
    owner, _, name = field.partition(".")
    return owner, name


def _traits(workspace: Workspace) -> list[str]:
    catalogue = workspace.catalogue
    own = [trait.value for kind in catalogue.kinds.values() for trait in kind.traits]
    slots = [slot.trait for slot in catalogue.slots.values()]
    markets = [f"market-{market}" for market in workspace.markets]
    return ["single-axle", "twin-axle", *markets, *slots, *own, *(trait.id for trait in catalogue.derived)]


def fitted(catalogue: Catalogue) -> Json:
    """Return the schema of the equipment of a build sheet: by slot, with the kinds, points and parameters there are."""
    properties = {
        slot: _slot([kind for key, kind in catalogue.kinds.items() if key[0] == slot]) for slot in catalogue.slots
    }
    return {"type": "object", "properties": properties, "additionalProperties": False}


def any_fitted() -> Json:
    """Return the schema of equipment as ``load`` reads it, before the catalogue is asked."""
    text: Json = {"type": ["string", "number", "boolean"], "minLength": 1}
    values: Json = {"anyOf": [text, {"type": "array", "items": text}]}
    at: Json = {"type": "object", "additionalProperties": text}
    return _fittings({"type": "object", "properties": {"kind": text, "at": at}, "additionalProperties": values})


def _fittings(one: Json) -> Json:
    many: Json = {"type": "array", "items": one}
    return {"anyOf": [{"const": "none"}, one, many]}


def _slot(kinds: Sequence[Kind]) -> Json:
    code: Json = {"type": "string", "pattern": "^[ABCDH](0|[1-9][0-9]?)$", "description": "code of a place"}
    points = dict.fromkeys((point for kind in kinds for point in kind.points), code)
    parameters = {name: _parameter(parameter) for kind in kinds for name, parameter in kind.parameters.items()}
    properties: Json = {
        "kind": {"enum": [kind.id for kind in kinds]},
        "at": {"type": "object", "properties": points, "additionalProperties": False},
        "mass": {"anyOf": [{"const": "unknown"}, quantity("kg")]},
        "basis": {"enum": ["net", "gross"]},
        **parameters,
    }
    return _fittings({"type": "object", "properties": properties, "additionalProperties": False})


def _parameter(parameter: Parameter) -> Json:
    said: Json = {"description": parameter.name}
    if parameter.many:
        return said | {"type": ["string", "array"]}
    if parameter.choices:
        return said | {"enum": [*parameter.choices, "unknown"]}
    if parameter.unit:
        return said | {"anyOf": [{"const": "unknown"}, quantity(parameter.unit)]}
    return said | {"type": ["integer", "string"]}
