"""A van of the small workspace, with lines added to its build sheet."""

from collections.abc import Callable

import pytest

from generator.errors import SpecError
from generator.load import load
from generator.model.caravan import Caravan
from generator.resolve import resolve

from ..conftest import BuildWorkspace

VAN, MODEL = "van_specs/vans/dune-1.yaml", "van_specs/models/dune-400.yaml"
HEAD = "chassis: ZZ9DN40N8TH000001\nbased_on: dune-400\nmarket: uk\ndealer: quayside\n"
ResolveVan = Callable[..., Caravan]
TellFaults = Callable[..., list[str]]


@pytest.fixture
def resolve_van(build_workspace: BuildWorkspace) -> ResolveVan:
    """Return a function that resolves the small van with ``tail`` added and other files replaced."""

    def run(tail: str = "", head: str = HEAD, **files: str) -> Caravan:
        root = build_workspace({VAN: head + tail, **files})
        workspace = load(root)
        return resolve(workspace.vans[VAN], workspace)

    return run


@pytest.fixture
def tell(resolve_van: ResolveVan) -> TellFaults:
    """Return a function that gives the faults of the small van with ``tail`` added, without hints."""

    def run(tail: str, head: str = HEAD, **files: str) -> list[str]:
        with pytest.raises(SpecError) as caught:
            resolve_van(tail, head, **files)
        return [str(fault).split("\n")[0].removeprefix("van_specs/") for fault in caught.value.faults]

    return run
