"""What the numbers about gas, 12 V, sun, water, toilet and heat assume where no plate says it.

What they mean and how a build sheet sets them stands in ``assumption`` and ``assumptions``.
"""

from generator.compute.assumption import HABIT, Assumption, assumption

_SHARE = (1.0, 100.0)
_SKY = "at or below monthly means of places of the market over the light above the air (UK: NASA POWER 2001 to 2020)"

ENERGY: tuple[Assumption, ...] = (
    # --- gas in the cold
    assumption(
        "regulator-inlet",
        "Least pressure in the bottle that the regulator needs",
        0.3,
        "bar",
        (0.03, 2),
        "usual least inlet pressure of a low-pressure regulator, EN 16129 (from memory)",
    ),
    assumption("high-site", "Height of a high site above the sea", 1500, "m", (0, 5000), HABIT),
    # --- cables
    assumption(
        "cable-temperature",
        "Temperature of a cable under load",
        60,
        "degC",
        (-20, 90),
        "the most an ordinary flexible cable is made for, BS 7671 table 4F3 (from memory)",
    ),
    # --- batteries
    # Two lamps of 2.5 W for four hours.
    assumption("lamps-day", "Lamps of a van without a control panel, each day", 20, "Wh", (0, 1000), HABIT),
    assumption(
        "five-hour-share",
        "Share of its capacity that a lead-acid battery gives when emptied in five hours",
        80,
        "percent",
        (40, 100),
        HABIT,
    ),
    # 80 to 90 % and 95 to 98 % are usual: the low ends.
    assumption(
        "charge-kept-lead-acid", "Share of the charge that a lead-acid battery keeps", 80, "percent", _SHARE, HABIT
    ),
    assumption("charge-kept-lithium", "Share of the charge that a lithium battery keeps", 95, "percent", _SHARE, HABIT),
    # --- sun
    assumption(
        "latitude",
        "Latitude where the van is used most",
        50,
        "deg",
        (-90, 90),
        "the middle of the market; common practice, no source",
        uk=53,
        eu=48,
        nz=-41,
        au=-33,
    ),
    assumption(
        "sky-dark",
        "Share of the sun's light that comes through the sky in the darkest month",
        30,
        "percent",
        _SHARE,
        _SKY,
        uk=27,
        eu=26,
        nz=42,
        au=45,
    ),
    assumption(
        "sky-bright",
        "Share of the sun's light that comes through the sky in the sunniest month",
        40,
        "percent",
        _SHARE,
        _SKY,
        uk=38,
        eu=42,
        nz=46,
        au=50,
    ),
    assumption(
        "panel-share",
        "Share of a flat panel's rating that reaches the battery: heat, dirt, wiring, controller, charging",
        70,
        "percent",
        _SHARE,
        HABIT,
    ),
    # --- water and toilet
    assumption("waste-share", "Share of the water drawn that ends as waste water", 90, "percent", (0, 100), HABIT),
    assumption("shower-water", "Water for one shower, hot and cold mixed", 15, "L", (1, 200), HABIT),
    assumption("shower-temperature", "Temperature of a shower", 40, "degC", (30, 60), HABIT),
    assumption("toilet-flushes", "Flushes for each person, each day", 4, "flushes", (1, 30), HABIT),
    assumption("toilet-body", "What each person adds, each day, besides flush water", 1.5, "L", (0, 10), HABIT),
    # --- heat
    assumption("inside-temperature", "Temperature wanted inside", 18, "degC", (5, 30), HABIT),
    assumption("inside-height", "Height of the space inside", 2, "m", (1, 3), HABIT),
    assumption(
        "heat-loss",
        "Heat lost through walls, floor, roof, windows and vents, for each square metre and degree",
        2,
        "W/m2/K",
        (0.5, 6),
        HABIT,
    ),
    assumption("heater-efficiency", "Share of the flame's heat that reaches the room", 80, "percent", _SHARE, HABIT),
)
