"""Pictures: photographs are made small and bare, drawings are plain ink, both have words; anything else is refused."""

import io
import random
import struct
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from generator.errors import ManualError
from generator.load import load
from generator.load.drawn import PictureError, read_drawing
from generator.load.shrink import LONGEST_SIDE, MOST_BYTES, shrink
from generator.resolve import resolve

from ..conftest import BuildWorkspace

REGISTER = "content/pictures.yaml"
VAN = "van_specs/vans/dune-1.yaml"
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20">{}</svg>'
PLAIN = SVG.format('<path d="M0 0L40 20"/>').encode()
BLOCK = "content/blocks/coupling/couple.md"
HEAD = "---\ntopic: coupling/couple\ntitle: Hitch up\nform: procedure\nat: [coupling.head]\n---\n"


def photograph(size: tuple[int, int] = (1600, 1200), noisy: bool = False, form: str = "JPEG", **said: object) -> bytes:
    """Return a photograph: red on the left, blue on the right, or noise that is hard to make small."""
    picture = Image.new("RGB", size, (200, 30, 30))
    picture.paste((30, 30, 200), (size[0] // 2, 0, size[0], size[1]))
    if noisy:
        picture = Image.frombytes("RGB", size, random.Random(4).randbytes(size[0] * size[1] * 3))
    out = io.BytesIO()
    picture.save(out, form, **said)
    return out.getvalue()


def chunks(webp: bytes) -> list[str]:
    """Return the names of the chunks of a WebP file (RIFF container, RFC 9649), read by hand."""
    assert webp[:4] == b"RIFF" and webp[8:12] == b"WEBP"
    found, at = [], 12
    while at < len(webp):
        name, size = webp[at : at + 4], struct.unpack("<I", webp[at + 4 : at + 8])[0]
        found.append(name.decode().strip())
        at += 8 + size + size % 2
    return found


# --- photographs ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("size", "noisy"), [((4000, 3000), False), ((3000, 4000), True), ((320, 240), False), ((900, 20), True)]
)
def test_a_photograph_is_within_the_budget(size: tuple[int, int], noisy: bool) -> None:
    data, width, height = shrink(photograph(size, noisy))
    assert len(data) <= MOST_BYTES == 40_000
    assert max(width, height) <= LONGEST_SIDE == 960
    made = Image.open(io.BytesIO(data))
    assert (made.format, made.size) == ("WEBP", (width, height))
    assert width / height == pytest.approx(size[0] / size[1], rel=0.05)


def test_a_small_photograph_is_not_made_larger() -> None:
    assert shrink(photograph((320, 240)))[1:] == (320, 240)


def test_place_owner_and_everything_else_a_camera_writes_is_gone() -> None:
    exif = Image.Exif()
    exif[0x010F], exif[0x0110], exif[0x013B] = "Maker of the camera", "Model", "Robin Vale"
    exif.get_ifd(0x8825)[2] = (45.0, 52.0, 30.0)  # latitude
    exif.get_ifd(0x8825)[1] = "S"
    before = photograph(exif=exif, comment=b"a comment of the camera")
    assert b"Robin Vale" in before and Image.open(io.BytesIO(before)).getexif().get_ifd(0x8825)
    after, _, _ = shrink(before)
    assert set(chunks(after)) <= {"VP8", "VP8L", "VP8X", "ALPH"}  # picture data only: no EXIF, XMP or ICCP
    assert b"Robin" not in after and b"comment" not in after and not Image.open(io.BytesIO(after)).getexif()


@pytest.mark.parametrize(("orientation", "left_is"), [(1, "red"), (2, "blue"), (3, "blue")])
def test_a_turned_photograph_stands_upright(orientation: int, left_is: str) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    data, _, _ = shrink(photograph(exif=exif))
    red, _, blue = Image.open(io.BytesIO(data)).convert("RGB").getpixel((10, 10))
    assert (red > blue) == (left_is == "red")


def test_a_photograph_on_its_side_changes_width_and_height() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    _, width, height = shrink(photograph((1600, 800), exif=exif))
    assert width < height


def test_the_same_photograph_gives_the_same_bytes() -> None:
    assert shrink(photograph(noisy=True)) == shrink(photograph(noisy=True))


def test_of_a_photograph_with_others_behind_it_the_first_is_taken() -> None:
    """As cameras of telephones write it (CIPA DC-007, MPO): a preview or a depth map follows the photograph."""
    out = io.BytesIO()
    behind = Image.new("RGB", (200, 100), "blue")
    Image.new("RGB", (200, 100), "red").save(out, "MPO", save_all=True, append_images=[behind])
    data, width, height = shrink(out.getvalue())
    red, _, blue = Image.open(io.BytesIO(data)).convert("RGB").getpixel((5, 5))  # type: ignore[misc]
    assert (width, height) == (200, 100) and red > 200 > 50 > blue


def test_transparency_is_kept() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (100, 100), (0, 0, 0, 0)).save(out, "PNG")
    assert Image.open(io.BytesIO(shrink(out.getvalue())[0])).convert("RGBA").getpixel((5, 5))[3] == 0


