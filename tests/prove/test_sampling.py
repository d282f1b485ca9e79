"""The covering sample: every two kinds that may meet do meet in some van of it."""

from itertools import combinations

from generator.load import load
from generator.prove import sample
from generator.prove.logic import Clauses
from generator.prove.space import space
from tests.conftest import BuildWorkspace


def test_every_pair_that_may_meet_meets(build_workspace: BuildWorkspace) -> None:
    catalogue = load(build_workspace()).catalogue
    met = {pair for van in sample(catalogue, ["nz", "uk"]) for pair in combinations(van.kinds, 2)}
    solver = Clauses()
    vans = space(catalogue, ["nz", "uk"], solver)
    solver.require(vans.allowed)
    may_meet = {
        pair for pair in combinations(vans.kinds, 2) if solver.model(*(vans.kinds[key] for key in pair)) is not None
    }
    assert may_meet and met == may_meet


def test_same_catalogue_same_sample(build_workspace: BuildWorkspace) -> None:
    catalogue = load(build_workspace()).catalogue
    assert sample(catalogue, ["uk"]) == sample(catalogue, ["uk"])
