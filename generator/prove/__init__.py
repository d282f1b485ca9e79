"""Statements about every van the catalogue allows: proved, or broken by a smallest van.

``prove`` is the one public function; ``sample`` makes a set of vans in which every pair of kinds meets, ``complete`` a
van from a few kinds.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.model.catalogue import Catalogue
from generator.model.content import Content
from generator.model.numbers import Declared
from generator.prove.counting import count_vans
from generator.prove.logic import Clauses
from generator.prove.sampling import sample
from generator.prove.small_van import SmallVan, complete
from generator.prove.space import space
from generator.prove.spec_text import spec_text
from generator.prove.statements import Finding, Statements

__all__ = ["Finding", "Proof", "SmallVan", "complete", "prove", "sample", "spec_text"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What was found, and over how many different vans it was asked."""

    findings: tuple[Finding, ...]
    vans: int


def prove(catalogue: Catalogue, content: Content, markets: Sequence[str], declared: Mapping[str, Declared]) -> Proof:
    """Put every statement to all vans that can be ordered.

    Args:
        catalogue: Slots, kinds, rules and derived traits.
        content: Outline, blocks, safety messages, terms and order rules.
        markets: Market ids.
        declared: What each number needs and where it applies.
    """
    solver = Clauses()
    vans = space(catalogue, markets, solver)
    solver.require(vans.allowed)
    findings = Statements(vans, content, declared).findings()
    return Proof(findings=tuple(findings), vans=count_vans(catalogue, markets))
