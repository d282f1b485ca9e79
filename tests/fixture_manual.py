"""A hand-made manual with a page of every template, for the tests of render and fill and for the browser.

Shaped like what ``assemble`` makes; the van and its words are invented.
"""

from datetime import date

from generator.errors import Source
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.catalogue import Drawn
from generator.model.content import SafetyMessage, Signal
from generator.model.holes import DrawnPlace, HoleValue, Notice, Summary, VanDrawing, Working
from generator.model.manual import LabelText, Manual, SearchEntry
from generator.model.numbers import Bar, BarChart, DataTable, Input, Number, Verdict
from generator.model.panels import Face, PanelDrawing, Part
from generator.model.planners import (
    BatteryStock,
    Burner,
    CarPlan,
    CassetteStock,
    DaysPlan,
    GasStock,
    LoadingPlan,
    LoadPlace,
    MainsLoad,
    MainsPlan,
    Planners,
    WaterStock,
)
from generator.model.reviews import SafetyBlock
from generator.model.site import Edition, PublishedVan
from generator.model.sourced import Given, Origin
from generator.units import Rounding, parse

HERE = Source("tests/fixture_manual.py")
FOLDER = "7K3QX9F4WM"
EDITION = Edition(number=2, day=date(2026, 11, 20))
NEXT_EDITION = Edition(number=3, day=date(2027, 1, 8))
LANGUAGE = "en-NZ"


def line(*parts: str | p.Inline) -> p.Line:
    return tuple(Text(part) if isinstance(part, str) else part for part in parts)


def para(*lines: str | p.Line, role: str = "") -> p.Paragraph:
    return p.Paragraph(tuple(line(one) if isinstance(one, str) else one for one in lines), role)  # type: ignore[arg-type]


def message(id_: str, signal: Signal, hazard: str, consequence: str, avoid: str, sign: str | None) -> SafetyMessage:
    return SafetyMessage(
        id=id_,
        signal=signal,
        hazard=Given(hazard, HERE),
        consequence=Given(consequence, HERE),
        avoid=Given(avoid, HERE),
        sign=sign,
        source=HERE,
    )


GAS = message(
    "gas-ignition",
    "WARNING",
    "Gas that has gathered unlit flares up at the next spark.",
    "Burns to face and hands, or an explosion.",
    "Keep your face back while you light. Turn off and wait between tries. Smell gas: light nothing.",
    "W021",
)
SCALD = message(
    "scald",
    "CAUTION",
    "Water from the heater is hot enough to scald.",
    "Burned skin.",
    "Run cold water first, then mix. Test with your hand before a child washes.",
    "W017",
)
JACK = message(
    "crush-under-van",
    "DANGER",
    "A van on a jack can fall at any moment.",
    "It kills whoever is under it.",
    "Never put any part of your body under the van. Keep it hitched, braked and chocked.",
    "W019",
)
FROST = message(
    "frost-damage",
    "NOTICE",
    "Water left in pipes and tanks expands when it freezes.",
    "It splits them. The leak shows only when you fill the van again.",
    "Drain all of it before frost. Leave taps and drains open.",
    None,
)
# A sign the template does not draw.
ODD = message("odd", "WARNING", "A sign without a picture.", "The words still stand.", "Read them.", "W999")

_PLACES: tuple[tuple[str, str, str, float, float], ...] = (
    ("A0", "Coupling", "outside", 0, 0),
    ("A1", "Front gas locker", "outside", 1.75, 0),
    ("B1", "Water heater flue", "outside", 3.1, -1.11),
    ("B2", "Mains inlet", "outside", 4.9, -1.11),
    ("B3", "Fridge vents", "outside", 5.5, -1.11),
    ("C1", "Toilet service door", "outside", 6.1, -0.9),
    ("C2", "Rear left steady", "outside", 6.25, 0.9),
    ("D1", "Fresh water inlet", "outside", 5.2, 1.11),
    ("D2", "Waste outlet", "outside", 4.6, 1.11),
    ("D3", "Entrance door", "outside", 3.6, 1.11),
    ("D4", "Front locker door", "outside", 2.2, 1.11),
    ("H1", "Control panel by the door", "inside", 3.5, 0.95),
    ("H2", "Kitchen", "inside", 4.6, 0.8),
    ("H3", "Wardrobe", "inside", 4.6, -0.8),
    ("H4", "Room heater", "inside", 3.9, -0.9),
    ("H5", "Washroom", "inside", 6.0, -0.5),
    ("H6", "Roof light", "inside", 3.7, 0),
)


