"""Drawings and photographs of the text reach the booklet, with their words for a reader that reads aloud."""

import io
import re

import pypdfium2
from PIL import Image

from generator.errors import Source
from generator.fill.on_paper import drawings_on_paper
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.panels import Face, PanelDrawing, Part
from generator.model.pictures import Picture, PictureFile
from generator.model.sourced import Given
from generator.paper.setting import Setting
from generator.paper.tree import nodes

from .test_booklet import booklet_of, squeezed

HERE = Source("content/pictures.yaml")


def picture(form: str, data: bytes) -> Picture:
    file = PictureFile(form="svg" if form == "svg" else "webp", data=data, width=4, height=2, digest="0" * 64)
    return Picture(alt=Given("A head.", HERE), file=file)


def test_a_step_brings_its_pictures() -> None:
    out = io.BytesIO()
    Image.new("RGB", (4, 2)).save(out, "WEBP")
    values = {
        "picture/a": picture("svg", b'<svg viewBox="0 0 4 2"></svg>'),
        "picture/b": picture("webp", out.getvalue()),
    }
    shown = tuple(p.Picture(name, "A head.", 4, 2) for name in ("a", "b"))
    (made,) = nodes([p.Steps((p.Step((), ((Text("Look."),),), shown),))], Setting(values, {}, {}), "x.html")
    (step,) = made["x"]  # type: ignore[misc,attr-defined]
    assert [(one["f"], one["t"]) for one in step["pics"]] == [("svg", "A head."), ("webp", "A head.")]
    assert step["pics"][0]["data"].startswith('<svg xmlns="http://www.w3.org/2000/svg" viewBox')
    assert bytes(step["pics"][1]["data"]) == out.getvalue()


def test_a_step_brings_the_panel_that_it_is_about_with_its_words() -> None:
    lamp = Part(name="Lamp", form="lamp", faces=(Face(words="red", marked=True),))
    values = {"drawing/fridge.low": PanelDrawing(title="Fridge", rows=((lamp,),))}
    shown = p.Steps((p.Step((), ((Text("Look."),),), (p.FragmentHole("drawing/fridge.low"),)),))
    (made,) = nodes([shown], Setting(values, {}, drawings_on_paper(values)), "x.html")
    (drawing,) = made["x"][0]["pics"]  # type: ignore[index]
    assert (drawing["f"], drawing["t"]) == ("svg", "Fridge. Lamp: red. Here: red.")
    assert "Yours may look different" in drawing["note"]
    # Letters of 16 units are 7 pt high or more: what is printed least on paper that is read by a torch.
    width = float(re.search(r'viewBox="0 0 ([0-9.]+) ', drawing["data"])[1])  # type: ignore[index]
    assert 16 * drawing["w"] / width * 72 / 25.4 >= 7


def test_the_booklet_draws_under_the_step() -> None:
    """The page that says to open the head has more strokes than its words and rules need."""
    document = pypdfium2.PdfDocument(booklet_of("marram-0417", "a5"))
    sheets = {squeezed(page.get_textpage().get_text_range()): page for page in document}
    with_drawing = next(page for text, page in sheets.items() if "Pullthehandleoftheheadupuntilitstaysopen" in text)
    strokes = [one for one in with_drawing.get_objects(max_depth=4) if one.type == 2]  # FPDF_PAGEOBJ_PATH
    assert len(strokes) > 10
