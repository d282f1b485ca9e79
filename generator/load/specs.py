"""Build sheets and dealers: what one file says of itself.

Merging a chassis over its model, and following what it names, is left to ``resolve``.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace
from pathlib import Path

from generator.load.documents import file_name
from generator.load.faults import Faults
from generator.load.nodes import Entries, Items, Node, Scalar
from generator.load.reader import Reader
from generator.load.sources import read_record, refuse_other_endings, yaml_files
from generator.load.spec_checks import check_chassis_once, check_dealer, check_model, check_spec, check_van
from generator.model.sourced import Given
from generator.model.specs import ANY, Dealer, Fitting, Spec

MODELS, VANS, DEALERS = "van_specs/models", "van_specs/vans", "van_specs/dealers"
_FIELDS = frozenset(field.name for field in fields(Spec))
_KEY = re.compile(r"""["']?(\w+)["']? *:""")


def read_models(root: Path, faults: Faults) -> dict[str, Spec]:
    """Return the models by id, which is the file name."""
    folder = root / MODELS
    refuse_other_endings(root, folder, faults)
    models = {path.stem: _spec(root, path, faults) for path in yaml_files(folder)}
    for model in filter(None, models.values()):
        check_model(model, faults)
    return {name: model for name, model in models.items() if model is not None}


def read_vans(root: Path, specs: Sequence[Path], faults: Faults) -> dict[str, Spec]:
    """Return build sheets of vans by file name relative to the workspace.

    Args:
        root: The workspace.
        specs: The files wanted, relative to the current folder or the workspace; none means all of them.
        faults: Takes what is wrong with them.
    """
    refuse_other_endings(root, root / VANS, faults)
    paths = [path if path.exists() else root / path for path in specs] or yaml_files(root / VANS)
    vans = {file_name(root, path): _spec(root, path, faults) for path in paths}
    for van in filter(None, vans.values()):
        check_van(van, faults)
    read = {name: van for name, van in vans.items() if van is not None}
    check_chassis_once(read.values(), faults)
    return read


def with_spoilt(specs: Mapping[str, Spec], faults: Faults) -> dict[str, Spec]:
    """Return build sheets that know which of their fields have faults."""
    return {name: replace(spec, spoilt=_spoilt(spec, faults)) for name, spec in specs.items()}


def _spoilt(spec: Spec, faults: Faults) -> frozenset[str]:
    """Return the fields of a sheet in which faults stand; any, where one is of no field or of the whole sheet."""
    lines = (faults.text(spec.source.file) or "").split("\n")
    sources = faults.sources_in(spec.source.file)
    keys = (_key_above(lines, at.line) if at != spec.source else ANY for at in sources)
    return frozenset(key if key in _FIELDS else ANY for key in keys)


def _key_above(lines: list[str], line: int) -> str:
    found = (_KEY.match(text) for text in reversed(lines[:line]))
    return next((key[1] for key in found if key), "")


def read_dealers(root: Path, faults: Faults) -> dict[str, Dealer]:
    """Return the dealers by id, which is the file name."""
    refuse_other_endings(root, root / DEALERS, faults)
    dealers = {}
    for path in yaml_files(root / DEALERS):
        dealer = read_record(root, path, Dealer, Reader(faults), id=path.stem)
        if dealer is not None:
            dealers[dealer.id] = dealer
            check_dealer(dealer, faults)
    return dealers


def _spec(root: Path, path: Path, faults: Faults) -> Spec | None:
    spec = read_record(root, path, Spec, Reader(faults, {(Spec, "fitted"): _fitted}))
    if spec is None:
        return None
    spec = replace(spec, spoilt=_spoilt(spec, faults))
    check_spec(spec, faults)
    return spec


# --- equipment


def _fitted(reader: Reader, node: Node) -> dict[Given[str], tuple[Fitting, ...]] | None:
    """Read equipment by slot: a mapping, a list of mappings, or ``none``."""
    if not isinstance(node, Entries):
        reader.faults.add("a mapping belongs here", node.source, 'write "slot: {kind: ...}" lines')
        return None
    return {Given(key.text, key.source): tuple(_fittings(reader, value)) for key, value in node.entries}


def _fittings(reader: Reader, node: Node) -> Iterator[Fitting]:
    if isinstance(node, Scalar):
        if node.text != "none":
            hint = f"write {{kind: {node.text}}}" if node.text else 'write {kind: ...}, or "none"'
            reader.faults.add("a fitting is a mapping", node.source, hint)
        return
    for item in node.items if isinstance(node, Items) else (node,):
        fitting = _fitting(reader, item)
        if fitting is not None:
            yield fitting


def _fitting(reader: Reader, node: Node) -> Fitting | None:
    if not isinstance(node, Entries):
        reader.faults.add("a fitting is a mapping", node.source, "write {kind: ...}")
        return None
    kind, at = node.get("kind"), node.get("at")
    parameters = {key.text: _parameter(reader, value) for key, value in node.entries if key.text not in ("kind", "at")}
    return Fitting(
        kind=reader.read(kind, Given[str]) if kind else None,
        at=(reader.read(at, dict[str, Given[str]]) if at else None) or {},
        parameters={name: value for name, value in parameters.items() if value is not None},
        source=node.source,
    )


def _parameter(reader: Reader, node: Node) -> Given[str] | None:
    """Read a parameter as text; a list is joined with commas."""
    if not isinstance(node, Items):
        text = reader.text(node)
        return None if text is None else Given(text, node.source)
    texts = [reader.text(item) for item in node.items]
    return Given(", ".join(text for text in texts if text), node.source)