def drawing(focus: str = "") -> VanDrawing:
    places = tuple(
        DrawnPlace(
            code=code,
            name=name,
            where="inside" if where == "inside" else "outside",
            behind_coupling_m=behind,
            left_m=left,
            path=f"{code}/index.html",
        )
        for code, name, where, behind, left in _PLACES
    )
    return VanDrawing(length_m=4.8, width_m=2.23, overall_m=6.35, axle_m=3.98, axles=1, places=places, focus=focus)


def number(
    id_: str, title: str, shown: str, sentence: str, limit: str, verdict: Verdict | None, **more: object
) -> Number:
    given: dict[str, object] = {
        "value": parse(shown, shown.split(" ", 1)[1]),
        "group": "Masses",
        "inputs": (
            Input(name="Ball load, unladen", shown="66 kg", origin=Origin.MEASURED, where="weighed on this van"),
            Input(name="Greatest ball load", shown="100 kg", origin=Origin.PLATE, where="plate"),
            Input(name="Share of the laden mass", shown="5 to 7 %", origin=Origin.ASSUMPTION, where="guidance"),
        ),
        "method": "Moments about the axle: what is loaded in front of it adds, what is behind it takes away.",
        "source": "balance of moments; definition",
        "rounding": Rounding.DOWN,
    }
    return Number(
        id=id_,
        title=title,
        shown=shown,
        sentence=sentence,
        limit=limit,
        verdict=verdict,
        **{**given, **more},  # type: ignore[arg-type]
    )


BALL = number(
    "ball-load-empty",
    "Load on the towball",
    "66 kg",
    "66 kg on the towball, empty. Limit 100 kg.",
    "100 kg",
    Verdict.WITHIN,
)
PAYLOAD = number(
    "payload", "What you may still load", "168 kg", "168 kg may go in. Limit 1400 kg laden.", "1400 kg", Verdict.CLOSE
)
TYRES = number(
    "tyre-pressure", "Tyre pressure, cold", "3.0 bar", "Both tyres 3.0 bar, cold.", "", None, rounding=Rounding.NEAREST
)
OVER = number("axle", "Load on the axle", "1350 kg", "1350 kg on the axle. Limit 1340 kg.", "1340 kg", Verdict.OVER)
MISSING = Number(
    id="battery-days",
    group="12 V",
    title="Days on the battery",
    value=None,
    shown="Not known: read the capacity on the battery's label.",
    method="Usable energy over a typical day.",
    source="definition of electric energy",
    rounding=Rounding.DOWN,
    missing=("the capacity on the label of the battery",),
)
ROOM = DataTable(
    id="room-left",
    title="Room left in each place",
    head=("Place", "Limit", "Room left", "Towball for each 10 kg"),
    rows=(("A1 Front gas locker", "60 kg", "14 kg", "+5.6 kg"), ("H3 Wardrobe", "30 kg", "30 kg", "\u22121.6 kg")),
    note="The least of the place's own limit, payload and what the ball load allows.",
    group="Masses",
    method="Each place is loaded alone.",
    source="balance of moments",
    chart=BarChart(
        title="Room left in each place",
        bars=(Bar("A1 Front gas locker", 14.0, "14 kg"), Bar("H3 Wardrobe", 30.0, "30 kg")),
        limits=(Bar("Limit", 20.0, "20 kg"),),
        most=25.0,
    ),
)