def moving() -> bytes:
    out = io.BytesIO()
    frames = [Image.new("RGB", (20, 20), (shade, 0, 0)) for shade in (0, 255)]
    frames[0].save(out, "WEBP", save_all=True, append_images=frames[1:])
    return out.getvalue()


def huge() -> bytes:
    """A PNG whose head promises 100 000 x 100 000 pixels."""
    data = bytearray(photograph((20, 20), form="PNG"))
    data[16:24] = struct.pack(">II", 100_000, 100_000)
    return bytes(data)


@pytest.mark.parametrize(
    "make",
    [
        lambda: b"",
        lambda: b"GIF89a",
        lambda: photograph()[:300],
        moving,
        huge,
        lambda: b"\x89PNG\r\n\x1a\n" + b"x" * 99,
    ],
)
def test_what_is_no_photograph_is_refused(make: Callable[[], bytes]) -> None:
    with pytest.raises(PictureError):
        shrink(make())


# --- drawings ---------------------------------------------------------------------------------------


def test_a_drawing_is_written_anew_in_ink() -> None:
    data, width, height = read_drawing(SVG.format('<g><path d="M0 0L4 4" stroke-width="3"/></g><!-- note -->').encode())
    assert (width, height) == (40, 20)
    assert data == (
        b'<svg viewBox="0 0 40 20"><g fill="none" stroke="currentColor" stroke-width="2" stroke-linecap="round" '
        b'stroke-linejoin="round"><g><path d="M0 0L4 4" stroke-width="3"/></g></g></svg>'
    )


@pytest.mark.parametrize(
    "inner",
    [
        "<script>alert(1)</script>",
        '<path d="M0 0" onload="alert(1)"/>',
        '<a href="https://example.org"><path d="M0 0"/></a>',
        '<image href="data:image/png;base64,AA"/>',
        '<use href="#x"/>',
        "<style>path { fill: red }</style>",
        '<path d="M0 0" style="fill: red"/>',
        '<path d="M0 0" fill="red"/>',
        '<path d="M0 0" fill="url(#x)"/>',
        '<path d="M0 0" id="x"/>',
        '<path d="M0 0" class="x"/>',
        "<text>words</text>",
        "<foreignObject><p>words</p></foreignObject>",
        "stray words",
        '<path d="&quot;/&gt;&lt;script&gt;"/>',
        '<path d="M0 0" xlink:href="x" xmlns:xlink="http://www.w3.org/1999/xlink"/>',
        "<g>" * 20 + "</g>" * 20,
    ],
)
def test_what_is_not_plain_ink_is_refused(inner: str) -> None:
    with pytest.raises(PictureError):
        read_drawing(SVG.format(inner).encode())


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg/>",
        b"no xml",
        b'<svg viewBox="0 0 4 4"/>',
        SVG.replace("0 0 40 20", "0 0 40").encode(),
        b'<!DOCTYPE svg [<!ENTITY a "b">]>' + PLAIN,
        b'<?xml version="1.0"?><!doctype svg>' + PLAIN,
    ],
)
def test_what_is_no_drawing_is_refused(data: bytes) -> None:
    with pytest.raises(PictureError):
        read_drawing(data)


def test_shipped_drawings_are_of_our_own_ink() -> None:
    files = sorted((Path(__file__).parents[2] / "content/pictures").glob("*.svg"))
    assert len(files) >= 5
    for path in files:
        data, _, _ = read_drawing(path.read_bytes())
        assert len(data) < 4_000


# --- in a workspace ---------------------------------------------------------------------------------


def workspace(build: BuildWorkspace, **more: str | bytes | None) -> Path:
    """Return the small workspace with a drawing that the coupling shows, and what ``more`` says."""
    files: dict[str, str | bytes | None] = {
        REGISTER: 'head: {file: head.svg, alt: "The head sits on the ball."}\n',
        "content/pictures/head.svg": PLAIN,
        BLOCK: HEAD + "1. Look at it.\n   {{ picture('coupling.locked') }}\n",
    }
    root = build({**files, **{name.replace("__", "/"): text for name, text in more.items()}})
    kind = root / "content/equipment/coupling/friction-ball.yaml"
    kind.write_text(kind.read_text("utf-8") + "pictures: {locked: head}\n", "utf-8")
    return root


