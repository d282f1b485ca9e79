"""The public function of the stage: one build sheet to one van with nothing left to look up."""

from collections.abc import Mapping
from typing import TypeVar

from generator.errors import Fault, SpecError, nearest
from generator.model.caravan import Caravan
from generator.model.content import Market, Workspace
from generator.model.sourced import Fact, Given, Origin
from generator.model.specs import Spec
from generator.resolve.equipment import read_circuits, read_equipment
from generator.resolve.faults import Faults
from generator.resolve.held import included
from generator.resolve.merge import merge
from generator.resolve.pictures import read_van_pictures
from generator.resolve.places import place_facts, read_places
from generator.resolve.plates import plate_facts, stated_masses
from generator.resolve.traits import hold_rules, read_traits

# What every van rests on, beside its build sheets, its market and the kinds fitted.
_BENEATH = ("content/equipment/slots.yaml", "content/equipment/rules.yaml", "content/traits.yaml")

_T = TypeVar("_T")


def resolve(spec: Spec, workspace: Workspace) -> Caravan:
    """Return the van of a build sheet, every reference followed.

    Args:
        spec: The build sheet of a chassis.
        workspace: Models, dealers, markets and catalogue that it names.

    Raises:
        SpecError: all faults of the van, each at the line that must be put right.
    """
    faults = Faults(workspace.spoilt)
    merged = merge(spec, workspace.models, faults)
    market = _named("market", merged.market, workspace.markets, "content/markets/", faults)
    dealer = _named("dealer", merged.dealer, workspace.dealers, "van_specs/dealers/", faults)
    places = read_places(merged, faults)
    equipment, of_equipment = read_equipment(merged, workspace.catalogue, faults)
    of_plates = plate_facts(merged, faults)
    of_unladen, of_ball_load = stated_masses(merged, faults)
    faults.rest_on(*_BENEATH, f"content/markets/{market.id}.yaml" if market else "")
    traits = read_traits(merged, equipment, of_plates, workspace.catalogue)
    hold_rules(workspace.catalogue.rules, traits, merged.source, faults)
    pictures = read_van_pictures(merged, equipment, workspace, faults)
    circuits = read_circuits(merged, workspace.catalogue, faults)
    faults.raise_any()
    unladen = included(spec, workspace, merged, equipment, of_unladen, lambda sheet: bool(sheet.masses.unladen))
    ball_load = included(
        spec, workspace, merged, equipment, of_ball_load, lambda sheet: bool(sheet.masses.ball_load_unladen)
    )
    if market is None or dealer is None or merged.chassis is None or merged.name is None:
        raise SpecError(Fault("the build sheet is not complete", merged.source))  # each has brought its fault
    return Caravan(
        chassis=merged.chassis.value,
        model=merged.name.value,
        market=market,
        dealer=dealer,
        built=merged.built.value if merged.built else None,
        handed_over=merged.handed_over.value if merged.handed_over else None,
        traits=traits.found,
        places=places,
        equipment=equipment,
        circuits=circuits,
        facts={**of_plates, **of_equipment, **place_facts(places), **_market_facts(market)},
        not_in_unladen=unladen.without,
        unladen_measured=of_unladen.measured,
        held_in_unladen=unladen.held,
        not_in_ball_load=ball_load.without,
        held_in_ball_load=ball_load.held,
        assume=dict(merged.assume),
        pictures=pictures,
        source=spec.source,
    )


def _named(what: str, name: Given[str] | None, known: Mapping[str, _T], folder: str, faults: Faults) -> _T | None:
    """Return what a build sheet names; that the name is there is checked with the other fields."""
    if name is not None and name.value not in known:
        hint = nearest(name.value, known)
        faults.absent(f'unknown {what} "{name.value}"', name.source, hint, name=name.value, by=f"{folder}{name.value}.")
    return known.get(name.value) if name is not None else None


def _market_facts(market: Market) -> dict[str, Fact]:
    voltage = market.mains_voltage
    return {"market.mains_voltage": Fact(voltage.value, Origin.MARKET, voltage.source)}