DATES = DataTable(
    id="dates",
    title="Dates to keep",
    head=("What", "When", "Why"),
    rows=(
        ("Test of the RCD", "31 January 2027, then every 3 months", "Press its test button. From: a guide."),
        ("Gas hose", "15 June 2031, then every 5 years", "Rubber ages even unused. From: a guide."),
        ("Smoke alarm", "By the date on it", "Its sensor wears out. From: a guide."),
    ),
    due=((date(2027, 1, 31), 3), (date(2031, 6, 15), 60), None),
    group="Dates",
    method="The day the van was built, and the time after it.",
    source="each row names its own",
)

PLANNER_PAGES = (
    ("loading", "Plan the load", "table/room-left"),
    ("car", "Match your car to this van", "verdict/ball-load-empty"),
    ("days", "Plan days away", "verdict/battery-days"),
    ("mains", "Plan what runs together", "verdict/payload"),
)
PLANNERS = Planners(
    loading=LoadingPlan(
        max_kg=1400,
        fitted_kg=1232,
        ball_kg=66,
        max_ball_kg=100,
        least_ball_kg=25,
        advised_share=0.05,
        max_axle_kg=1340,
        axles=1,
        places=(
            LoadPlace(key="A1", code="A1", name="Front gas locker", lever=0.56, room_kg=14),
            LoadPlace(key="H3", code="H3", name="Wardrobe", lever=-0.16, room_kg=30),
            LoadPlace(key="H5", code="H5", name="Washroom", lever=-0.5, room_kg=None),
            LoadPlace(key="tank-0", code="", name="Fresh water tank", lever=-0.2, room_kg=40),
        ),
    ),
    car=CarPlan(laden_kg=1400, ball_kg=70, coupling_d_kn=13.5, braked=True, kerb_share=0.85),
    days=DaysPlan(
        gas=GasStock(
            bottle_g=9000,
            bottles=2,
            burners=(
                Burner(name="Room heater", g_per_h=250, hours={"warm": 0, "mild": 1, "cold": 6}, by_habit=False),
                Burner(name="Hob", g_per_h=400, hours={"warm": 1, "mild": 1, "cold": 1}),
            ),
        ),
        battery=BatteryStock(
            usable_wh=570,
            day_wh=240,
            heat_wh=70,
            sun_wh=(*(600.0,) * 3, *(150.0,) * 6, *(600.0,) * 3),
            season_month={"cold": 3, "mild": 6, "warm": 9},
        ),
        water=WaterStock(usable_l=30, person_l=15, berths=4),
        cassette=CassetteStock(usable_l=18, flush_l=0.5, flushes=4, body_l=1.5, berths=4),
        habits={"sparing": 0.6, "usual": 1.0, "generous": 1.5},
    ),
    mains=MainsPlan(
        voltage_v=230,
        supplies_a=(10, 16),
        loads=(
            MainsLoad(name="Room heater", steps_w=(500, 1000, 2000)),
            MainsLoad(name="Water heater", steps_w=(850,)),
        ),
    ),
    missing={},
)

DEALER = p.Group(
    "dealer",
    (
        p.Heading(2, "Your dealer", "dealer"),
        para(
            line(p.TextHole("dealer/name"), ", ", p.DialHole("dealer/phone")),
            line(
                "Tell them: ",
                p.TextHole("van/name"),
                ", chassis ending ",
                p.TextHole("van/tail"),
                ", edition ",
                p.TextHole("edition/number"),
                ".",
            ),
        ),
    ),
)


def link(path: str, title: str, note: str = "", plate: str = "", anchor: str = "") -> p.LinkItem:
    return p.LinkItem(path, anchor, title, note, plate)


def links(*items: p.LinkItem) -> p.Links:
    return p.Links(items)


def page(path: str, title: str, template: str, *body: p.Node, **more: object) -> p.Page:
    given = {"id": path.removesuffix(".html"), "crumbs": (("Start", "index.html"),), "language": LANGUAGE}
    return p.Page(path=path, title=title, template=template, body=(*body, DEALER), **{**given, **more})  # type: ignore[arg-type]


