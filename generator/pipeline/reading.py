"""Reads a workspace without its build sheets, and judges its words."""

from collections.abc import Sequence
from pathlib import Path

from generator.language import Judgement, asked_for, language
from generator.load import load
from generator.model.content import Workspace


def read_workspace(root: Path, names_known: bool = True) -> Workspace:
    """Return what a workspace holds, build sheets of vans left out.

    Args:
        root: The workspace.
        names_known: Whether a name that nothing has is a fault.

    Raises:
        ManualError: all its faults.
    """
    return load(root, None, names_known=names_known)


def judge_words(root: Path, names: Sequence[str] = ()) -> Judgement:
    """Hold every word of content and catalogue to the rules of language and safety; build sheets are not read.

    Args:
        root: The workspace.
        names: Rules, blocks, kinds, messages or files; what is found elsewhere is left out. None of them means all.

    Raises:
        ManualError: catalogue or content cannot be read, or a name is unknown.
    """
    workspace = load(root, None)
    judged = language(workspace.content, workspace.catalogue)
    return judged.only(asked_for(names, workspace.content, workspace.catalogue)) if names else judged
