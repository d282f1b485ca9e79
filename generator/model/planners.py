"""What the planners of a manual reckon with: limits and rates of one van as plain numbers, their unit in the name.

A planner is worked out on the owner's phone; what goes into it is worked out here, once.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadPlace:
    """Somewhere a load may lie. ``lever`` is the share of it that rests on the towball, negative behind the axle.

    ``room_kg`` is what its own limit leaves beside what is fitted there; None where no limit is stated.
    """

    key: str
    code: str  # "" for a tank
    name: str
    lever: float
    room_kg: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadingPlan:
    """The van with everything fitted and nothing loaded, and its limits."""

    max_kg: float
    fitted_kg: float
    ball_kg: float
    max_ball_kg: float
    least_ball_kg: float
    advised_share: float  # of what the van weighs, on the towball
    max_axle_kg: float | None  # of two axles, what both may carry together
    axles: int
    places: tuple[LoadPlace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CarPlan:
    """What counts of the van when a car is chosen; ``ball_kg`` is what the full van needs on the towball."""

    laden_kg: float
    ball_kg: float
    coupling_d_kn: float
    braked: bool
    kerb_share: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Burner:
    """A gas appliance flat out, and its hours in a typical day, by weather; a fridge burns by no habit."""

    name: str
    g_per_h: float
    hours: Mapping[str, float]
    by_habit: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class GasStock:
    """The bottles, and what burns."""

    bottle_g: float
    bottles: int
    burners: tuple[Burner, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryStock:
    """What the battery gives, what a typical day takes, and what the sun gives on a usual day of each month.

    Of a day, ``steady_wh`` is taken whatever one does and ``heat_wh`` where it is not warm; both are within ``day_wh``.
    ``season_month`` is the darkest month of each weather, from 0.
    """

    usable_wh: float
    day_wh: float
    steady_wh: float = 0.0
    heat_wh: float = 0.0
    sun_wh: tuple[float, ...] = ()
    season_month: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterStock:
    """Water that can be drawn, and what each person uses in a day."""

    usable_l: float
    person_l: float
    berths: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CassetteStock:
    """What the toilet cassette holds, and what each person puts into it in a day."""

    usable_l: float
    flush_l: float
    flushes: float
    body_l: float
    berths: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysPlan:
    """What runs out or is full; None for what the van does not have, or what is not known of it.

    ``habits`` is the share of a usual day that each habit takes.
    """

    gas: GasStock | None = None
    battery: BatteryStock | None = None
    water: WaterStock | None = None
    cassette: CassetteStock | None = None
    habits: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class MainsLoad:
    """A mains appliance and the power of each of its steps, rising."""

    name: str
    steps_w: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MainsPlan:
    """The supplies this van may meet, and what draws from them."""

    voltage_v: float
    supplies_a: tuple[float, ...]
    loads: tuple[MainsLoad, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Planners:
    """The planners of one van; ``missing`` says for each of them what to read off which plate."""

    loading: LoadingPlan | None = None
    car: CarPlan | None = None
    days: DaysPlan | None = None
    mains: MainsPlan | None = None
    missing: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