def _place_links(where: str) -> p.Links:
    return links(*(link(f"{code}/index.html", name, plate=code) for code, name, side, _, _ in _PLACES if side == where))


def home() -> p.Page:
    return page(
        "index.html",
        "Start",
        "home",
        p.Group(
            "emergency",
            (
                p.Heading(2, "Emergency", "emergency"),
                para(line(p.Call("111", (Text("Ring 111"),)))),
                links(
                    link("gas-smell.html", "Carbon monoxide alarm"),
                    link("gas-smell.html", "Fire"),
                    link("gas-smell.html", "Electric shock"),
                    link("gas-smell.html", "Gas smell"),
                ),
                links(link("gas-smell.html", "Turn the gas off")),
                links(link("contents.html", "Every emergency", anchor="emergency")),
            ),
        ),
        p.Group("find", (p.Find(),)),
        p.Group(
            "van",
            (
                p.Heading(2, "The van", "van"),
                p.FragmentHole("drawing/van"),
                p.Heading(3, "Outside", "outside"),
                _place_links("outside"),
                p.Heading(3, "Inside", "inside"),
                _place_links("inside"),
            ),
        ),
        p.Group(
            "phases",
            (
                p.Heading(2, "What are you about to do?", "phases"),
                links(
                    link("checklist-arriving.html", "Arriving on a pitch", "5 checks"),
                    link("checklist-leaving.html", "Leaving the pitch", "2 checks"),
                ),
            ),
        ),
        p.Group(
            "wrong",
            (
                p.Heading(2, "Something is not right", "wrong"),
                links(link("lights-and-sounds.html", "Lights and sounds")),
                p.Heading(3, "Hot water", "wrong-hot-water"),
                links(link("hot-water-red-lamp.html", "Water heater: red lamp")),
            ),
        ),
        p.Group(
            "numbers",
            (
                p.Heading(2, "Your numbers", "numbers"),
                p.FragmentHole("verdict/ball-load-empty"),
                p.FragmentHole("verdict/payload"),
                p.FragmentHole("verdict/axle"),
                p.FragmentHole("verdict/tyre-pressure"),
                p.FragmentHole("verdict/battery-days"),
                links(
                    *(link(f"plan-{name}.html", title) for name, title, _ in PLANNER_PAGES),
                    link("numbers.html", "How these numbers were worked out"),
                ),
            ),
        ),
        p.Group(
            "systems",
            (
                p.Heading(2, "All systems", "systems"),
                links(
                    link("contents.html", "Emergency", anchor="emergency"),
                    link("contents.html", "Hot water", anchor="hot-water"),
                ),
            ),
        ),
        p.Group(
            "more",
            (
                links(
                    link("safety.html", "All safety messages"),
                    link("snags.html", "Your notes and snags"),
                    link("what-changed.html", "What changed in this edition"),
                    link("contents.html", "About this manual"),
                    link("site/single", "Keep a copy: the whole manual in one file"),
                    link("site/zip", "Keep a copy: all pages, zipped"),
                ),
            ),
        ),
        id="start",
        crumbs=(),
    )


def panel(*marked: str) -> PanelDrawing:
    """The control of the water heater, with what is marked set or lit; one part of each form."""

    def part(name: str, form: Drawn, *words: str, unit: str = "") -> Part:
        faces = tuple(Face(words=one, marked=one in marked) for one in words)
        return Part(name=name, form=form, faces=faces, unit=unit)

    return PanelDrawing(
        title="Water heater: control",
        rows=(
            (part("Lamp above the dial", "lamp", "green", "flashing red"), part("Display", "display", "FAULT", "HOT")),
            (part("Dial", "dial", "off", "40", "60", unit="°C"), part("Mains switch", "switch", "off", "on")),
            (part("RCD", "breaker", "off (down)", "on (up)"), part("MCBs", "breakers", "off (down)", "on (up)")),
            (part("Arrows", "keys", "warmer", "cooler"), part("Fan button", "button", "press")),
            (part("Flame window", "window", "blue"), part("Flame gauge", "gauge", "in the green field", "out of it")),
            (part("Voltmeter", "meter", "scale in volts"),),
        ),
    )


