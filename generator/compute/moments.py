"""Moments about the axle, or the middle of two: how much of a mass rests on the towball.

Which masses there are is left to the modules by topic.
"""

from generator.compute.inputs import Inputs
from generator.compute.worked import Term, put
from generator.model.caravan import Place
from generator.units import Quantity

STATICS = "statics: moments about the axle, or the middle of two axles"


def share_on_ball(given: Inputs, behind: Quantity) -> Quantity:
    """Return the share of a mass that rests on the towball: (L - x) / L, negative behind the axle.

    Args:
        given: Inputs that declare ``body.coupling_to_axle``, L.
        behind: How far the mass lies behind the coupling, x.
    """
    axle = given.positive("body.coupling_to_axle")
    share: Quantity = (axle - behind) / axle
    return share


def moved(given: Inputs, mass: Term, behind: Quantity) -> Term:
    """Return by how much ``mass`` changes the ball load, written down: m (L - x) / L."""
    axle = put(given.positive("body.coupling_to_axle"), "m")
    return mass * reach(axle, behind) / axle


def reach(axle: Term, behind: Quantity) -> Term:
    """Return L - x; what lies ahead of the coupling adds to L."""
    return axle + put(-1 * behind, "m") if behind.magnitude < 0 else axle - put(behind, "m")


def lever(given: Inputs, place: Place) -> Quantity:
    """Return the share of a mass at ``place`` that rests on the towball."""
    return share_on_ball(given, given.behind_coupling(place))
