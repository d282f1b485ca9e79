"""The catalogue of what can be fitted: slots, kinds, the rules between them and derived traits."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.errors import Source
from generator.model.dates import DateRule
from generator.model.sourced import Given, Mass

# Field order below is the order in the files.

# How a panel draws a control. "breakers" is a row of circuit breakers, "keys" are buttons with a word on each, a
# "window" shows words of what is seen in it. The needle of a "gauge" stands in its field, that of a "meter" upright,
# for the first of its looks; for any other it lies at the left.
Drawn = Literal[
    "dial", "switch", "breaker", "breakers", "keys", "button", "lamp", "display", "window", "gauge", "meter"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A position equipment is fitted to. Filling it gives the trait of its own name, in kebab-case."""

    id: str
    name: str  # as an owner calls it: "Water heater"
    required: bool = False
    many: bool = False
    source: Source

    @property
    def trait(self) -> str:
        """The trait a filled slot gives: slot ``hot_water`` gives ``hot-water``."""
        return self.id.replace("_", "-")


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """A value of a fitted kind: a quantity in ``unit``, one of ``choices``, or a ``count``.

    With ``many`` the text is a comma-separated list ("500 W, 1000 W, 2000 W"). ``basis: required``
    makes a fitting say ``basis: net`` or ``gross``. Without ``default`` a fitting must give it (or
    ``unknown``), unless ``optional``.
    """

    name: str  # as printed beside the value: "Tank volume"
    unit: str | None = None
    choices: tuple[str, ...] = ()
    count: bool = False
    many: bool = False
    default: Given[str] | None = None
    basis: Literal["required", "net", "gross"] | None = None
    optional: bool = False
    read_from: str = ""  # what an owner or dealer reads when it is unknown: "the rating plate of the heater"
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """Something on the equipment that is turned, lights up, shows a message or sounds.

    One of ``positions``, ``lamp``, ``message`` or ``sound`` is given. ``means`` names the topic to
    read, ``shows`` says it in words. ``drawn`` is how a panel draws it; without, as a switch, lamp or display.
    Controls of one point and one name are one thing to look at: a lamp that is green or red.
    """

    name: str = ""
    at: Given[str]
    positions: tuple[str, ...] = ()
    unit: str | None = None
    lamp: str | None = None
    message: str | None = None
    sound: str | None = None
    shows: str = ""
    means: Given[str] | None = None
    drawn: Drawn | None = None
    source: Source

    @property
    def form(self) -> Drawn:
        """How a panel draws it."""
        return self.drawn or ("lamp" if self.lamp else "display" if self.message else "switch")

    @property
    def settings(self) -> tuple[str, ...]:
        """What a state may say of it: one of its positions, that its lamp is lit or its message shown."""
        return self.positions or (("lit",) if self.lamp else ("shown",) if self.message else ())


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What fits a slot: one file of the catalogue; ``id`` is its file name.

    ``panels`` has, by point, the rows of controls that are drawn there; ``states`` name settings of one panel, as in
    ``on_gas: {dial: "50", burning: lit}``.
    """

    id: str
    slot: str
    name: str
    traits: tuple[Given[str], ...] = ()
    mass: Mass | None = None
    points: Mapping[str, Literal["required", "optional"]] = field(default_factory=dict)
    parameters: Mapping[str, Parameter] = field(default_factory=dict)
    hazards: tuple[Given[str], ...] = ()
    must_answer: tuple[Given[str], ...] = ()
    controls: Mapping[str, Control] = field(default_factory=dict)
    panels: Mapping[str, tuple[tuple[Given[str], ...], ...]] = field(default_factory=dict)
    states: Mapping[str, Mapping[str, Given[str]]] = field(default_factory=dict)
    say: Mapping[str, Given[str]] = field(default_factory=dict)
    also_fills: tuple[Given[str], ...] = ()
    dates: tuple[DateRule, ...] = ()
    pictures: Mapping[str, Given[str]] = field(default_factory=dict)  # name -> id in content/pictures.yaml
    source: Source

    @property
    def drawings(self) -> Mapping[str, str]:
        """What blocks may have drawn, by name, each with its point: a panel by its point, a state, one lamp or message.

        Where a panel and a lamp share a name it is the panel.
        """
        shown = {given.value for rows in self.panels.values() for row in rows for given in row}
        parts = {(one.at.value, one.name) for name in shown if (one := self.controls.get(name))}
        looks = {
            name: one.at.value
            for name, one in self.controls.items()
            if (one.lamp or one.message) and (one.at.value, one.name) in parts
        }
        states = {
            name: next(self.controls[control].at.value for control in state if control in self.controls)
            for name, state in self.states.items()
            if any(control in self.controls for control in state)
        }
        return {**looks, **states, **{point: point for point in self.panels}}


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """Traits that must all hold and traits of which none may."""

    all: tuple[Given[str], ...] = ()
    none: tuple[Given[str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """Where all of ``when`` hold, all of ``need`` must and none of ``exclude`` may; ``why`` for the fault."""

    when: tuple[Given[str], ...]
    need: tuple[Given[str], ...] = ()
    exclude: tuple[Given[str], ...] = ()
    why: str = ""
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class DerivedTrait:
    """A trait that follows from others: any of ``any`` (where given), all of ``all``, none of ``none``."""

    id: str
    any: tuple[Given[str], ...] = ()
    all: tuple[Given[str], ...] = ()
    none: tuple[Given[str], ...] = ()
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """All kinds by (slot, kind id), with slots in file order."""

    slots: Mapping[str, Slot]
    kinds: Mapping[tuple[str, str], Kind]
    rules: tuple[Rule, ...]
    derived: tuple[DerivedTrait, ...]  # in an order in which each only uses earlier ones