_HOT_WATER = (("Start", "index.html"), ("Hot water", "contents.html#hot-water"))


def procedure() -> p.Page:
    return page(
        "hot-water.html",
        "Heat the water on gas",
        "topic",
        p.SafetyBox(GAS),
        p.SafetyBox(SCALD),
        para(
            line(p.Strong((Text("At the end:"),)), " hot water at every tap in about half an hour."),
            line(p.Strong((Text("You need:"),)), " water in the heater, the gas open."),
        ),
        p.Steps(
            (
                p.Step((), (line("Open a hot tap until water runs without spluttering."),)),
                p.Step(
                    (),
                    (
                        line("Take the cover off the flue at ", p.PlaceRef("B1", "Water heater flue"), "."),
                        line("You see: the bare grille."),
                    ),
                ),
                p.Step((), (line("Open the gas: ", p.Ref("A1/index.html", "", (Text("front gas locker"),)), "."),)),
                p.Step(
                    (SCALD,),
                    (
                        line("Turn the dial at ", p.PlaceRef("H1", "Control panel by the door"), " to 60."),
                        line("You hear: a click, then the burner."),
                        line(
                            "Red lamp: ", p.Ref("hot-water-red-lamp.html", "", (Text("Water heater: red lamp"),)), "."
                        ),
                    ),
                    (p.FragmentHole("drawing/hot_water.on_gas"),),
                ),
                p.Step((), (line("Wait. A bottle lasts ", p.TextHole("number/gas-days-typical"), "."),)),
            )
        ),
        para(
            line(
                p.Strong((Text("Put it back:"),)), " turn the dial to off. Leave the cover off until the flue is cold."
            ),
            role="undo",
        ),
        p.Heading(2, "Two ways", "two-ways"),
        p.Bullets(
            (
                (line("On gas: away from the mains. ", p.Emphasis((Text("Quiet, but it eats the bottle."),))),),
                (
                    line("On mains: see ", p.Ref("hot-water.html", "two-ways", (Text("this list"),)), "."),
                    line("It takes longer."),
                ),
            )
        ),
        p.Table(
            (line("Setting"), line("Water")),
            ((line("30"), line("for washing up")), (line("70"), line("for a shower, mixed"))),
        ),
        p.FragmentHole("table/room-left"),
        p.Group(
            "related",
            (
                p.Heading(2, "Read next", "related"),
                links(
                    link("hot-water-red-lamp.html", "Water heater: red lamp"),
                    link("checklist-arriving.html", "Arriving on a pitch", "5 checks"),
                ),
            ),
        ),
        section="Hot water",
        crumbs=_HOT_WATER,
        plate="H1",
        topics=("hot-water/run-on-gas",),
        blocks=("hot-water/gas",),
    )


def fault() -> p.Page:
    return page(
        "hot-water-red-lamp.html",
        "Water heater: red lamp",
        "topic",
        para(
            line(
                p.Strong((Text("You see:"),)),
                " the red lamp by the dial, and no hot water. The heater tried to light and gave up.",
            ),
            role="lead",
        ),
        p.SafetyBox(GAS),
        p.Steps(
            (
                p.Step(
                    (),
                    (
                        line(
                            "Smell gas? Touch no switch. Go to ", p.Ref("gas-smell.html", "", (Text("Gas smell"),)), "."
                        ),
                    ),
                ),
                p.Step((), (line("Turn the dial to off."),)),
                p.Step((), (line("Wait three minutes, or longer where its label says so."),)),
                p.Step(
                    (),
                    (
                        line("Turn the dial on once."),
                        line("Red again: turn it off. ", p.Strong((Text("Stop here."),)), " Do not try again."),
                    ),
                ),
            ),
            role="fault",
        ),
        para("Stop here. Call the dealer.", role="stop"),
        para("Tell them: red lamp again after checking cover, gas and water.", role="note"),
        p.SafetyBox(ODD),
        section="Hot water",
        crumbs=_HOT_WATER,
        plate="H1",
        topics=("hot-water/fails-to-light",),
    )


