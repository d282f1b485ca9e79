"""Files to start from: one for each form of block, a kind, a van, a fragment, a message.

Each reads without a fault; what is left to write says TODO, which the language rules refuse to publish.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from generator.errors import Fault, ManualError, nearest
from generator.load.inline import TOPIC, TRAIT
from generator.model.catalogue import Catalogue, Kind
from generator.model.content import Outline, Workspace

Read = Callable[[str], str]
FORMS = ("description", "procedure", "fault", "emergency", "reference")

_BODIES: Mapping[str, str] = {
    "procedure": """\
**At the end:** TODO: what the owner has then.
**You need:** TODO: what has to be at hand, and what has to be done before.

1. TODO: the first action, one only.
   You see: TODO: what shows that it worked.
2. TODO: the next action.

**Put it back:** TODO: how it is undone.
""",
    "fault": """\
**You see:** TODO: what the owner sees, hears or smells.

1. TODO: what makes it safe, or the likeliest cause to look for.
   TODO: what to do where that is it.
2. TODO: the next cause.
   Still wrong: **Stop here.** Call your dealer.

**Tell the dealer:** TODO: what they will ask.
""",
    "emergency": """\
1. TODO: the first action. Nothing stands before it.
2. TODO: get everybody out, or whom to ring: {{ term('emergency-number') }}.
3. TODO: when it is safe again.

**Tell them:** where you are, the {{ term('pitch') }} number, TODO.
""",
    "description": """\
TODO: what it is and what it does, in a sentence.

- TODO: what the owner needs to know of it.

## TODO Where it is read again

TODO: the next thing to know.
""",
    "reference": """\
| TODO What | TODO How often |
|---|---|
| TODO | TODO |
""",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Insert:
    """A line to be put into a file below another."""

    file: str
    below: int  # line from 1
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Starter:
    """A file to be written, relative to the workspace, and what is left to do elsewhere."""

    file: str
    text: str
    then: tuple[str, ...] = ()
    insert: Insert | None = None


def starter(what: str, words: tuple[str, ...], workspace: Workspace, read: Read) -> Starter:
    """Return the file that ``new`` writes.

    Args:
        what: "block", "kind", "van", "fragment" or "message".
        words: Form and topic of a block, slot/kind, or a name.
        workspace: What there is already.
        read: Returns the text of one of its files.

    Raises:
        ManualError: the words name nothing that can be started.
    """
    make, usage = _MAKERS[what]
    wanted = usage.count(" ") - usage.count("[")
    if not wanted <= len(words) <= usage.count(" "):
        many = "1 word" if wanted == 1 else f"{wanted} words"
        raise _refuse(f"{what} wants {many}, not {len(words)}", f"lockerleaf new {usage}")
    return make(words, workspace, read)


def _refuse(message: str, hint: str = "") -> ManualError:
    return ManualError(Fault(message, hint=hint))


def _block(words: tuple[str, ...], workspace: Workspace, read: Read) -> Starter:
    form, topic = words
    if form not in FORMS:
        raise _refuse(f'"{form}" is no form of a block', nearest(form, FORMS))
    if not TOPIC.fullmatch(topic):
        raise _refuse(f'"{topic}" is no topic', 'such as "fridge/run-on-gas"')
    system, name = topic.split("/")
    slot = _slot_of(system, workspace.catalogue)
    points = _points(slot, workspace.catalogue)
    answers = [block.id for block in workspace.content.blocks if block.topic.value == topic]
    taken = {block.id for block in workspace.content.blocks}
    id_ = next(each for each in _free(f"{system}/{name}") if each not in taken)
    applies = f"applies: {{all: [{slot.replace('_', '-')}]}}\n" if slot else ""
    front = [
        f"topic: {topic}",
        f'title: "TODO: {name.replace("-", " ").capitalize()}"',
        f"form: {form}",
        *(applies.splitlines()),
        *([f"at: [{points[0]}]"] if points else []),
        *(["words: [TODO]"] if form in ("procedure", "fault", "emergency") else []),
    ]
    then = [
        *((f"answered already by {', '.join(answers)}: let their applies exclude each other",) if answers else ()),
        # An emergency begins with what to do: the caution is the action itself.
        *(("say what can hurt under hazards (ids in content/safety/)",) if form != "emergency" else ()),
        "lockerleaf preview VAN shows it as you write; lockerleaf prove judges it in every van",
    ]
    body = _BODIES[form]
    text = "\n".join(["---", *front, "---", body])
    page = _page(topic, workspace.content.outline)
    return Starter(file=f"content/blocks/{id_}.md", text=text, then=tuple(then), insert=page)


def _page(topic: str, outline: Outline) -> Insert | None:
    """Return the line that puts a new topic on a page of its own: below the last page of its system, or of all."""
    pages = [page for section in outline.sections for page in section.pages]
    if topic in {one.value for page in pages for one in page.topics}:
        return None
    system, name = topic.split("/")
    of_system = [page for page in pages if any(one.value.startswith(f"{system}/") for one in page.topics)]
    last = (of_system or pages)[-1]
    taken = {page.id.value for page in pages}
    id_ = next(each for each in _free(f"{system}-{name}") if each not in taken)
    line = max(given.source.line for given in (last.id, *last.topics))
    return Insert(file=last.id.source.file, below=line, text=f"- {{id: {id_}, topics: [{topic}]}}")


def _free(name: str) -> tuple[str, ...]:
    return (name, *(f"{name}-{number}" for number in range(2, 100)))


def _slot_of(system: str, catalogue: Catalogue) -> str:
    """Return the slot that a block's system is about, where one has its name."""
    wanted = system.replace("-", "_")
    return wanted if wanted in catalogue.slots else ""


