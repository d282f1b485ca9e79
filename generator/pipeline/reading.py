"""Reads a workspace without its build sheets, and judges its words."""

from pathlib import Path

from generator.language import Judgement, language
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


def judge_words(root: Path) -> Judgement:
    """Hold every word of content and catalogue to the rules of language and safety; build sheets are not read.

    Raises:
        ManualError: catalogue or content cannot be read.
    """
    workspace = load(root, None)
    return language(workspace.content, workspace.catalogue)
