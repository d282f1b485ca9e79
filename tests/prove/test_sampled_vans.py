"""Vans in which every two kinds that may meet do meet: each is assembled from its build sheet without a fault.

Assembling checks links, anchors, answers, hazards and words that speak of what is not fitted, independently of the
solver that the proof rests on.
"""

import shutil
from pathlib import Path

from generator.assemble import assemble
from generator.compute import compute
from generator.load import load
from generator.prove import sample, spec_text
from generator.resolve import resolve

ROOT = Path(__file__).parents[2]


def test_sampled_vans_assemble_without_a_fault(tmp_path: Path) -> None:
    for folder in ("content", "van_specs/dealers", "van_specs/models"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    shipped = load(ROOT)
    vans = sample(shipped.catalogue, sorted(shipped.markets))
    (tmp_path / "van_specs/vans").mkdir()
    for number, van in enumerate(vans):
        text = spec_text(van, shipped.catalogue, "quayside").replace("SAMPLE-VAN", f"SAMPLE-VAN-{number}")
        (tmp_path / f"van_specs/vans/sample-{number}.yaml").write_text(text, encoding="utf-8")
    workspace = load(tmp_path)
    assert len(workspace.vans) == len(vans) > 10
    for spec in workspace.vans.values():
        caravan = resolve(spec, workspace)
        manual = assemble(caravan, compute(caravan), workspace.content, workspace.catalogue, None)
        assert manual.pages