def _points(slot: str, catalogue: Catalogue) -> list[str]:
    """Return the points that every kind of a slot has."""
    kinds = [kind for key, kind in catalogue.kinds.items() if key[0] == slot]
    shared = [point for point in kinds[0].points if all(point in kind.points for kind in kinds)] if kinds else []
    return [f"{slot}.{point}" for point in shared]


def _kind(words: tuple[str, ...], workspace: Workspace, read: Read) -> Starter:
    slot, _, name = words[0].partition("/")
    catalogue = workspace.catalogue
    if slot not in catalogue.slots:
        raise _refuse(f'unknown slot "{slot}"', nearest(slot, catalogue.slots))
    if not TRAIT.fullmatch(name):
        raise _refuse(f'"{name}" is no name for a kind', 'write kebab-case: "oven/gas"')
    like = [kind for key, kind in catalogue.kinds.items() if key[0] == slot and words[1:] in ((), (kind.id,))]
    if words[1:] and not like:
        others = [kind for of, kind in catalogue.kinds if of == slot]
        raise _refuse(f'{slot} has no kind "{words[1]}" to start after', nearest(words[1], others))
    text = _like(like[0], read(like[0].source.file)) if like else _KIND
    then = (
        f"a copy of {like[0].id}: change what differs, and what says TODO"
        if like
        else "say its points, parameters and hazards",
        "lockerleaf prove names every page, message and point it still needs",
    )
    return Starter(file=f"content/equipment/{slot}/{name}.yaml", text=text, then=then)


_KIND = """\
name: "TODO name as an owner calls it"
traits: []                # its own, where pages must differ
mass: unknown             # TODO its mass, such as 4.5 kg
points: {unit: required}  # TODO where an owner stands in front of it
parameters: {}            # TODO values from its plate: {input: {name: Input, unit: W, read_from: its rating plate}}
hazards: []               # TODO ids in content/safety/
must_answer: []           # TODO topics of content/outline.yaml
controls: {}              # TODO what is turned, lights up, shows or sounds
say: {}                   # TODO sentences about what is done differently
"""


_ENTRY = re.compile(r"^(?=[a-z_]+:)", re.MULTILINE)  # where a key of a file begins


