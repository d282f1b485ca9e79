"""Intervals of the shipped markets against the rules they are taken from, as dates of a van."""

from datetime import date
from pathlib import Path

import pytest

from generator.compute.dates import due_dates
from generator.load import load
from generator.model.content import Workspace

from ..compute.vans import van

ROOT = Path(__file__).parents[2]
BUILT, HANDED = date(2026, 6, 15), date(2026, 11, 20)


@pytest.fixture(scope="module")
def shipped() -> Workspace:
    return load(ROOT, None)


@pytest.mark.parametrize(
    ("market", "id", "trait", "due"),
    [
        # Electricity (Safety) Regulations 2010, regulation 78(4)(b): four years from its issue (seen)
        ("nz", "woef", "mains", date(2030, 6, 15)),
        # BS 7671, notice for caravans: at least every three years (seen)
        ("uk", "mains-inspection", "mains", date(2029, 6, 15)),
        ("uk", "gas-hose", "gas", date(2031, 6, 15)),  # five years from its making, UK trade guidance (seen)
        ("uk", "gas-regulator", "gas", date(2036, 6, 15)),  # ten years, UK trade guidance (seen)
    ],
)
def test_when_it_comes_due(shipped: Workspace, market: str, id: str, trait: str, due: date) -> None:
    def dates(*traits: str) -> dict[str, date | None]:
        found = due_dates(van(on=shipped.markets[market], built=BUILT, handed_over=HANDED, traits=traits))
        return {each.id: each.day for each in found}

    assert dates(trait)[id] == due
    assert id not in dates()


@pytest.mark.parametrize("market", ["uk", "nz", "au", "eu"])
def test_no_date_speaks_of_what_a_van_has_not(shipped: Workspace, market: str) -> None:
    """Words tied to a trait (content/terms.yaml) stand only in rules for vans with that trait."""
    for rule in shipped.markets[market].dates:
        when = {trait.value for trait in rule.when}
        text = f" {rule.title.value} {rule.why} {rule.source} ".lower()
        for group in shipped.content.terms.tied:
            said = [word for word in group.words if f" {word} " in text.replace(".", " ").replace(",", " ")]
            assert not said or group.trait.value in when, f"{market} {rule.id}: {said}"


@pytest.mark.parametrize("market", ["uk", "nz", "au", "eu"])
def test_every_date_says_where_it_is_from(shipped: Workspace, market: str) -> None:
    for rule in shipped.markets[market].dates:
        assert rule.source and rule.read_on and rule.why.endswith("."), rule.id
        assert "no source" not in rule.source or rule.read_on == "from memory", rule.id


@pytest.mark.parametrize(("market", "source"), [("au", "Western Australia"), ("nz", "common practice")])
def test_the_advice_of_a_country_is_named_there_alone(market: str, source: str, shipped: Workspace) -> None:
    """Testing an RCD every three months: read in Western Australia, elsewhere common practice without a source."""
    kind = shipped.catalogue.kinds["consumer_unit", "rcd-and-mcbs"]
    ruled = {rule.id: rule for rule in (*kind.dates, *shipped.markets[market].dates)}
    assert source in ruled["rcd-test"].source
