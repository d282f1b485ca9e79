"""Draws the van from above, front up: outline, places, and their codes in the margins as links.

Colours are left to the style sheet; without one the drawing is black on white. Plain attributes only.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from generator.fill.holes import printable
from generator.fill.layout import ROW, SIDE_MOST, Row, Spot, rows, sides
from generator.fill.outline import Scene, inside_outline, n, outside_outline
from generator.model.holes import DrawnPlace, VanDrawing
from generator.model.paper import Picture

WIDTH = 360.0
_PLATE, _PLATE_HEIGHT = 48.0, 34.0
_HEAD, _FOOT = 30.0, 10.0  # room above the coupling for "Front", and under the van
_EDGE = _PLATE + 10  # where a leader turns from its plate towards the marker
_SHORTEST, _TALLEST, _SMALL = 340.0, SIDE_MOST * ROW, 190.0

_PICK = Markup('<p class="van__pick"><a href="#van-outside">Outside</a> <a href="#van-inside">Inside</a></p>\n')


@dataclass(frozen=True, slots=True)
class _Side:
    """One margin: x of the plates, x where leaders leave the plates, x where they turn."""

    plate: float
    start: float
    turn: float


_LEFT = _Side(0, _PLATE, _EDGE)
_RIGHT = _Side(WIDTH - _PLATE, WIDTH - _PLATE, WIDTH - _EDGE)


def van_figure(van: VanDrawing, root: str) -> Markup:
    """Return the drawing: with a focus one small picture, otherwise outside and inside with links."""
    if van.focus:
        return _focus_figure(van)
    views = [_parts(tuple(place for place in van.places if place.where == where)) for where in ("outside", "inside")]
    figures = [_figure(van, part, root, first=part is parts[0]) for parts in views for part in parts]
    pick = _PICK if all(views) else Markup("")
    return Markup('<div class="van">\n{}{}\n</div>').format(pick, Markup("\n").join(figures))


def van_pictures(van: VanDrawing) -> tuple[Picture, ...]:
    """Return the drawing for paper, without links: with a focus one picture, otherwise outside and inside."""
    if van.focus:
        return tuple(Picture(caption=str(words), svg=str(svg)) for svg, words in _focus(van))
    views = [_parts(tuple(place for place in van.places if place.where == where)) for where in ("outside", "inside")]
    return tuple(
        Picture(caption=_caption(part), svg=str(_plan(van, part, None, _caption(part))))
        for parts in views
        for part in parts
    )


def bare_picture(van: VanDrawing) -> Picture:
    """Return the van from outside without its places."""
    scene = _scene(van, _TALLEST, 176)
    svg = _svg(scene.foot + _FOOT, "img", "The van from above", outside_outline(scene))
    return Picture(caption="The van from above", svg=str(svg))


def _caption(places: tuple[DrawnPlace, ...]) -> str:
    return f"{places[0].where.capitalize()}, seen from above"


def _parts(places: tuple[DrawnPlace, ...]) -> list[tuple[DrawnPlace, ...]]:
    """More places than the margins hold make a second drawing, from the front to the rear."""
    most = 2 * SIDE_MOST
    if len(places) <= most:
        return [places] if places else []
    along = sorted(places, key=lambda place: place.behind_coupling_m)
    return [tuple(along[start : start + most]) for start in range(0, len(along), most)]


def _figure(van: VanDrawing, places: tuple[DrawnPlace, ...], root: str, first: bool) -> Markup:
    """Return one view; the first of each kind is what the links above the drawing lead to."""
    where = places[0].where
    counted = "1 place" if len(places) == 1 else f"{len(places)} places"
    name = f"{where.capitalize()} of the van from above, {counted}"
    mark = Markup(' id="van-{}"').format(where) if first else Markup("")
    return Markup('<figure class="van__view van__view--{}"{}>\n<figcaption>{}</figcaption>\n{}\n</figure>').format(
        where, mark, _caption(places), _plan(van, places, root, name)
    )


def _plan(van: VanDrawing, places: tuple[DrawnPlace, ...], root: str | None, name: str) -> Markup:
    """Return one view as SVG; without ``root`` its codes are no links."""
    left, right = sides([_spot(i, place, _scene(van, 1, 1)) for i, place in enumerate(places)])
    scene = _scene(van, min(max(_SHORTEST, max(len(left), len(right)) * ROW), _TALLEST), 176)
    spots = [_spot(index, place, scene) for index, place in enumerate(places)]
    left, right = sides(spots)
    low, high = _HEAD - 6 + ROW / 2, scene.foot - ROW / 2 + 4
    high = max(high, low + (max(len(left), len(right)) - 1) * ROW)
    placed = [(row, _LEFT) for row in rows(left, _LEFT.turn, low, high)]
    placed += [(row, _RIGHT) for row in rows(right, _RIGHT.turn, low, high)]
    # Leaders lie under all markers and plates; links stand in walking order for the keyboard.
    placed.sort(key=lambda one: one[0].spot.index)
    leaders = Markup("").join(_leader(row, side) for row, side in placed)
    leaders += Markup("").join(_marker(row.spot.x, row.spot.y, places[row.spot.index].where) for row, _ in placed)
    links = Markup("\n").join(_link(row, side, places[row.spot.index], root) for row, side in placed)
    height = max(scene.foot, high + ROW / 2) + _FOOT
    return _svg(height, "group", name, _sides_named() + _outline(scene, places[0].where) + leaders + links)


def _scene(van: VanDrawing, tallest: float, widest: float) -> Scene:
    scale = min(tallest / van.overall_m, widest / van.width_m)
    return Scene(van, scale, WIDTH / 2, _HEAD)


def _spot(index: int, place: DrawnPlace, scene: Scene) -> Spot:
    x, y = scene.point(place.behind_coupling_m, place.left_m)
    return Spot(index, x, y, place.left_m)


def _outline(scene: Scene, where: str) -> Markup:
    return outside_outline(scene) if where == "outside" else inside_outline(scene)


def _sides_named() -> Markup:
    return Markup(
        '<g class="van__words" font-size="14" fill="currentColor" aria-hidden="true">'
        '<text x="0" y="14">Left</text><text x="360" y="14" text-anchor="end">Right</text>'
        '<text x="180" y="14" text-anchor="middle">Front</text>'
        '<path d="M150 13l5-9 5 9zM200 13l5-9 5 9z" stroke="none"/></g>'
    )


def _leader(row: Row, side: _Side) -> Markup:
    path = f"M{n(side.start)} {n(row.y)}H{n(side.turn)}L{n(row.spot.x)} {n(row.spot.y)}"
    return Markup('<path class="van__leader" d="{}" fill="none" stroke="currentColor"/>').format(path)


def _link(row: Row, side: _Side, place: DrawnPlace, root: str | None) -> Markup:
    """The plate is the link: markers may lie closer together than fingers are wide."""
    if root is None:
        return _plate(side.plate, row.y, place)
    return Markup('<a href="{}" aria-label="{}">{}{}</a>').format(
        f"{root}{place.path}",
        printable(f"{place.code} {place.name}"),
        _hit(side.plate, row.y),
        _plate(side.plate, row.y, place),
    )


def _marker(x: float, y: float, where: str) -> Markup:
    """A square outside, a ring inside: told apart by shape."""
    if where == "outside":
        return Markup('<rect class="van__spot" x="{}" y="{}" width="12" height="12" fill="currentColor"/>').format(
            n(x - 6), n(y - 6)
        )
    return Markup('<circle class="van__ring" cx="{}" cy="{}" r="6" fill="none" stroke="currentColor"/>').format(
        n(x), n(y)
    )


def _hit(x: float, y: float) -> Markup:
    return Markup(
        '<rect class="van__hit" x="{}" y="{}" width="{}" height="{}" fill="none" pointer-events="all"/>'
    ).format(n(x), n(y - ROW / 2), n(_PLATE), n(ROW))


def _plate(x: float, y: float, place: DrawnPlace) -> Markup:
    """The code plate: whole outside, with cut corners and only framed inside."""
    top, bottom, right = y - _PLATE_HEIGHT / 2, y + _PLATE_HEIGHT / 2, x + _PLATE
    if place.where == "outside":
        shape = Markup(
            '<rect class="van__plate" x="{}" y="{}" width="{}" height="{}" rx="2" fill="currentColor"/>'
        ).format(n(x), n(top), n(_PLATE), n(_PLATE_HEIGHT))
        colour = Markup('class="van__code" fill="#fff"')
    else:
        path = _cut_corners(x + 1, top + 1, right - 1, bottom - 1)
        shape = Markup('<path class="van__frame" d="{}" fill="none" stroke="currentColor"/>').format(path)
        colour = Markup('class="van__code van__code--framed" fill="currentColor"')
    words = Markup('<text {} x="{}" y="{}" font-size="19" font-weight="700" text-anchor="middle">{}</text>')
    return shape + words.format(colour, n(x + _PLATE / 2), n(y + 6.6), printable(place.code))


def _cut_corners(left: float, top: float, right: float, bottom: float, cut: float = 7) -> str:
    return (
        f"M{n(left + cut)} {n(top)}H{n(right - cut)}L{n(right)} {n(top + cut)}V{n(bottom - cut)}"
        f"L{n(right - cut)} {n(bottom)}H{n(left + cut)}L{n(left)} {n(bottom - cut)}V{n(top + cut)}z"
    )


def _focus_figure(van: VanDrawing) -> Markup:
    """Return a small picture of where one place is; its words say the same."""
    return Markup("").join(
        Markup('<figure class="where">\n{}\n<figcaption>{}</figcaption>\n</figure>').format(svg, words)
        for svg, words in _focus(van)
    )


def _focus(van: VanDrawing) -> Iterator[tuple[Markup, Markup]]:
    """Yield the small picture of the place in focus with its words, or nothing where it is not drawn."""
    found = [place for place in van.places if place.code == van.focus]
    if not found:
        return
    place, scene = found[0], _scene(van, _SMALL, 100)
    spot = _spot(0, place, scene)
    side = _LEFT if place.left_m >= 0 else _RIGHT
    row = Row(spot, min(max(spot.y, _HEAD + ROW / 2), scene.foot - ROW / 2))
    picture = _sides_named() + _outline(scene, place.where) + _leader(row, side)
    picture += _marker(spot.x, spot.y, place.where) + _plate(side.plate, row.y, place)
    where = whereabouts(van, place)
    yield _svg(scene.foot + _FOOT, "img", f"{place.code}: {where}", picture), where


def whereabouts(van: VanDrawing, place: DrawnPlace) -> Markup:
    """Return in words where a place is: "Outside, on the left, 1.8 m behind the coupling"."""
    near_m = 0.25 * van.width_m / 2
    side = "in the middle" if abs(place.left_m) < near_m else "on the left" if place.left_m > 0 else "on the right"
    if place.behind_coupling_m < near_m:
        return printable(f"{place.where.capitalize()}, at the coupling.")
    return printable(f"{place.where.capitalize()}, {side}, {place.behind_coupling_m:.1f} m behind the coupling.")


def _svg(height: float, role: str, name: str, inner: Markup) -> Markup:
    return Markup('<svg viewBox="0 0 360 {}" role="{}" aria-label="{}" color="#000">{}</svg>').format(
        n(height), role, printable(name), inner
    )