def emergency() -> p.Page:
    return page(
        "gas-smell.html",
        "Gas smell",
        "emergency",
        p.Steps(
            (
                p.Step((), (line("Get everyone out. Leave the door open."),)),
                p.Step((), (line("Touch no switch. Light nothing."),)),
                p.Step(
                    (),
                    (
                        line(
                            "Shut the bottles at ",
                            p.PlaceRef("A1", "Front gas locker"),
                            ", if you can reach them safely.",
                        ),
                    ),
                ),
                p.Step((), (line("Ring from outside, away from the van."),)),
            )
        ),
        p.Group(
            "call",
            (
                p.Heading(2, "Ring for help", "call"),
                para(line("Fire, ambulance, police: ", p.Call("111", (Text("111"),)))),
            ),
        ),
        p.Group(
            "shut-offs",
            (
                p.Heading(2, "Where things are", "shut-offs"),
                p.Bullets(
                    (
                        (line("Gas bottles: ", p.PlaceRef("A1", "Front gas locker")),),
                        (line("Mains inlet: ", p.PlaceRef("B2", "Mains inlet")),),
                    )
                ),
            ),
        ),
        section="Emergency",
        topics=("emergency/gas-smell",),
    )


def place(code: str, name: str, where: str) -> p.Page:
    limit = (
        p.Group(
            "limit",
            (
                para(
                    line("Load limit here: ", p.TextHole(f"place/{code}/limit"), "."),
                    line("Room left: ", p.TextHole(f"place/{code}/left"), "."),
                ),
            ),
        ),
    )
    return page(
        f"{code}/index.html",
        name,
        "place",
        p.Group(
            "where",
            (
                para("Outside the van." if where == "outside" else "Inside the van."),
                p.FragmentHole(f"drawing/place/{code}"),
            ),
        ),
        *(limit if code == "A1" else ()),
        p.Group("here", (p.Heading(2, "What is here", "here"), p.Bullets(((line("Gas bottles: shut-off"),),)))),
        p.Group("drawn", (p.FragmentHole("drawing/hot_water.control"),)),
        p.Group(
            "do",
            (
                p.Heading(2, "Do here", "do"),
                links(link("hot-water.html", "Heat the water on gas", "Read its WARNING first.")),
            ),
        ),
        p.Group("wrong", (p.Heading(2, "If it goes wrong here", "wrong"), links(link("gas-smell.html", "Gas smell")))),
        p.Group("near", (p.Heading(2, "Next to it", "near"), links(link("B2/index.html", "Mains inlet", plate="B2")))),
        id=code,
        plate=code,
        crumbs=(("Start", "index.html"), ("The van", "index.html#van")),
    )


def checklist(id_: str, title: str, *lines: str) -> p.Page:
    items = tuple(p.Check(f"{id_}-{n}", line(words), "hot-water.html", "") for n, words in enumerate(lines))
    return page(
        f"checklist-{id_}.html",
        title,
        "checklist",
        p.Checks(id_, items),
        p.Group(
            "related",
            (
                p.Heading(2, "Read next", "related"),
                links(link("checklist-leaving.html", "Leaving the pitch", "2 checks")),
            ),
        ),
        crumbs=(("Start", "index.html"), ("Checklists", "index.html#phases")),
    )


