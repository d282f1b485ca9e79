"""Whether one car may tow one van, and which limit is the lowest: a pure function of plate values.

What a car must allow for a given van is printed by ``car``.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.coupling import heaviest_partner
from generator.compute.margins import against
from generator.compute.showing import down, exact
from generator.model.numbers import Verdict
from generator.units import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Towed:
    """What counts of a van: the most it may weigh, the ball load it then needs, and the D-value of its coupling.

    ``kerb_share`` is the share of a car's kerb mass that the market advises, where it advises one.
    """

    laden: Quantity
    ball_load: Quantity
    coupling_d: Quantity
    kerb_share: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RearAxle:
    """What the car's rear axle may still carry, loaded but without a van; the towball is ``overhang`` behind it."""

    spare: Quantity
    wheelbase: Quantity
    overhang: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Car:
    """What counts of a car, from its plate, its papers and the plate of its towbar.

    ``trailer_mass`` is that for a trailer with brakes or without, as the van is. ``ball_load`` is the lower of
    car and towbar. ``rear_axle`` and ``kerb_mass`` are judged where they are known.
    """

    own_mass: Quantity
    trailer_mass: Quantity
    train_mass: Quantity
    ball_load: Quantity
    towbar_d: Quantity
    rear_axle: RearAxle | None = None
    kerb_mass: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """The verdict over a pair: ``most`` is the heaviest van the ``lowest`` of all limits allows this car."""

    verdict: Verdict
    lowest: str
    most: Quantity
    sentence: str
    advice: str = ""


def axle_changes(ball_load: Quantity, wheelbase: Quantity, overhang: Quantity) -> tuple[Quantity, Quantity]:
    """Return by how much a ball load changes the load of the car's front axle and of its rear axle.

    Formula: front -T o / w, rear +T (w + o) / w, with wheelbase w and overhang o; statics about each axle.
    """
    front: Quantity = -(ball_load * overhang / wheelbase)
    rear: Quantity = ball_load * (wheelbase + overhang) / wheelbase
    return front.to("kg"), rear.to("kg")


def match(van: Towed, car: Car) -> Match:
    """Return how ``van`` at its greatest mass stands to what ``car`` may tow.

    Every limit is turned into the heaviest van it allows: greatest trailer mass; train mass less the car's own
    greatest mass; load on the towbar over the share of the van that rests on it, and the same for what its rear
    axle may still carry; both D-values solved for the mass of the van. The least of them is the limit.

    Source: UN R55 for the D-values; the lowest of all plates counts.
    """
    lowest, most = min(_limits(van, car), key=lambda limit: limit[1])
    verdict = against(van.laden, most)
    weighs = f"The van may weigh {exact(van.laden)}."
    sentence = f"{weighs} {lowest} allows a van of {down(most, 'kg')}. That is the lowest of all limits."
    return Match(verdict=verdict, lowest=lowest, most=most, sentence=sentence, advice=_advice(van, car))


def _limits(van: Towed, car: Car) -> Iterator[tuple[str, Quantity]]:
    yield "The car's greatest trailer mass", car.trailer_mass
    yield "The greatest mass of both together", car.train_mass - car.own_mass
    yield "The load on the car's towbar", van.laden * (car.ball_load / van.ball_load)
    if car.rear_axle is not None:
        rear = car.rear_axle
        _, taken = axle_changes(van.ball_load, rear.wheelbase, rear.overhang)
        yield "The car's rear axle", van.laden * (rear.spare / taken)
    for name, d in (("The D-value of the towbar", car.towbar_d), ("The D-value of the van's coupling", van.coupling_d)):
        heaviest = heaviest_partner(d, car.own_mass)
        if heaviest is not None:
            yield name, heaviest


def _advice(van: Towed, car: Car) -> str:
    """Return the advice of the market on kerb mass where the pair does not follow it."""
    if van.kerb_share is None or car.kerb_mass is None:
        return ""
    advised: Quantity = car.kerb_mass * van.kerb_share
    if van.laden <= advised:
        return ""
    return f"Advised for this car: a van of {down(advised, 'kg')} at most, {exact(van.kerb_share)} of its kerb mass."
