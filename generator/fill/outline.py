"""The van's outline from above in drawing units: drawbar, wheels, body from outside, walls and floor from inside.

Only what the build sheet gives is drawn: no door, window or roof light is made up.
"""

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.holes import VanDrawing

_AXLE_GAP_M = 0.8  # between the two axles of a pair; common practice, no source
_WHEEL_M, _TREAD_M = 0.66, 0.2  # outer diameter and width of a caravan tyre, about


def n(value: float) -> str:
    """Return a coordinate with at most one decimal."""
    return f"{value:.1f}".rstrip("0").rstrip(".") if value % 1 else f"{value:.0f}"


@dataclass(frozen=True, slots=True)
class Scene:
    """Metres of the van into drawing units: the coupling stands at (``centre``, ``top``), front up."""

    van: VanDrawing
    scale: float
    centre: float
    top: float

    def point(self, behind_m: float, left_m: float) -> tuple[float, float]:
        """Return x and y; left of travel is left, since the front is up. Strays are drawn at the rim."""
        behind = min(max(behind_m, 0.0), self.van.overall_m)
        left = min(max(left_m, -self.van.width_m / 2), self.van.width_m / 2)
        return self.centre - left * self.scale, self.top + behind * self.scale

    @property
    def half(self) -> float:
        """Half the width of the body."""
        return self.van.width_m / 2 * self.scale

    @property
    def front(self) -> float:
        """The y of the body's front."""
        return self.top + (self.van.overall_m - self.van.length_m) * self.scale

    @property
    def foot(self) -> float:
        """The y of the body's rear."""
        return self.top + self.van.overall_m * self.scale


def outside_outline(scene: Scene) -> Markup:
    """Return the van as seen from above."""
    return _shape(_drawbar(scene) + _wheels(scene, 0.06) + _body(scene, 0, "van__body") + _body(scene, 7, "van__roof"))


def inside_outline(scene: Scene) -> Markup:
    """Return the walls and the floor with its wheel boxes."""
    return _shape(
        _drawbar(scene)
        + _body(scene, 0, "van__wall")
        + _body(scene, 6, "van__floor")
        + _wheels(scene, -0.14, "van__box")
    )


def _shape(inner: Markup) -> Markup:
    return Markup('<g fill="none" stroke="currentColor" stroke-width="2" aria-hidden="true">{}</g>').format(inner)


def _body(scene: Scene, inset: float, kind: str) -> Markup:
    """The front is bowed a little, as seen from above; the rear is square with rounded corners."""
    left, right = scene.centre - scene.half + inset, scene.centre + scene.half - inset
    front, rear = scene.front + inset, scene.foot - inset
    bow, corner = 0.09 * 2 * scene.half, 9 - inset / 2
    path = (
        f"M{n(left)} {n(front + bow + corner)}Q{n(left)} {n(front + bow)} {n(left + corner)} {n(front + bow * 0.72)}"
        f"Q{n(scene.centre)} {n(front - bow * 0.72)} {n(right - corner)} {n(front + bow * 0.72)}"
        f"Q{n(right)} {n(front + bow)} {n(right)} {n(front + bow + corner)}"
        f"V{n(rear - corner)}Q{n(right)} {n(rear)} {n(right - corner)} {n(rear)}"
        f"H{n(left + corner)}Q{n(left)} {n(rear)} {n(left)} {n(rear - corner)}z"
    )
    return Markup('<path class="{}" d="{}"/>').format(kind, path)


def _drawbar(scene: Scene) -> Markup:
    """Two beams from the coupling head under the body, a cross beam, and the head itself."""
    cx, top, front = scene.centre, scene.top, scene.front + 0.12 * 2 * scene.half
    spread = 0.55 * scene.half
    y = top + 0.55 * (front - top)
    x = spread * (y - top) / (front - top) if front > top else 0.0
    beams = f"M{n(cx)} {n(top + 4)}L{n(cx - spread)} {n(front)}M{n(cx)} {n(top + 4)}L{n(cx + spread)} {n(front)}"
    bar = Markup('<path class="van__bar" d="{}"/>').format(f"{beams}M{n(cx - x)} {n(y)}H{n(cx + x)}")
    head = Markup('<rect class="van__head" x="{}" y="{}" width="12" height="16" rx="5" fill="currentColor"/>')
    return bar + head.format(n(cx - 6), n(top - 6))


def _wheels(scene: Scene, beyond_m: float, kind: str = "van__wheel") -> Markup:
    """Wheels at the mean axle or either side of it; ``beyond_m`` is how far they stand out of the body."""
    axle = scene.van.axle_m
    axles = [axle] if scene.van.axles < 2 else [axle - _AXLE_GAP_M / 2, axle + _AXLE_GAP_M / 2]
    length, width = _WHEEL_M * scene.scale, _TREAD_M * scene.scale
    parts = []
    for behind_m in axles:
        y = scene.top + behind_m * scene.scale - length / 2
        for x in (
            scene.centre - scene.half - beyond_m * scene.scale,
            scene.centre + scene.half + beyond_m * scene.scale - width,
        ):
            parts.append(
                Markup('<rect class="{}" x="{}" y="{}" width="{}" height="{}" rx="2"/>').format(
                    kind, n(x), n(y), n(width), n(length)
                )
            )
    return Markup("").join(parts)