def reference_pages() -> tuple[p.Page, ...]:
    drawn = p.Group(
        "drawn",
        (
            p.Heading(2, "How they look", "drawn"),
            para(line(p.PlaceRef("H1", "Control panel by the door"))),
            p.FragmentHole("drawing/hot_water.control"),
        ),
    )
    lamps = p.Table(
        (line("Where"), line("What it is"), line("Colour"), line("What it tells you")),
        (
            (
                line(p.PlaceRef("H1", "Control panel by the door")),
                line("Lamp beside the dial"),
                line("red"),
                line(
                    "It tried to light and gave up. ",
                    p.Ref("hot-water-red-lamp.html", "", (Text("Water heater: red lamp"),)),
                ),
            ),
            (
                line(p.PlaceRef("H1", "Control panel by the door")),
                line("Lamp under the fridge knob"),
                line("green"),
                line("The flame burns."),
            ),
        ),
    )
    meanings = p.Table(
        (line("Word"), line("What it means")),
        ((line(p.Strong((Text("DANGER"),))), line("Somebody will be killed or badly hurt if you do not heed it.")),),
    )
    return (
        page(
            "contents.html",
            "All systems",
            "list",
            p.Heading(2, "Emergency", "emergency"),
            links(link("gas-smell.html", "Gas smell")),
            p.Heading(2, "Hot water", "hot-water"),
            links(
                link("hot-water.html", "Heat the water on gas"),
                link("hot-water-red-lamp.html", "Water heater: red lamp"),
            ),
        ),
        page("lights-and-sounds.html", "Lights and sounds", "lights", p.Heading(2, "Lamps", "lamps"), lamps, drawn),
        page(
            "numbers.html",
            "Your numbers: how they were worked out",
            "numbers",
            para("Each row leads to what the number was made from.", role="lead"),
            p.Heading(2, "Masses", "masses"),
            p.FragmentHole("summary/masses"),
            p.Heading(2, "12 V", "12-v"),
            p.FragmentHole("summary/12-v"),
            p.Heading(2, "Dates", "dates"),
            p.FragmentHole("summary/dates"),
        ),
        *(
            page(
                f"numbers-{group}.html",
                f"{title}: how it was worked out",
                "numbers",
                p.FragmentHole(f"working/{group}"),
            )
            for group, title in (("masses", "Masses"), ("12-v", "12 V"), ("dates", "Dates"))
        ),
        page(
            "safety.html",
            "All safety messages",
            "safety",
            p.Heading(2, "What the words mean", "signal-words"),
            meanings,
            p.Heading(2, "Hot water", "hot-water"),
            *(p.SafetyBox(one) for one in (JACK, GAS, ODD, SCALD, FROST)),
        ),
        *(
            page(
                f"plan-{name}.html",
                title,
                "planner",
                p.Group(f"plan-{name}", (p.Heading(2, "As this van stands", "as-it-stands"), p.FragmentHole(hole))),
            )
            for name, title, hole in PLANNER_PAGES
        ),
        page(
            "snags.html",
            "Notes and snags",
            "notes",
            para("Write down what fails, and where. Then send the list to your dealer.", role="lead"),
            p.Group(
                "snags",
                (p.Heading(2, "Places of this van", "places"), _place_links("outside"), _place_links("inside")),
            ),
        ),
        page("what-changed.html", "What changed", "list", p.FragmentHole("edition/changes")),
        page("aerial.html", "This page was taken out", "gone", para("It left with the aerial in edition 2.")),
    )


VALUES: dict[str, HoleValue] = {
    "van/name": "Marram 480",
    "van/tail": "000417",
    "dealer/name": "Quayside Caravans",
    "dealer/phone": "03 555 0142",
    "number/gas-days-typical": "11 days",
    "verdict/ball-load-empty": BALL,
    "verdict/payload": PAYLOAD,
    "verdict/axle": OVER,
    "verdict/tyre-pressure": TYRES,
    "verdict/battery-days": MISSING,
    "table/room-left": ROOM,
    "draft/notice": Notice(text="Draft: not yet checked by the dealer."),
    "working/masses": Working(numbers=(BALL, PAYLOAD), tables=(ROOM,)),
    "working/12-v": Working(numbers=(MISSING,)),
    "summary/masses": Summary(path="numbers-masses.html", numbers=(BALL, PAYLOAD), tables=(ROOM,)),
    "working/dates": Working(numbers=(), tables=(DATES,)),
    "summary/dates": Summary(path="numbers-dates.html", numbers=(), tables=(DATES,)),
    "summary/12-v": Summary(path="numbers-12-v.html", numbers=(MISSING,)),
    "place/A1/limit": "60 kg",
    "place/A1/left": "14 kg",
    "drawing/van": drawing(),
    "drawing/hot_water.control": panel(),
    "drawing/hot_water.on_gas": panel("60", "green"),
    **{f"drawing/place/{code}": drawing(code) for code, *_ in _PLACES},
}


