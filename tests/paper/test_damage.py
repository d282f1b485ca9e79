"""Printed symbols after a season: dirt, scratches, a torn corner, blur and tilt, with a fixed seed.

One frame is decoded once, so these are no field rates: a telephone takes many frames. They rank designs and catch a
label that has become fragile. What survives is reported with each test (``pytest -rP``).
"""

import math
from collections.abc import Callable

import numpy as np
import pytest
import segno
import zxingcpp
from PIL import Image, ImageDraw, ImageFilter

from generator.paper.address import label_address
from generator.paper.symbol import QUIET_MODULES, Symbol, symbol

ADDRESS = label_address("https://vans.example/7K3QX9F4WM/", "B2/")
PIXELS = 8  # a module, before the camera
TRIALS = 100
FINDER = 8  # modules with the separator

Chance = np.random.Generator
Damage = Callable[[Image.Image, Chance], Image.Image]


def clean(drawn: Symbol) -> Image.Image:
    """Return the symbol with its quiet zone, module by module."""
    side = drawn.boxed * PIXELS
    picture = Image.new("L", (side, side), 255)
    pen = ImageDraw.Draw(picture)
    for y, row in enumerate(segno.make_qr(drawn.text, error="h", boost_error=False).matrix):
        for x, dark in enumerate(row):
            if dark:
                left, top = (x + QUIET_MODULES) * PIXELS, (y + QUIET_MODULES) * PIXELS
                pen.rectangle((left, top, left + PIXELS - 1, top + PIXELS - 1), fill=0)
    return picture


SYMBOL = symbol(ADDRESS)
CLEAN = clean(SYMBOL)


def spared(x: float, y: float, radius: float) -> bool:
    """Return whether a blob in modules, from the symbol's corner, stays clear of the three finders."""
    side = SYMBOL.side
    corners = ((0, 0), (side - FINDER, 0), (0, side - FINDER))
    return all(
        math.hypot(max(left - x, 0, x - left - FINDER), max(top - y, 0, y - top - FINDER)) >= radius
        for left, top in corners
    )


SPLASH = (1.5, 3.0)  # radius in modules; a module is about a millimetre, so splashes are 3 to 6 mm wide
SPATTER = (0.5, 2.0)


def dirt(share: float, spare: bool, size: tuple[float, float] = SPLASH) -> Damage:
    """Return damage that covers ``share`` of the symbol with dark or light round splashes.

    The same share in finer spatter touches more code words, and the correction counts those.
    """

    def damage(picture: Image.Image, chance: Chance) -> Image.Image:
        made, mask = picture.copy(), Image.new("1", picture.size)
        pen, cover = ImageDraw.Draw(made), ImageDraw.Draw(mask)
        while np.asarray(mask).sum() < share * (SYMBOL.side * PIXELS) ** 2:
            x, y, radius = chance.uniform(0, SYMBOL.side), chance.uniform(0, SYMBOL.side), chance.uniform(*size)
            tone = int(chance.choice([30, 225]))
            if not spare or spared(x, y, radius):
                box = pixels(x - radius, y - radius, x + radius, y + radius)
                pen.ellipse(box, fill=tone)
                cover.ellipse(box, fill=1)
        return made

    return damage


def pixels(*modules: float) -> list[float]:
    return [(value + QUIET_MODULES) * PIXELS for value in modules]


def scratches(share: float) -> Damage:
    """Return damage that covers ``share`` of the symbol with thin strokes clear of the finders."""

    def damage(picture: Image.Image, chance: Chance) -> Image.Image:
        made, mask = picture.copy(), Image.new("1", picture.size)
        pen, cover = ImageDraw.Draw(made), ImageDraw.Draw(mask)
        while np.asarray(mask).sum() < share * (SYMBOL.side * PIXELS) ** 2:
            x, y, reach = chance.uniform(0, SYMBOL.side), chance.uniform(0, SYMBOL.side), chance.uniform(3, 9)
            turn, tone = chance.uniform(0, math.pi), int(chance.choice([30, 225]))
            across, down = reach * math.cos(turn), reach * math.sin(turn)
            if all(spared(x + part * across, y + part * down, 1) for part in (0, 0.25, 0.5, 0.75, 1)):
                line = pixels(x, y, x + across, y + down)
                pen.line(line, fill=tone, width=round(0.7 * PIXELS))
                cover.line(line, fill=1, width=round(0.7 * PIXELS))
        return made

    return damage


