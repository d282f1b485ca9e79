"""What a save does on the bench: the page that changed, the faults, other vans and markets; nothing of it published."""

from datetime import date
from pathlib import Path

import pytest

from generator.fill.assets import file_stem
from generator.fill.one_page import LATER
from generator.model.release import Shelf
from generator.pipeline.publishing import publish_vans
from generator.preview import Bench, View, view_named
from generator.preview.bench import IMPROVISED

from ..test_cli import SORREL, TANSY, change, copied

OPEN, PAGE = "content/blocks/gas/open.md", "open-the-gas.html"


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    root = copied(tmp_path / "desk", SORREL, TANSY)
    return Bench(root, root / "site_template", [], date(2026, 11, 25))


SORREL_VIEW, TANSY_VIEW = View(van="sorrel-0032"), View(van="tansy-0108")


def html(bench: Bench, view: View, path: str) -> str:
    found = bench.page(view, path)
    assert found is not None
    return found[1]


def test_a_save_changes_the_page_that_prints_it_and_no_other(bench: Bench) -> None:
    assert "One more line." not in html(bench, SORREL_VIEW, PAGE)
    change(bench.root / OPEN, "**At the end:**", "One more line.\n\n**At the end:**")
    bench.refresh()
    assert bench.shown(SORREL_VIEW).changed == (PAGE,)
    assert bench.changed_since(SORREL_VIEW, 1) == (PAGE,)
    assert "One more line." in html(bench, SORREL_VIEW, PAGE)


def test_the_page_of_the_edited_block_is_opened_first(bench: Bench) -> None:
    """A new title changes pages that link to it as well, and some stand before it in the manual."""
    html(bench, SORREL_VIEW, "index.html")
    change(bench.root / "content/blocks/gas/shut.md", "title: ", "title: Now ")
    bench.refresh()
    changed = bench.shown(SORREL_VIEW).changed
    assert changed[0] == "shut-the-gas.html" and PAGE in changed
    change(bench.root / OPEN, "**At the end:**", "One more line.\n\n**At the end:**")
    bench.refresh()
    assert bench.changed_since(SORREL_VIEW, 1)[0] == PAGE  # the last save counts most


def test_pages_are_those_that_are_published(bench: Bench, tmp_path: Path) -> None:
    """But for the bench itself, which is put in later: same edition and day, same HTML."""
    shelf = Shelf(library=tmp_path / "library", records=tmp_path / "records")
    spec = bench.root / SORREL
    list(publish_vans(bench.root, [spec], shelf, date(2026, 11, 25), bytes(32)))
    (folder,) = [path for path in shelf.library.iterdir() if path.is_dir()]
    manual = bench.shown(SORREL_VIEW).manual
    assert manual is not None
    for path in (PAGE, "A1/index.html", "numbers.html", "index.html"):
        published = (folder / path).read_text("utf-8")
        shown = html(bench, SORREL_VIEW, path)
        for ending in ("html", "zip"):
            published = published.replace(f"{file_stem(manual)}.{ending}", LATER)
        assert shown == published
    assert not [path for path in folder.rglob("*.*") if b"lockerleaf-bench" in path.read_bytes()]


def test_a_fault_keeps_the_page_and_says_where(bench: Bench) -> None:
    before = html(bench, SORREL_VIEW, PAGE)
    change(bench.root / OPEN, "form: procedure", "form: prosedure")
    bench.refresh()
    (fault,) = bench.shown(SORREL_VIEW).errors
    assert str(fault.source).startswith(f"{OPEN}:4:")
    assert html(bench, SORREL_VIEW, PAGE) == before
    change(bench.root / OPEN, "form: prosedure", "form: procedure")
    bench.refresh()
    assert bench.shown(SORREL_VIEW).errors == ()


def test_a_block_of_another_van_is_said_to_be_elsewhere(bench: Bench) -> None:
    html(bench, TANSY_VIEW, "index.html")
    change(bench.root / OPEN, "**At the end:**", "One more line.\n\n**At the end:**")
    bench.refresh()
    assert bench.shown(TANSY_VIEW).elsewhere == (OPEN,)
    assert bench.vans_with(TANSY_VIEW, OPEN) == ("sorrel-0032",)


def test_another_market_speaks_its_words(bench: Bench) -> None:
    assert "hook-up" in html(bench, TANSY_VIEW, "connect-the-mains.html")
    nz = html(bench, View(van="tansy-0108", market="nz"), "connect-the-mains.html")
    assert "hook-up" not in nz and "mains lead" in nz


def test_a_van_is_improvised_from_a_kind(bench: Bench) -> None:
    view = View(market="uk", kinds=(("oven", "gas"),))
    shown = bench.shown(view)
    assert shown.errors == () and shown.caravan is not None
    assert {"oven", "gas", "coupling"} <= set(shown.caravan.traits) and "toilet" not in shown.caravan.traits
    assert "Use the oven" in html(bench, view, "oven.html")


def test_an_improvised_van_that_cannot_be_is_a_fault(bench: Bench) -> None:
    view = View(market="uk", kinds=(("oven", "gas"), ("oven", "none-such")))
    assert "the catalogue has no oven/none-such" in bench.shown(view).errors[0].message
    two = View(market="uk", kinds=(("fridge", "cool-box-12v"), ("fridge", "compressor")))
    assert "no van that can be ordered has" in bench.shown(two).errors[0].message
    assert "unknown market" in bench.shown(View(market="xx", kinds=())).errors[0].message


def test_faults_of_an_improvised_sheet_name_no_scratch_file(bench: Bench) -> None:
    view = View(market="uk", kinds=(("battery", "lithium"),))
    for fault in bench.shown(view).faults:
        assert fault.source is None or not fault.source.file.startswith("/"), fault
        assert fault.source is None or fault.source.file.startswith(("content/", IMPROVISED)), fault


def test_the_words_of_a_page_are_judged(bench: Bench) -> None:
    change(bench.root / OPEN, "**At the end:**", "Ensure a bigger fuse is fitted.\n\n**At the end:**")
    bench.refresh()
    found = bench.page(SORREL_VIEW, PAGE)
    assert found is not None
    (one,) = bench.judged(SORREL_VIEW, found[0])
    assert {"vague-step", "bigger-fuse"} <= {hit.rule for hit in one.hits}
    assert one.vans == ("sorrel-0032",) and one.ease is not None and one.ease > 50


def test_a_new_template_is_taken(bench: Bench) -> None:
    html(bench, SORREL_VIEW, PAGE)
    change(bench.root / "site_template/partials/rail.html", ">Start<", ">Begin<")
    bench.refresh()
    assert ">Begin<" in html(bench, SORREL_VIEW, PAGE)


@pytest.mark.parametrize(
    "name", ["marram-0417", "marram-0417@nz", "mix@uk+1", "mix@au+2+oven.gas+hot_water.gas-instantaneous"]
)
def test_a_view_is_read_back_from_its_address(name: str) -> None:
    view = view_named(name)
    assert view is not None and view.name == name


@pytest.mark.parametrize("name", ["", "..", "a/b", "mix@uk+3", "mix@uk+1+oven", "x@NZ", "-", "a b", "<b>"])
def test_no_other_name_is_a_view(name: str) -> None:
    assert view_named(name) is None