def _like(kind: Kind, text: str) -> str:
    """Return the file of a kind as a copy to be changed: its words but for its name, its mass and its sentences."""
    before, *entries = _ENTRY.split(text)
    said = "".join(f'  {key}: "TODO, as {kind.id} says: {_quoted(one.value)}"\n' for key, one in kind.say.items())
    anew = {
        "name": 'name: "TODO name as an owner calls it"\n',
        "mass": "mass: unknown             # TODO its mass, such as 4.5 kg\n",
        "say": f"say:\n{said}",
    }
    top = f"# A copy of {kind.id}. TODO: change whatever differs, here and below; then take this line away.\n"
    return top + before + "".join(anew.get(entry.partition(":")[0], entry) for entry in entries)


def _quoted(text: str) -> str:
    return text.replace("\\", "\\\\").replace('"', '\\"')


def _van(words: tuple[str, ...], workspace: Workspace, read: Read) -> Starter:
    model, chassis = words
    if model not in workspace.models:
        raise _refuse(f'unknown model "{model}"', nearest(model, workspace.models))
    if not re.fullmatch(r"[A-Za-z0-9 /.-]{1,40}", chassis):
        raise _refuse(f'"{chassis}" is no chassis number', "as it stands on the plate")
    spec = workspace.models[model]
    tail = re.sub(r"[^a-z0-9]+", "-", chassis.lower()).strip("-")[-6:].strip("-")
    text = "\n".join(
        [
            f'chassis: "{chassis}"         # as on the plate',
            f"based_on: {model}",
            *([] if spec.market else _one_of("market", workspace.markets)),
            *([] if spec.dealer else _one_of("dealer", workspace.dealers)),
            "# as_built: {unladen: 1234 kg, ball_load_unladen: 70 kg, includes: []}   # where this van was weighed",
            "# fitted: {}                # what differs from the model: slot: {kind: ..., at: {point: A1}}, or none",
            "",
        ]
    )
    return Starter(
        file=f"van_specs/vans/{model.split('-')[0]}-{tail}.yaml",
        text=text,
        then=("lockerleaf show says what it has and what is missing; lockerleaf check judges it",),
    )


def _one_of(key: str, ids: Mapping[str, object]) -> list[str]:
    """Return the line that gives ``key`` the first of its ids, and names the others."""
    return [f"{key}: {next(iter(ids), 'TODO')}  # TODO one of {', '.join(ids)}"]


def _fragment(words: tuple[str, ...], workspace: Workspace, read: Read) -> Starter:
    (name,) = words
    if not TRAIT.fullmatch(name):
        raise _refuse(f'"{name}" is no name for a fragment', 'write kebab-case: "smell-gas"')
    text = "1. TODO: the action.\n   You see: TODO: what shows that it worked.\n"
    return Starter(
        file=f"content/fragments/{name}.md",
        text=text,
        then=(f"1. {{{{ include('{name}') }}}} puts it into a block",),
    )


def _message(words: tuple[str, ...], workspace: Workspace, read: Read) -> Starter:
    (name,) = words
    if not TRAIT.fullmatch(name):
        raise _refuse(f'"{name}" is no name for a message', 'write kebab-case: "hot-flue"')
    text = (
        "signal: WARNING           # DANGER, WARNING, CAUTION, or NOTICE for damage only (ANSI Z535.6)\n"
        'hazard: "TODO: what the danger is."\n'
        'consequence: "TODO: what happens to somebody."\n'
        'avoid: "TODO: what to do, or not to do."\n'
        "sign: W001                # ISO 7010\n"
    )
    return Starter(
        file=f"content/safety/{name}.yaml",
        text=text,
        then=(f"name it under hazards of a block, or {{{{ safety('{name}') }}}} before a step",),
    )


_MAKERS: Mapping[str, tuple[Callable[[tuple[str, ...], Workspace, Read], Starter], str]] = {
    "block": (_block, "block FORM TOPIC"),
    "kind": (_kind, "kind SLOT/KIND [AFTER]"),
    "van": (_van, "van MODEL CHASSIS"),
    "fragment": (_fragment, "fragment NAME"),
    "message": (_message, "message NAME"),
}
