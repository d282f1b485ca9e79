"""Bounds no touring caravan leaves; they catch a slip of unit or a sign.

Limits of this van (payload, ball load against the coupling) are judged by ``compute``.
Common practice, no source: wide on purpose.
"""

from generator.errors import Source
from generator.model.sourced import Unknown
from generator.resolve.faults import Faults
from generator.units import Quantity, parse

_BOUNDS = {
    "masses.unladen": ("50 kg", "5000 kg"),
    "masses.max_laden": ("100 kg", "5000 kg"),
    "masses.max_axle": ("50 kg", "5000 kg"),
    "masses.max_ball_load": ("5 kg", "600 kg"),
    "masses.ball_load_unladen": ("0 kg", "600 kg"),
    "body.length": ("1 m", "15 m"),
    "body.width": ("1 m", "3 m"),
    "body.height": ("0.5 m", "4.5 m"),
    "body.overall_length": ("1.5 m", "18 m"),
    "body.coupling_to_axle": ("0.5 m", "12 m"),
    "body.track": ("0.5 m", "2.8 m"),
    "body.ventilation": ("500 mm2", "500000 mm2"),
    "wheels.pressure": ("1 bar", "8 bar"),
    "wheels.nut_torque": ("30 N*m", "400 N*m"),
    "max_contents": ("0.5 kg", "1000 kg"),
    "fuse": ("0.5 A", "200 A"),
    "run": ("0.1 m", "30 m"),
    "section": ("0.5 mm2", "120 mm2"),
    "mass": ("0 kg", "500 kg"),
}  # fmt: skip


def is_plausible(path: str, value: Quantity | Unknown) -> bool:
    """Return whether a value lies within the bounds of ``path``, a key of the bounds, or is not known."""
    if isinstance(value, Unknown):
        return True
    least, most = (parse(bound, bound.split()[1]) for bound in _BOUNDS[path])
    return bool(least <= value <= most)


def check_plausible(path: str, value: Quantity | Unknown, source: Source, faults: Faults) -> None:
    """Add a fault for a value outside the bounds of ``path``, at the position where it was written."""
    if isinstance(value, Unknown) or is_plausible(path, value):
        return
    least, most = _BOUNDS[path]
    hint = f"it lies between {least} and {most}; check sign and unit"
    faults.add(f"{path} of {value.magnitude:g} {value.units:~P} cannot be right", source, hint)
