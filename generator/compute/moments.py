"""Moments about the axle, or the middle of two: how much of a mass rests on the towball.

Which masses there are is left to the modules by topic.
"""

from generator.compute.inputs import Inputs
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


def lever(given: Inputs, place: Place) -> Quantity:
    """Return the share of a mass at ``place`` that rests on the towball."""
    return share_on_ball(given, given.behind_coupling(place))
