"""A small van written as a build sheet that loads, so that a counter-example can be looked at."""

from generator.model.catalogue import Catalogue, Kind, Parameter
from generator.prove.small_van import SmallVan

_PLATES = """\
masses: {unladen: %(unladen)s, unladen_includes: [%(slots)s], max_laden: %(laden)s, max_axle: %(axle)s,
  max_ball_load: 300 kg, ball_load_unladen: %(ball)s}
body: {length: 5.00 m, width: 2.20 m, height: 2.60 m, overall_length: 6.50 m, coupling_to_axle: 4.00 m, track: 1.90 m}
wheels: {tyre: "205/75 R16 110R", pressure: 4.0 bar, nut_torque: 100 N*m}
"""
_BRAKED = {"unladen": "1000 kg", "laden": "2100 kg", "axle": "1900 kg", "ball": "70 kg"}
# Light enough to go without brakes in every market.
_UNBRAKED = {"unladen": "450 kg", "laden": "650 kg", "axle": "620 kg", "ball": "40 kg"}


def spec_text(van: SmallVan, catalogue: Catalogue, dealer: str) -> str:
    """Return the YAML of a build sheet with exactly the kinds and optional points of ``van``.

    Every point stands at one place; parameters without a default are ``unknown``, the first choice or 1.

    Args:
        van: What the build sheet must have.
        catalogue: Where the kinds are declared.
        dealer: Id of a dealer of the workspace.
    """
    slots = [slot for slot, _ in van.kinds if slot != "gas"]
    masses = _BRAKED if "brakes" in slots else _UNBRAKED
    lines = [
        "chassis: SAMPLE-VAN",
        "name: Sample",
        f"market: {van.market}",
        f"dealer: {dealer}",
        "berths: 2",
        f"axles: {van.axles}",
        (_PLATES % {"slots": ", ".join(slots), **masses}).rstrip(),
        "places:",
        "  - {code: A1, name: Front, where: outside, position: [1.0 m, 0 m], label: true}",
        "fitted:",
        *(f"  {slot}: {_fitting(catalogue.kinds[slot, kind], van)}" for slot, kind in van.kinds),
    ]
    return "\n".join(lines) + "\n"


def _fitting(kind: Kind, van: SmallVan) -> str:
    points = [
        point for point, need in kind.points.items() if need == "required" or (kind.slot, kind.id, point) in van.points
    ]
    entries = [f"kind: {kind.id}", "at: {" + ", ".join(f"{point}: A1" for point in points) + "}"]
    for name, parameter in kind.parameters.items():
        if parameter.default is None and not parameter.optional:
            entries.append(f"{name}: {_value(parameter)}")
    if any(parameter.basis == "required" for parameter in kind.parameters.values()):
        entries.append("basis: net")
    return "{" + ", ".join(entries) + "}"


def _value(parameter: Parameter) -> str:
    if parameter.choices:
        return parameter.choices[0]
    return "1" if parameter.count else "unknown"
