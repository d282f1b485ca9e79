"""Forces between car and van after UN R55, and what follows for the coupling of this van.

What a car must allow is put together in ``car``; whether one car does, in ``matching``.
"""

from generator.compute.declare import Answer, Recipe, number
from generator.compute.fitted import KG
from generator.compute.inputs import Inputs
from generator.compute.showing import down, exact, up
from generator.compute.worked import Term, line, put
from generator.errors import Fault, Level
from generator.model.numbers import Verdict
from generator.units import Quantity, Rounding

GROUP = "Your car"
KN = "kN"
GRAVITY = Quantity(9.81, "m/s**2")  # UN R55 rounds it so
# A car of category M1 or a van of N1 may weigh this at most; beyond it no owner looks for a limit.
HEAVIEST_CAR = Quantity(3500.0, KG)
R55 = "UN R55, D = g T R / (T + R)"
_KILO = put(Quantity(1000.0, "N/kN"), "N/kN")
_A = Quantity(2.4, "m/s**2")  # without air suspension at the car's rear axle; 1.8 with it


def d_value(car: Quantity, van: Quantity) -> Quantity:
    """Return the D-value of two masses [force]: D = g T R / (T + R).

    Args:
        car: Greatest mass of the car, T.
        van: Greatest mass of the van, R.

    Source: UN R55 paragraph 2.11.
    """
    return pull(car, van).value


def pull(car: Quantity, van: Quantity) -> Term:
    """Return ``d_value`` as it is worked out."""
    t, r = put(car, KG), put(van, KG)
    return (put(GRAVITY, "m/s**2") * t * r / (_KILO * (t + r))).to(KN)


def dc_value(car: Quantity, on_wheels: Quantity) -> Quantity:
    """Return the Dc-value [force] of a centre-axle trailer above 3.5 t: Dc = g T C / (T + C).

    Args:
        car: Greatest mass of the car, T.
        on_wheels: Greatest mass on the wheels of the van, C, its ball load left out.

    Source: UN R55 (formerly Directive 94/20/EC).
    """
    return d_value(car, on_wheels)


def v_value(body: Quantity, drawbar: Quantity, on_wheels: Quantity, a: Quantity = _A) -> Quantity:
    """Return the V-value [force] of a centre-axle trailer above 3.5 t: V = a X^2 / L^2 C, with X^2 / L^2 at least 1.

    Args:
        body: Length of the body, X.
        drawbar: Coupling to axle, L.
        on_wheels: Greatest mass on the wheels of the van, C.
        a: 1.8 m/s2 with air suspension at the car's rear axle, else 2.4 m/s2.

    Source: UN R55 (formerly Directive 94/20/EC).
    """
    ratio = max(float(((body / drawbar) ** 2).to("dimensionless").magnitude), 1.0)
    value: Quantity = a * ratio * on_wheels
    return value.to(KN)


def heaviest_partner(d: Quantity, mass: Quantity) -> Quantity | None:
    """Return the heaviest other mass that a D-value allows beside ``mass``; None where it allows any."""
    found = partner(d, mass)
    return None if found is None else found.value


def partner(d: Quantity, mass: Quantity) -> Term | None:
    """Return ``heaviest_partner`` as it is worked out.

    Formula: T = D R / (g R - D), the D-value solved for one mass; without bound from D = g R on.
    """
    plate, other = put(d, KN), put(mass, KG)
    rest = (put(GRAVITY, "m/s**2") * other / _KILO).to(KN) - plate
    return (plate * other / rest).to(KG) if rest.value.magnitude > 0 else None


@number(
    "tow-car-heaviest",
    group=GROUP,
    title="Heaviest car for this coupling",
    needs=("coupling.d_value", "masses.max_laden"),
    unit=KG,
    rounding=Rounding.DOWN,
    method="T = D R / (g R - D), with D from the plate of the coupling and R the greatest mass of the van.",
    moves="The mass of the car.",
    source=R55,
)
def tow_car_heaviest(given: Inputs) -> Answer:
    """Return the greatest mass of a car that the coupling's D-value allows, where that is a limit for a car at all."""
    d, van = given.positive("coupling.d_value"), given.positive("masses.max_laden")
    worked = partner(d, van)
    if worked is None or worked.value >= HEAVIEST_CAR:
        asks = line(pull(HEAVIEST_CAR, van), KN, f"A car of {exact(HEAVIEST_CAR)} asks for a D-value of")
        return Answer(
            value=HEAVIEST_CAR,
            worked=(asks,),
            shown=f"any car up to {exact(HEAVIEST_CAR)}",
            sentence=f"The coupling's D-value of {exact(d)} sets no limit for a car. The towbar has its own.",
        )
    most = worked.value
    sentence = f"Its plate allows a car of {down(most, KG)} at most. The towbar has its own."
    shown = f"cars up to {down(most, KG)}"
    if most >= van:
        return Answer(value=worked, shown=shown, sentence=sentence)
    message = f"the coupling's D-value of {exact(d)} allows only cars up to {down(most, KG)}, lighter than the van"
    fault = Fault(message, given.source("coupling.d_value"), "compare it with the plate", Level.WARNING)
    return Answer(value=worked, shown=shown, sentence=sentence, verdict=Verdict.CLOSE, faults=(fault,))


@number(
    "d-value-needed",
    group=GROUP,
    title="D-value the towbar needs",
    needs=("masses.max_laden",),
    unit=KN,
    rounding=Rounding.UP,
    digits=1,
    method=f"D = g T R / (T + R), with R the greatest mass of the van and T a car of {exact(HEAVIEST_CAR)}.",
    source=R55,
)
def d_value_needed(given: Inputs) -> Answer:
    """Return the D-value that is enough for every car, since it rises with the mass of the car."""
    value = pull(HEAVIEST_CAR, given.positive("masses.max_laden"))
    enough = f"{up(value.value, KN, 1)} is enough for any car up to {exact(HEAVIEST_CAR)}."
    return Answer(value=value, sentence=f"{enough} A lighter car needs less.")


RECIPES: tuple[Recipe, ...] = (tow_car_heaviest, d_value_needed)
