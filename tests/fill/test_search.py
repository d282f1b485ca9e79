"""The search index: a classic script, no values, words cut as the page script cuts them."""

import json
from typing import Any

from generator.fill.search import search_script, tokens
from generator.model.manual import SearchEntry
from tests.fixture_manual import fixture_manual


def index(*entries: SearchEntry) -> dict[str, Any]:
    text = search_script(fixture_manual(search=entries)).decode()
    assert text.startswith("self.lockerleaf=") and text.endswith(";\n")
    read: dict[str, Any] = json.loads(text.removeprefix("self.lockerleaf=").removesuffix(";\n"))
    return read


def entry(**more: object) -> SearchEntry:
    given: dict[str, object] = {"path": "a.html", "anchor": "", "title": "Title", "section": "Section"}
    return SearchEntry(**{**given, **more})  # type: ignore[arg-type]


def test_words_are_folded() -> None:
    assert tokens(["Café's WON’T don't 12 V"]) == ["cafes", "wont", "dont", "12", "v"]


def test_running_text_is_kept_once_and_without_what_stands_elsewhere() -> None:
    made = index(
        entry(
            words=("Red Lamp", "Won’t light"),
            answer="Turn it off.",
            text="The lamp is red. Turn the title dial, the dial.",
        )
    )
    assert made["entries"] == [["a.html", "", "Title", "Section", "", "red lamp,wont light", "Turn it off."]]
    assert (made["words"], made["where"]) == ("dial", "#")


def test_running_text_names_its_entries_by_the_steps_between_them() -> None:
    texts = ("pump dial", "dial", "", "dial valve pump")
    made = index(*(entry(title=f"T{number}", text=text) for number, text in enumerate(texts)))
    assert made["words"].split(" ") == ["dial", "pump", "valve"]
    assert made["where"].split(" ") == ["#$%", "#&", "&"]


def test_hostile_words_stay_inside_the_script() -> None:
    [made] = index(entry(title='</script>";alert(1)//'))["entries"]
    assert made[2] == '</script>";alert(1)//'


def test_the_page_of_lights_is_named() -> None:
    assert index()["lights"] == "lights-and-sounds.html"