# What the records hold of the edition before, as far as it differs.
BEFORE = PublishedVan(
    chassis="ZZ9MR48NZTH000417",
    folder=FOLDER,
    edition=1,
    day=date(2026, 3, 2),
    digest="",
    pages=(),
    places={},
    record={
        "numbers": {"gas-days-typical": "12 days"},
        "places": {"B4": "Bike locker", **{code: name for code, name, *_ in _PLACES if code != "C2"}},
    },
)

UNREVIEWED = SafetyBlock(
    id="hot-water/gas",
    file="content/blocks/hot-water/gas.md",
    title="Heat the water on gas",
    why=("hazards gas-ignition",),
    sentences=(),
    digest="1" * 64,
    review=None,
)


def search() -> tuple[SearchEntry, ...]:
    return (
        SearchEntry(
            path="hot-water-red-lamp.html",
            anchor="",
            title="Water heater: red lamp",
            section="Hot water",
            plate="H1",
            words=("red light", "won't light", "lockout", "clicking", "igniter"),
            answer="Smell gas? Touch no switch.",
            text="turn the dial to off wait three minutes",
        ),
        SearchEntry(
            path="hot-water.html",
            anchor="",
            title="Heat the water on gas",
            section="Hot water",
            plate="H1",
            words=("boiler", "shower", "warm water"),
            answer="Open a hot tap until water runs without spluttering.",
            text="open the gas turn the dial flue cover",
        ),
        SearchEntry(
            path="gas-smell.html",
            anchor="",
            title="Gas smell",
            section="Emergency",
            words=("leak", "hissing"),
            answer="Get everyone out.",
            text="shut the bottles",
        ),
        SearchEntry(
            path="checklist-arriving.html",
            anchor="",
            title="Arriving on a pitch",
            section="",
            words=("checklist",),
            answer="Level the van.",
        ),
        SearchEntry(
            path="lights-and-sounds.html",
            anchor="",
            title="Lights and sounds",
            section="",
            words=("lamp", "beep"),
            answer="",
        ),
        *(
            SearchEntry(
                path=f"{code}/index.html",
                anchor="",
                title=name,
                section=where.capitalize(),
                plate=code,
                words=(code,),
                answer=name,
            )
            for code, name, where, _, _ in _PLACES
        ),
    )


def fixture_manual(**changes: object) -> Manual:
    """Return the manual; ``changes`` replace fields."""
    pages = (
        home(),
        *reference_pages()[:1],
        emergency(),
        procedure(),
        fault(),
        *(place(code, name, where) for code, name, where, _, _ in _PLACES),
        checklist(
            "arriving",
            "Arriving on a pitch",
            "Level the van",
            "Wind down the steadies",
            "Connect the mains and test the RCD",
            "Open the gas",
            "Take the cover off the flue",
        ),
        checklist("leaving", "Leaving the pitch", "Shut the gas", "Wind up the steadies"),
        *reference_pages()[1:],
    )
    given: dict[str, object] = {
        "chassis": "ZZ9MR48NZTH000417",
        "tail": "000417",
        "model": "Marram 480",
        "market": "nz",
        "language": LANGUAGE,
        "dealer": "quayside",
        "pages": pages,
        "values": VALUES,
        "search": search(),
        "synonyms": (("fridge", "refrigerator"), ("lamp", "light", "led"), ("won't light", "does not ignite")),
        "labels": (LabelText(code="A1", name="Front gas locker", path="A1/"),),
        "walkround": (),
        "traits": ("gas", "hot-water"),
        "choices": (),
        "blocks": {"hot-water/gas": "0" * 64},
        "safety": (UNREVIEWED,),
        "planners": PLANNERS,
    }
    return Manual(**{**given, **changes})  # type: ignore[arg-type]
