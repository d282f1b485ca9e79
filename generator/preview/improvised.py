"""A build sheet for a van that is put together from kinds at a click: the smallest that the rules allow.

Its plates are stand-ins: the pages are what is looked at, the numbers say what would be read.
"""

from generator.errors import Fault, ManualError
from generator.model.content import Workspace
from generator.preview.views import View


def improvised(view: View, workspace: Workspace) -> str:
    """Return the YAML of a build sheet with the kinds of ``view`` and whatever the rules ask for beside them.

    Raises:
        ManualError: a kind or market is unknown, or no van that can be ordered has all of them.
    """
    try:
        from generator.prove import SmallVan, complete, spec_text
    except ModuleNotFoundError as error:  # its libraries are an extra
        hint = 'python -m pip install -e ".[prove]"'
        raise ManualError(Fault("a van is put together with the libraries of the proof", hint=hint)) from error

    catalogue = workspace.catalogue
    unknown = [f"{slot}/{kind}" for slot, kind in view.kinds if (slot, kind) not in catalogue.kinds]
    if unknown:
        raise ManualError(Fault(f"the catalogue has no {', '.join(unknown)}", hint="pick among its kinds"))
    if view.market not in workspace.markets:
        raise ManualError(Fault(f'unknown market "{view.market}"', hint=", ".join(sorted(workspace.markets))))
    van = complete(catalogue, sorted(workspace.markets), view.kinds, view.market, view.axles)
    if van is None:
        names = ", ".join(f"{slot}/{kind}" for slot, kind in view.kinds)
        raise ManualError(
            Fault(f"no van that can be ordered has {names} in {view.market}", hint="see content/equipment/rules.yaml")
        )
    points = tuple(
        (slot, kind, point)
        for slot, kind in van.kinds
        for point, need in catalogue.kinds[slot, kind].points.items()
        if need == "optional"
    )
    whole = SmallVan(kinds=van.kinds, points=points, market=van.market, axles=van.axles)
    return spec_text(whole, catalogue, next(iter(sorted(workspace.dealers)), "dealer"))
