"""What is declared: exactly the ids writers may call, under their traits, in words that fit every van."""

from pathlib import Path

import yaml

from generator.compute import ASSUMPTIONS, DECLARED, DRAWING_IDS, NUMBER_IDS, TABLE_IDS, compute
from generator.model.numbers import DataTable, Number

from .vans import Fit, place, van

CONTENT = Path(__file__).parents[2] / "content"
EVERY_VAN: tuple[str, ...] = ()
NUMBERS = {
    EVERY_VAN: "max-laden max-ball-load payload ball-load-empty ball-load-target"
    " ball-load-laden axle-load-laden ball-load-floor"
    " tyre-pressure wheel-nut-torque overall-length body-width overall-height"
    " tow-car-heaviest d-value-needed tyre-load tyre-speed",
    ("unbraked",): "unbraked-limit",
    ("liquids",): "ball-load-most axle-load-most",
    ("water-tank",): "payload-with-water",
    ("payload-advice",): "payload-advice",
    ("gas",): "gas-per-bottle gas-bottle-mass gas-demand gas-days-typical gas-days-all gas-stops-at vents-needed",
    ("battery",): "battery-usable daily-12v battery-days",
    ("battery", "mains-charger"): "recharge-mains",
    ("battery", "dcdc"): "recharge-car",
    ("mover", "battery"): "mover-minutes",
    ("solar",): "solar-panel solar-day",
    ("solar", "battery"): "battery-days-sun recharge-sun",
    ("water",): "water-usable water-days sanitising-dose drain-litres",
    ("water", "waste"): "waste-per-fill",
    ("water", "hot-water-tank"): "sanitising-dose-heater",
    ("hot-water-tank",): "shower-water second-shower",
    ("hot-water-tank", "hot-water-gas", "hot-water-mains"): "heat-up-both",
    ("room-heat-gas",): "heat-holds-gas",
    ("room-heat-mains",): "heat-holds-mains",
    ("room-heat-diesel",): "heat-holds-diesel",
    ("hot-water-tank", "hot-water-gas"): "heat-up-gas",
    ("hot-water-tank", "hot-water-mains"): "heat-up-mains",
    ("toilet-cassette",): "cassette-volume cassette-days",
    ("toilet-own-flush",): "flush-tank-volume flushes",
    ("waste",): "waste-volume",
    ("mains",): "mains-voltage lead-drop",
}
TABLES = {
    EVERY_VAN: "room-left ball-load-change payload-use ball-load-states car-must-allow levelling dates",
    ("liquids",): "liquids",
    ("gas",): "gas-hours gas-day gas-day-appliances gas-cold",
    ("battery",): "daily-12v-loads volt-drop",
    ("battery-lead-acid",): "rest-volts",
    ("solar", "battery"): "solar-months",
    ("mains",): "mains-loads mains-combinations mains-trips",
    ("electrics",): "circuits",
}


def test_the_ids_and_their_traits_are_those_writers_were_promised() -> None:
    for promised, made in ((NUMBERS, NUMBER_IDS), (TABLES, TABLE_IDS)):
        by_id = {id: traits for traits, ids in promised.items() for id in ids.split()}
        assert made == set(by_id)
        assert {id: DECLARED[id].all_of for id in by_id} == by_id
    excluding = {id: DECLARED[id].none_of for id in NUMBER_IDS | TABLE_IDS if DECLARED[id].none_of}
    assert excluding == {"gas-days-all": ("one-bottle",)}
    assert list(DRAWING_IDS) == ["van"]


def test_electrics_is_the_trait_of_a_van_with_a_battery_or_mains() -> None:
    assert yaml.safe_load((CONTENT / "traits.yaml").read_text())["electrics"] == {"any": ["battery", "mains"]}


def test_what_a_number_uses_is_made_in_every_van_that_has_it() -> None:
    for each in DECLARED.values():
        for used in each.uses:
            assert set(DECLARED[used].all_of) <= set(each.all_of), f"{each.id} uses {used}"
            assert not DECLARED[used].none_of


def test_every_need_without_a_star_is_a_plate_field_or_of_a_slot_whose_trait_the_number_asks_for() -> None:
    slots = yaml.safe_load((CONTENT / "equipment" / "slots.yaml").read_text())
    always = {slot for slot, said in slots.items() if said.get("required")}
    brings = {
        "water": {"water_supply"},
        "water-tank": {"water_supply"},
        "toilet-cassette": {"toilet"},
        "toilet-own-flush": {"toilet"},
        "hot-water-tank": {"hot_water"},
        "hot-water-gas": {"gas"},
        "mains": {"mains_inlet"},
        "mains-charger": {"charger"},
        "room-heat-gas": {"room_heater", "gas"},
        "room-heat-mains": {"room_heater"},
        "room-heat-diesel": {"room_heater"},
    }
    for each in DECLARED.values():
        for need in each.needs:
            head = need.partition(".")[0]
            if "*" in need or head in ("masses", "body", "wheels", "berths", "axles", "market", "van"):
                continue
            assert head in slots, f"{each.id} needs {need}"
            given = always.union(
                (trait.replace("-", "_") for trait in each.all_of), *(brings.get(trait, ()) for trait in each.all_of)
            )
            assert head in given, f"{each.id} needs {need} under {each.all_of}"


def test_every_assumption_is_used_and_every_one_used_exists() -> None:
    used = {id for each in DECLARED.values() for id in each.assumes}
    assert used <= set(ASSUMPTIONS)
    assert set(ASSUMPTIONS) == used


def test_each_says_method_and_source() -> None:
    for each in DECLARED.values():
        assert each.method.endswith((".", "rounded up.", "left out.")), each.id
        assert each.source and each.title and each.group, each.id


def texts(found: Number | DataTable) -> str:
    if isinstance(found, Number):
        parts = [found.title, found.group, found.shown, found.sentence, found.method, found.source]
    else:
        parts = [found.title, found.group, *found.head, *(cell for row in found.rows for cell in row)]
        parts += [found.note, found.method, found.source]
    return " ".join([*parts, *(f"{each.name} {each.shown} {each.where}" for each in found.inputs)]).lower()


def test_a_van_with_next_to_nothing_is_told_of_nothing_it_has_not() -> None:
    """Words tied to a trait (content/terms.yaml) stand in no text of a van without it."""
    places = (place("D1", "3 m", "20 kg"), place("H1", "5 m"))
    found = compute(
        van(
            Fit(slot="battery", parameters={"capacity": "40 Ah", "voltage": "12 V", "usable_share": "50 percent"}),
            places=places,
            traits=("electrics",),
        )
    )
    tied = yaml.safe_load((CONTENT / "terms.yaml").read_text())["tied"]
    every = " ".join(
        texts(each) for each in (*found.numbers.values(), *found.tables.values(), *found.place_limits.values())
    )
    said = {word for group in tied for word in group["words"] if f" {word}" in every}
    assert said == set()
    assert len(found.numbers) > 11 and len(found.tables) > 3


def test_no_input_is_told_by_its_path() -> None:
    """A unit or a source of the market is read too, and is no input for a reader."""
    found = compute(van(places=(place("D1", "3 m", "20 kg"),)))
    names = {each.name for one in (*found.numbers.values(), *found.tables.values()) for each in one.inputs}
    assert "Maximum laden mass" in names
    assert not any("." in name or "_" in name for name in names)
