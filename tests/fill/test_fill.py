"""The finished files together: names, digest, record, zip, manifest, worker, single-file copy."""

import base64
import dataclasses
import hashlib
import io
import itertools
import json
import re
import zipfile
from typing import Any

import pytest
from bs4 import BeautifulSoup

from generator.errors import RenderError
from generator.fill import fill
from generator.fill.stage import draw
from generator.model.holes import Notice
from generator.model.reviews import Review
from tests.fill.test_packs import held
from tests.finished import finished, finished_fixture, rendered_fixture
from tests.fixture_manual import (
    EDITION,
    FOLDER,
    NEXT_EDITION,
    UNREVIEWED,
    VALUES,
    fault,
    fixture_manual,
    home,
    page,
    para,
)

SINGLE, ZIP = "marram-480-000417.html", "marram-480-000417.zip"
FILES = finished_fixture().files
PACKS = {path for path in FILES if path.endswith(".bin")}


def test_every_page_is_at_its_path() -> None:
    manual = fixture_manual()
    assert {page.path for page in manual.pages} < set(FILES)
    others = {SINGLE, ZIP, "404.html", "not-yet.html", "sw.js", "app.webmanifest", "edition.json"}
    assets = {path for path in FILES if path.startswith("assets/")}
    assert set(FILES) == {page.path for page in manual.pages} | others | assets


def test_assets_are_named_after_their_content() -> None:
    for path in (path for path in FILES if path.startswith("assets/")):
        assert re.fullmatch(r"assets/[a-z0-9-]+\.[0-9a-f]{10}\.(?:css|js|png|svg|bin)", path)
        assert path.split(".")[1] == hashlib.sha256(FILES[path]).hexdigest()[:10]


def test_the_same_manual_gives_the_same_bytes() -> None:
    again = fill(fixture_manual(), rendered_fixture(), EDITION, FOLDER)
    assert dict(again.files) == dict(FILES) and again.digest == finished_fixture().digest


def test_the_digest_leaves_edition_and_date_out() -> None:
    one, two = finished_fixture(EDITION), finished_fixture(NEXT_EDITION)
    assert one.digest == two.digest
    assert "Edition 3, 8 January 2027" in two.files["index.html"].decode()


@pytest.mark.parametrize(
    "changes",
    [
        {"values": {**VALUES, "van/name": "Other"}},
        {"model": "Other"},
        {"search": ()},
        {"pages": (*fixture_manual().pages, page("new.html", "New", "topic", para("New.")))},
        {"tail": "000418"},
    ],
)
def test_the_digest_tells_every_other_difference(changes: dict[str, object]) -> None:
    assert finished(fixture_manual(**changes)).digest != finished_fixture().digest


def test_the_folder_changes_no_digest_but_the_page_that_names_it() -> None:
    other = fill(fixture_manual(), rendered_fixture(), EDITION, "AAAAAAAAAA")
    differ = {path for path in FILES if other.files.get(path) != FILES[path]}
    assert differ - PACKS == {"404.html", "not-yet.html", "sw.js", ZIP}
    assert len(differ & PACKS) == 1  # the pack those two pages are in


def test_a_page_that_was_not_rendered_is_a_fault() -> None:
    manual = fixture_manual(pages=(*fixture_manual().pages, page("new.html", "New", "topic", para("New."))))
    with pytest.raises(RenderError, match=r"new\.html: the page was not rendered"):
        fill(manual, rendered_fixture(), EDITION, FOLDER)


def test_a_dead_link_stops_the_manual() -> None:
    """Without its page of faults every link to it is dead, and each is told."""
    pages = tuple(one for one in fixture_manual().pages if one.path != fault().path)
    with pytest.raises(RenderError, match=r'"hot-water-red-lamp\.html" leads nowhere'):
        finished(fixture_manual(pages=pages))


def test_the_record_names_no_more_of_the_chassis_than_its_tail() -> None:
    chassis = fixture_manual().chassis
    for path, content in FILES.items():
        assert chassis.encode() not in content, path
    record = json.loads(FILES["edition.json"])
    assert record == json.loads(json.dumps(finished_fixture().record))
    assert record["edition"] == 2 and record["day"] == "2026-11-20" and record["tail"] == "000417"
    assert record["places"]["A1"] == "Front gas locker" and record["numbers"] == {"gas-days-typical": "11 days"}
    assert record["single"] in FILES and record["zip"] in FILES
    assert {one["path"] for one in record["pages"]} < set(FILES)
    assert record["blocks"] == {"hot-water/gas": "0" * 64}


