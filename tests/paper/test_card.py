"""The card is one A6 side, whatever is on it."""

from dataclasses import replace

import pypdfium2
import pytest

from generator.model.handover import KeyFacts
from generator.paper.card import card_document
from generator.paper.typeset import TypesetError, typeset
from tests.paper.printed import ADDRESS, VANS, manual_of, pages, squeezed, strays, whole_of


@pytest.mark.parametrize("van", VANS)
def test_one_side_with_every_fact(van: str) -> None:
    manual = manual_of(van)
    pdf = typeset("card.typ", card_document(manual, ADDRESS, whole_of(manual)))
    (side,) = pages(pdf)
    assert [round(mm / 72 * 25.4) for mm in pypdfium2.PdfDocument(pdf)[0].get_size()] == [105, 148]
    assert manual.card is not None
    wanted = [
        *(text for pair in (*manual.card.facts, *manual.card.emergency) for text in pair),
        *(f"{one.code} {one.name}, {one.part}" for one in manual.card.shut_offs),
        str(manual.values["dealer/phone"]),
        manual.tail,
    ]
    assert [text for text in wanted if squeezed(text) not in squeezed(side)] == []
    assert list(strays(pdf, 5)) == [] and manual.chassis not in side


def test_masses_ball_load_tyres_torque_size_and_shut_offs_are_there() -> None:
    card = manual_of("marram-0417").card
    assert card is not None
    facts = dict(card.facts)
    # As on the build sheet of the model, van_specs/models/marram-480.yaml.
    assert facts["Heaviest the van may be"] == "1400 kg" and facts["Heaviest on the wheels"] == "1340 kg"
    assert facts["Tyre pressure, cold"] == "3.0 bar (44 psi)" and facts["Wheel nuts"] == "88 N·m"
    assert (facts["Length"], facts["Width"], facts["Height"]) == ("6.35 m", "2.23 m", "2.58 m")
    assert {one.what for one in card.shut_offs} == {"Gas", "Mains", "12 V", "Water"}


@pytest.mark.parametrize("van", VANS)
def test_height_stands_below_length_and_width(van: str) -> None:
    manual = manual_of(van)
    titles = [title for title, _ in card_document(manual, ADDRESS, whole_of(manual))["facts"]]  # type: ignore[attr-defined]
    first = titles.index("Length")
    assert titles[first : first + 3] == ["Length", "Width", "Height"]
    assert manual.card is not None and sorted(titles) == sorted(title for title, _ in manual.card.facts)


def test_more_than_fits_is_set_smaller_and_then_refused() -> None:
    manual = manual_of("sorrel-0032")

    def made(lines: int) -> bytes:
        facts = KeyFacts(facts=tuple((f"Fact {n}", "value " * 6) for n in range(lines)), shut_offs=(), emergency=())
        full = replace(manual, card=facts)
        return typeset("card.typ", card_document(full, ADDRESS, whole_of(full)))

    assert len(pages(made(18))) == 1
    with pytest.raises(TypesetError, match="do not fit on one side"):
        made(80)
