"""Answers where subjects are used, over every van of the workspace."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.compute import DECLARED
from generator.errors import Fault, Level
from generator.model.content import Workspace
from generator.pipeline.examining import Surveyed, survey_vans
from generator.pipeline.making import Tick, quiet
from generator.reach.changed import changed_files
from generator.reach.hits import hits
from generator.reach.named import named
from generator.reach.subjects import Subject, of_files, of_words
from generator.reach.telling import Answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The answers, and what keeps a van or a file out of them."""

    answers: tuple[Answer, ...]
    faults: tuple[Fault, ...]


def ask(root: Path, words: Sequence[str], since: str | None, tick: Tick = quiet) -> Asked:
    """Return where each subject is used.

    Args:
        root: The workspace.
        words: Ids, ``sort:id`` or files.
        since: A commit; what differs from it is asked for as well.
        tick: Told after each van.

    Raises:
        ManualError: a word names nothing, git does not answer, or the workspace cannot be read.
    """
    files = changed_files(root, since) if since else ()
    survey = survey_vans(root, tick)
    workspace = survey.workspace
    subjects = dict.fromkeys((*of_words(words, workspace, DECLARED), *of_files(files, workspace)))
    faults = [fault for fault in survey.faults if fault.level is Level.ERROR]
    faults += [note for file in files if (note := _nothing_in(file, root, workspace))]
    return Asked(answers=tuple(_answer(subject, survey) for subject in subjects), faults=tuple(faults))


def _answer(subject: Subject, survey: Surveyed) -> Answer:
    workspace = survey.workspace
    found = [hit for van in survey.vans for hit in hits(subject, van, workspace, DECLARED)]
    file, title = _told(subject, workspace)
    return Answer(
        subject=subject,
        file=file,
        title=title,
        named=named(subject, workspace, DECLARED),
        hits=tuple(found),
        vans=len(workspace.vans),
    )


def _told(subject: Subject, workspace: Workspace) -> tuple[str, str]:
    """Return file and title of a subject, where it has them."""
    content, catalogue = workspace.content, workspace.catalogue
    match subject.sort:
        case "block":
            block = next(block for block in content.blocks if block.id == subject.id)
            return block.source.file, block.title.value
        case "message":
            message = content.safety[subject.id]
            return message.source.file, f"{message.signal}: {message.hazard.value}"
        case "kind":
            slot, _, kind = subject.id.partition("/")
            return catalogue.kinds[slot, kind].source.file, catalogue.kinds[slot, kind].name
        case "slot":
            return catalogue.slots[subject.id].source.file, catalogue.slots[subject.id].name
        case "picture":
            return f"content/pictures/{content.pictures[subject.id].file.value}", content.pictures[subject.id].alt.value
        case "fragment":
            return content.fragments[subject.id].source.file, ""
        case "number" | "table":
            return "generator/compute", DECLARED[subject.id].title
        case _:
            return "", ""


def _nothing_in(file: str, root: Path, workspace: Workspace) -> Fault | None:
    """Return a warning for a changed file of the sources that no subject stands in."""
    if not file.startswith(("content/", "van_specs/")) or of_files([file], workspace):
        return None
    if not (root / file).exists():
        return Fault(f"{file} is gone; what named it is told by check and prove", level=Level.WARNING)
    return Fault(f"{file} is read as a whole: it may touch every van", level=Level.WARNING)