def test_the_zip_holds_every_other_file_in_one_folder_but_the_packs() -> None:
    packed = zipfile.ZipFile(io.BytesIO(FILES[ZIP]))
    held = {info.filename.removeprefix("marram-480-000417/"): packed.read(info) for info in packed.infolist()}
    assert held == {path: content for path, content in FILES.items() if path not in {ZIP, *PACKS}}
    assert all(info.filename.startswith("marram-480-000417/") for info in packed.infolist())
    assert {info.date_time for info in packed.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_the_manifest_makes_each_van_an_app_of_its_own() -> None:
    app = json.loads(FILES["app.webmanifest"])
    assert "id" not in app  # it would be read from the root of the host, and all vans would be one app
    assert (app["start_url"], app["scope"], app["display"]) == ("./", "./", "standalone")
    assert [icon["sizes"] for icon in app["icons"]] == ["192x192", "512x512"]
    for icon in app["icons"]:
        content = FILES[icon["src"]]
        assert content.startswith(b"\x89PNG\r\n\x1a\n")
        width, height = int.from_bytes(content[16:20], "big"), int.from_bytes(content[20:24], "big")
        assert icon["sizes"] == f"{width}x{height}"


def worker_list() -> dict[str, list[Any]]:
    found = re.search(r"const FILES = (\[.*?\]);", FILES["sw.js"].decode())
    assert found is not None
    return {path: more for path, *more in json.loads(found[1])}


def test_the_worker_keeps_every_page_and_asset_by_its_hash() -> None:
    listed = worker_list()
    assert set(listed) == set(FILES) - {SINGLE, ZIP, "sw.js", "edition.json"} - PACKS
    for path, (digest, *_) in listed.items():
        assert digest == base64.b64encode(hashlib.sha256(FILES[path]).digest()).decode()[:16]


def test_the_first_visit_takes_shell_start_page_and_emergencies() -> None:
    first = {path for path, (_, later, *_) in worker_list().items() if later == 0}
    assert {"index.html", "gas-smell.html", "404.html", "not-yet.html", "app.webmanifest"} < first
    scripts = {path.split(".")[0] for path in first if path.startswith("assets/")}
    assert {"assets/style", "assets/van", "assets/search"} < scripts
    assert not scripts & {"assets/plan", "assets/planners"}
    assert "hot-water.html" not in first


def test_every_page_is_in_the_pack_the_worker_names() -> None:
    found = re.search(r"const PACKS = (\[.*?\]);", FILES["sw.js"].decode())
    assert found is not None
    paths = json.loads(found[1])
    assert set(paths) == PACKS
    packs = enumerate(paths)
    held_in = {(path, number): text for number, name in packs for path, text in held(FILES[name]).items()}
    assert held_in == {
        (path, more[2]): FILES[path].decode() for path, more in worker_list().items() if path.endswith(".html")
    }
    assert all((number == 0) == (worker_list()[path][1] == 0) for path, number in held_in)


def test_the_worker_is_of_this_van_and_changes_with_any_file() -> None:
    one, two = FILES["sw.js"].decode(), finished_fixture(NEXT_EDITION).files["sw.js"].decode()
    assert f'const PREFIX = "lockerleaf-{FOLDER}-";' in one
    version = re.compile(r'const VERSION = "([0-9a-f]{16})"')
    assert version.findall(one) != version.findall(two)
    assert "@@" not in one


def policy_allows(html: str, tag: str) -> bool:
    """Return whether the page's policy names the hash of its inline text (CSP Level 3, hash sources)."""
    made = BeautifulSoup(html, "html.parser")
    policy = made.find("meta", attrs={"http-equiv": "Content-Security-Policy"})
    inline = made.find(tag)
    assert policy is not None and inline is not None
    digest = base64.b64encode(hashlib.sha256(inline.get_text().encode()).digest()).decode()
    return f"'sha256-{digest}'" in str(policy["content"])


def test_pages_that_stand_alone_allow_their_own_style_by_hash() -> None:
    assert policy_allows(FILES[SINGLE].decode(), "style")
    for path in ("404.html", "not-yet.html"):
        assert policy_allows(FILES[path].decode(), "style")
        assert policy_allows(FILES[path].decode(), "script")


def test_the_single_file_holds_every_page_and_no_script() -> None:
    made = BeautifulSoup(FILES[SINGLE].decode(), "html.parser")
    assert made.find(["script", "form"]) is None
    assert [link["href"] for link in made.find_all("link")] == ["data:,"]
    text = made.get_text()
    for one in fixture_manual().pages:
        if one.template not in ("gone", "home"):
            assert one.title in text
    anchors = {tag["id"] for tag in made.find_all(id=True)}
    targets = [link["href"] for link in made.find_all("a", href=True)]
    assert all(target.startswith("tel:") or target[1:] in anchors for target in targets)
    assert {"#p-hot-water", "#p-A1", "#p-hot-water--two-ways"} <= set(targets)


def test_the_single_file_has_no_heading_skipped() -> None:
    made = BeautifulSoup(FILES[SINGLE].decode(), "html.parser")
    levels = [int(head.name[1]) for head in made.find_all(["h1", "h2", "h3", "h4"])]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(below <= above + 1 for above, below in itertools.pairwise(levels))


def test_the_single_file_says_edition_and_carries_every_message() -> None:
    made = BeautifulSoup(FILES[SINGLE].decode(), "html.parser")
    assert "Edition 2, 20 November 2026." in made.get_text()
    pages = [BeautifulSoup(FILES[one.path].decode(), "html.parser") for one in fixture_manual().pages]
    assert len(made.select(".safety")) == sum(len(one.select(".safety")) for one in pages)


def test_the_single_file_offers_no_copy_of_itself() -> None:
    assert "Keep a copy" not in FILES[SINGLE].decode()
    assert f'href="{SINGLE}"' in FILES["index.html"].decode() and f'href="{ZIP}"' in FILES["index.html"].decode()


def test_a_draft_says_so_under_the_title_of_every_page() -> None:
    pages = [path for path in FILES if path.endswith(".html") and path != SINGLE]
    assert len(pages) > 20
    for path in pages:
        made = BeautifulSoup(FILES[path].decode(), "html.parser")
        after = made.select("main > h1 + .draft")
        assert [one.get_text() for one in after] == ["Draft: not yet checked by the dealer."], path
    shown = [one for one in fixture_manual().pages if one.template != "gone"]
    assert FILES[SINGLE].decode().count('<p class="draft">Draft: not yet') == len(shown)
    assert json.loads(FILES["edition.json"])["draft"] is True


def test_a_reviewed_manual_has_no_notice_and_another_digest() -> None:
    """The pages are those rendered for the draft: the state of review is no part of their structure."""
    review = Review(block=UNREVIEWED.id, digest=UNREVIEWED.digest, by="Robin Vale", on=EDITION.day)
    reviewed = fixture_manual(
        values={**VALUES, "draft/notice": Notice(text="")},
        safety=(dataclasses.replace(UNREVIEWED, review=review),),
    )
    made = fill(reviewed, rendered_fixture(), EDITION, FOLDER)
    for path, content in made.files.items():
        assert b'class="draft"' not in content and b"Robin Vale" not in content, path
    assert json.loads(made.files["edition.json"])["draft"] is False
    assert made.digest != finished_fixture().digest


def test_a_notice_is_escaped() -> None:
    made = finished(fixture_manual(values={**VALUES, "draft/notice": Notice(text="<b>& so on")}))
    assert '<p class="draft">&lt;b&gt;&amp; so on</p>' in made.files["index.html"].decode()


def test_an_unknown_fragment_is_our_mistake_and_loud() -> None:
    with pytest.raises(TypeError):
        draw("text", "")


def test_a_manual_whose_model_has_no_letters_still_has_names() -> None:
    manual = dataclasses.replace(fixture_manual(), model="***", pages=(home(), *fixture_manual().pages[1:]))
    assert "van-000417.html" in finished(manual).files