def torn(share: float) -> Damage:
    """Return damage that takes a triangle of ``share`` of the symbol off its corner without a finder."""

    def damage(picture: Image.Image, chance: Chance) -> Image.Image:
        made = picture.copy()
        leg = math.sqrt(2 * share) * SYMBOL.side * PIXELS
        right = (SYMBOL.side + QUIET_MODULES) * PIXELS
        edge = made.size[0]
        ImageDraw.Draw(made).polygon(
            [(edge, right - leg), (right - leg, edge), (edge, edge)], fill=int(chance.integers(90, 200))
        )
        return made

    return damage


def blur(modules: float) -> Damage:
    return lambda picture, chance: picture.filter(ImageFilter.GaussianBlur(modules * PIXELS))


def tilt(degrees: float) -> Damage:
    """Return a look from the side: one axis foreshortened, at any turn."""

    def damage(picture: Image.Image, chance: Chance) -> Image.Image:
        turned = picture.rotate(
            float(chance.uniform(0, 360)), expand=True, fillcolor=255, resample=Image.Resampling.BICUBIC
        )
        height = max(1, round(turned.size[1] * math.cos(math.radians(degrees))))
        return turned.resize((turned.size[0], height), Image.Resampling.BICUBIC)

    return damage


def survival(damage: Damage, seed: int) -> float:
    """Return the share of damaged symbols that still give their address; another address is a failure of the test."""
    chance, good = np.random.default_rng(seed), 0
    for _ in range(TRIALS):
        picture = damage(CLEAN, chance)
        camera = picture.resize(
            (max(1, round(picture.size[0] * 0.6)), max(1, round(picture.size[1] * 0.6))), Image.Resampling.BOX
        )
        noisy = np.asarray(camera, dtype=np.float32) + chance.normal(0, 6, (camera.size[1], camera.size[0]))
        found = zxingcpp.read_barcodes(
            np.ascontiguousarray(noisy.clip(0, 255).astype(np.uint8)), formats=zxingcpp.BarcodeFormat.QRCodeModel2
        )
        assert [one.text for one in found] in ([], [ADDRESS])
        good += bool(found)
    return good / TRIALS


@pytest.mark.parametrize(
    ("name", "damage", "least"),
    [
        ("clean", lambda picture, chance: picture, 1.0),
        ("10 % dirt in splashes, finders spared", dirt(0.10, spare=True), 0.90),
        ("15 % dirt in splashes, finders spared", dirt(0.15, spare=True), 0.10),
        ("8 % dirt in fine spatter, finders spared", dirt(0.08, spare=True, size=SPATTER), 0.80),
        ("10 % dirt in fine spatter, finders spared", dirt(0.10, spare=True, size=SPATTER), 0.40),
        ("4 % dirt in splashes, anywhere", dirt(0.04, spare=False), 0.20),
        ("5 % scratches, finders spared", scratches(0.05), 0.90),
        ("corner of 3 % torn off", torn(0.03), 0.90),
        ("blur of 0.4 modules", blur(0.4), 0.90),
        ("seen from 45 degrees", tilt(45), 0.90),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_survival(name: str, damage: Damage, least: float, record_property: Callable[[str, object], None]) -> None:
    found = survival(damage, seed=20261120)
    record_property(name, found)
    print(f"{name}: {found:.0%} of {TRIALS} read (at least {least:.0%})")
    assert found >= least


def test_the_same_seed_damages_alike() -> None:
    damage = dirt(0.10, spare=True)
    one, two = (damage(CLEAN, np.random.default_rng(7)) for _ in range(2))
    assert one.tobytes() == two.tobytes()