def test_a_kind_gives_the_picture_and_a_van_another(build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    loaded = load(root)
    (spec,) = loaded.vans.values()
    assert resolve(spec, loaded).pictures["coupling.locked"].alt.value == "The head sits on the ball."
    (root / "van_specs/pictures").mkdir()
    (root / "van_specs/pictures/own.jpg").write_bytes(photograph())
    sheet = root / VAN
    own = 'pictures: {coupling.locked: {file: own.jpg, alt: "The head of this very van."}}\n'
    sheet.write_text(sheet.read_text("utf-8") + own, "utf-8")
    loaded = load(root)
    (spec,) = loaded.vans.values()
    picture = resolve(spec, loaded).pictures["coupling.locked"]
    assert (picture.alt.value, picture.file.form) == ("The head of this very van.", "webp")


def told(root: Path) -> list[str]:
    with pytest.raises(ManualError) as caught:
        loaded = load(root)
        for spec in loaded.vans.values():
            resolve(spec, loaded)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("register", "message"),
    [
        ("head: {file: head.svg}\n", f'{REGISTER}:1:7: error: "alt" is missing'),
        ('head: {file: head.svg, alt: ""}\n', f"{REGISTER}:1:29: error: nothing is written here"),
        (
            "head: {file: head.svg, alt: Picture of a head}\n",
            f"{REGISTER}:1:29: error: these words say that it is a picture",
        ),
        (
            "head: {file: head.svg, alt: " + "x" * 161 + "}\n",
            f"{REGISTER}:1:29: error: these words have 161 characters",
        ),
        (
            "head: {file: none.svg, alt: A head}\n",
            f"{REGISTER}:1:14: error: there is no picture content/pictures/none.svg",
        ),
        ("head: {file: ../x.svg, alt: A head}\n", f'{REGISTER}:1:14: error: "../x.svg" is no file of a picture'),
        ("head: {file: head.gif, alt: A head}\n", f'{REGISTER}:1:14: error: "head.gif" is no file of a picture'),
        ("Head: {file: head.svg, alt: A head}\n", f'{REGISTER}:1:7: error: "Head" is no name for a picture'),
    ],
)
def test_a_wrong_entry_is_told(register: str, message: str, build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    (root / REGISTER).write_text(register, "utf-8")
    assert any(fault.startswith(message) for fault in told(root)), told(root)


def test_a_wrong_file_is_told_by_its_own_name(build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    (root / "content/pictures/head.svg").write_bytes(SVG.format("<script/>").encode())
    assert told(root)[0].startswith("content/pictures/head.svg:1:1: error: a drawing cannot hold <script>")


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ("1. Look.\n   {{ picture('coupling.lokced') }}\n", 'unknown picture "coupling.lokced"'),
        ("1. Look.\n   {{ picture('hed') }}\n", 'unknown picture "hed"'),
        ("1. {{ picture('head') }}\n", "a step begins with words"),
        ("1. Look at {{ picture('head') }} now.\n", "picture stands in a paragraph of its own"),
        ("- {{ picture('head') }}\n", "picture stands in a paragraph of its own"),
        ("![x](head.svg)\n", "a picture does not work here"),
    ],
)
def test_a_wrong_call_is_told(body: str, message: str, build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    (root / BLOCK).write_text(HEAD + body, "utf-8")
    assert any(message in fault and fault.startswith(f"{BLOCK}:") for fault in told(root)), told(root)


def test_a_name_that_nothing_asks_for_is_told(build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    (root / "van_specs/pictures").mkdir()
    (root / "van_specs/pictures/own.svg").write_bytes(PLAIN)
    sheet = root / VAN
    sheet.write_text(sheet.read_text("utf-8") + "pictures: {coupling.lokced: {file: own.svg, alt: A head}}\n", "utf-8")
    (fault,) = told(root)
    assert 'nothing asks for a picture "coupling.lokced"' in fault and 'did you mean "coupling.locked"?' in fault


def test_a_kind_names_a_picture_that_is_there(build_workspace: BuildWorkspace) -> None:
    root = workspace(build_workspace)
    kind = root / "content/equipment/coupling/friction-ball.yaml"
    kind.write_text(kind.read_text("utf-8").replace("locked: head", "locked: haed"), "utf-8")
    assert any('unknown picture "haed"' in fault and "friction-ball.yaml" in fault for fault in told(root))
