"""One build for all pages: same bytes for the same input, equal pages once, no values, faults for what is wrong."""

import dataclasses
import shutil
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from generator.errors import RenderError, Source
from generator.model import pages as p
from generator.render import page_key, render
from generator.render.template import read_template
from tests.finished import TEMPLATE, rendered_fixture, rendered_pages
from tests.fixture_manual import VALUES, emergency, fault, fixture_manual, home, para, procedure


def test_two_builds_give_the_same_bytes(tmp_path: Path) -> None:
    pages = fixture_manual().pages
    one, two = render(pages, TEMPLATE, tmp_path / "one"), render(reversed(pages), TEMPLATE, tmp_path / "two")
    assert one.pages == two.pages
    assert dict(one.assets) == dict(two.assets)
    assert one.toolchain == two.toolchain


def test_equal_pages_are_rendered_once(tmp_path: Path) -> None:
    made = render([procedure(), procedure(), fault()], TEMPLATE, tmp_path)
    assert set(made.pages) == {page_key(procedure()), page_key(fault())}


def test_the_key_leaves_out_where_a_message_was_written() -> None:
    moved = dataclasses.replace(
        procedure(),
        body=tuple(
            p.SafetyBox(dataclasses.replace(node.message, source=Source("elsewhere.yaml", 9, 9)))
            if isinstance(node, p.SafetyBox)
            else node
            for node in procedure().body
        ),
    )
    assert page_key(moved) == page_key(procedure())


def test_the_key_tells_every_other_difference() -> None:
    one = procedure()
    strong, weak = (dataclasses.replace(one, body=(para((kind(()),)),)) for kind in (p.Strong, p.Emphasis))
    others = [
        dataclasses.replace(one, title="Other"),
        dataclasses.replace(one, language="en-AU"),
        dataclasses.replace(one, body=one.body[1:]),
        strong,
        weak,
    ]
    assert len({page_key(page) for page in [one, *others]}) == len(others) + 1
    assert page_key(one, "a") != page_key(one, "b")


def test_pages_never_contain_values() -> None:
    """Pages are shared by vans; a value in one would be printed in another's manual."""
    values = [value for value in VALUES.values() if isinstance(value, str)]
    for html in rendered_fixture().pages.values():
        assert not [value for value in values if value in html and value not in ("60 kg",)]


def test_every_page_has_what_the_frame_promises() -> None:
    for page in fixture_manual().pages:
        made = BeautifulSoup(rendered_fixture().pages[page_key(page)], "html.parser")
        assert made.html is not None and made.html["lang"] == page.language
        assert len(made.find_all("h1")) == 1
        robots = made.find("meta", attrs={"name": "robots"})
        assert robots is not None and "noindex" in robots["content"]
        policy = made.find("meta", attrs={"http-equiv": "Content-Security-Policy"})
        assert policy is not None and str(policy["content"]).startswith(
            "default-src 'none'; style-src 'self'; script-src 'self'"
        )
        assert not [script for script in made.find_all("script") if script.get_text()]
        assert not made.find_all("style")
        assert [link.get_text() for link in made.select(".rail a")] == ["Start page", "Find", "Emergency"]
        assert made.main is not None and made.main.get_text().count("f:draft/notice") == 1


def test_only_a_page_with_a_search_field_loads_the_index() -> None:
    pages = rendered_fixture().pages
    assert "asset/search.js" in pages[page_key(home())]
    assert "asset/search.js" not in pages[page_key(procedure())]


def test_an_emergency_starts_with_its_first_action() -> None:
    made = BeautifulSoup(rendered_fixture().pages[page_key(emergency())], "html.parser")
    assert made.main is not None
    first = list(made.main.find_all(True, recursive=False))[:2]
    assert [tag.name for tag in first] == ["h1", "ol"]


def test_the_theme_lends_only_rules_for_running_text() -> None:
    style = rendered_fixture().assets["style.css"].decode()
    own = read_template(TEMPLATE).files["style.css"].decode()
    assert style.endswith(own)
    lent = style.removesuffix(own).strip().split("\n")
    assert len(lent) > 10
    assert all(rule.startswith(":where(.md-typeset") for rule in lent)
    assert not [rule for rule in lent if "url(" in rule or ".md-header" in rule]


def test_a_template_with_a_mistake_is_a_fault_at_its_line(tmp_path: Path) -> None:
    template = Path(shutil.copytree(TEMPLATE, tmp_path / "site_template"))
    (template / "topic.html").write_text('{% extends "main.html" %}\n{% block body %}\n{{ page.content \n', "utf-8")
    with pytest.raises(RenderError, match="the template is wrong") as caught:
        render([procedure()], template, tmp_path / "scratch")
    source = caught.value.faults[0].source
    assert source is not None and source.file == "site_template/topic.html" and source.line >= 3


def test_a_template_that_names_what_is_not_there_is_a_fault(tmp_path: Path) -> None:
    template = Path(shutil.copytree(TEMPLATE, tmp_path / "site_template"))
    (template / "topic.html").write_text("{{ own.nothing }}", "utf-8")
    with pytest.raises(RenderError, match="the template is wrong"):
        render([procedure()], template, tmp_path / "scratch")


def test_a_template_without_a_needed_file_is_a_fault(tmp_path: Path) -> None:
    template = Path(shutil.copytree(TEMPLATE, tmp_path / "site_template"))
    (template / "van.js").unlink()
    with pytest.raises(RenderError, match=r'the template has no "van.js"'):
        render([procedure()], template, tmp_path / "scratch")


def test_titles_are_escaped_in_the_frame() -> None:
    hostile = dataclasses.replace(procedure(), title="<b>&\"'", plate="<i>", crumbs=(("<u>", "index.html"),))
    made = BeautifulSoup(rendered_pages(hostile).pages[page_key(hostile)], "html.parser")
    assert made.find(["b", "i", "u"]) is None
    assert made.h1 is not None and made.h1.get_text() == "<i> <b>&\"'"


def test_what_mkdocs_warns_of_is_a_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import logging

    from generator.render import site

    def warned(config: object) -> None:
        logging.getLogger("mkdocs.structure").warning("something is off")

    monkeypatch.setattr(site, "build", warned)
    with pytest.raises(RenderError, match="something is off"):
        render([procedure()], TEMPLATE, tmp_path)


def test_when_mkdocs_gives_up_that_is_a_fault_and_no_exit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from mkdocs.exceptions import Abort

    from generator.render import site

    def gave_up(config: object) -> None:
        raise Abort("no more")

    monkeypatch.setattr(site, "build", gave_up)
    with pytest.raises(RenderError, match="gave up"):
        render([procedure()], TEMPLATE, tmp_path)
