"""Puts the statements of the proof to all vans that can be ordered."""

from dataclasses import dataclass
from pathlib import Path

from generator.compute import DECLARED
from generator.errors import Fault
from generator.load import load


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A statement that does not hold, with the build sheet of a smallest van that shows it, if any does."""

    fault: Fault
    spec: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Proved:
    """Over how many different vans the proof was asked, and what it found."""

    vans: int
    broken: tuple[Broken, ...]


def prove_workspace(root: Path) -> Proved:
    """Put every statement of the proof to all vans that can be ordered; build sheets are not read.

    Raises:
        ManualError: catalogue or content cannot be read.
    """
    from generator.prove import prove, spec_text  # its libraries are an extra

    workspace = load(root, None)
    proof = prove(workspace.catalogue, workspace.content, sorted(workspace.markets), DECLARED)
    dealer = next(iter(sorted(workspace.dealers)), "dealer")
    broken = tuple(
        Broken(
            fault=Fault(f"{finding.message} (statement {finding.statement})", finding.source, finding.hint),
            spec=spec_text(finding.van, workspace.catalogue, dealer) if finding.van else "",
        )
        for finding in proof.findings
    )
    return Proved(vans=proof.vans, broken=broken)
