"""What a user may have meant by a name that nothing has."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

MOST = 5
"""Names offered."""


def near_names(word: str, known: Mapping[str, str]) -> tuple[str, ...]:
    """The known names, each with its title, that a word begins, is part of or is like.

    >>> near_names("titr", {"titration": "Vinegar", "alum": "Crystals"})
    ('titration',)
    >>> near_names("Vinegar", {"titration": "Ethanoic acid in vinegar"})
    ('titration',)
    """
    stem = PurePosixPath(word.replace("\\", "/")).name.removesuffix(".md").casefold()
    if not stem:
        return ()
    within = [
        name
        for name, title in known.items()
        if stem in name.casefold() or f" {stem}" in f" {title.casefold()}"
    ]
    folded = {name.casefold(): name for name in known}
    like = difflib.get_close_matches(stem, folded, n=MOST, cutoff=0.6)
    return tuple(dict.fromkeys([*within, *(folded[n] for n in like)]))[:MOST]


def no_experiment(word: str, known: Mapping[str, str]) -> str:
    """That no experiment has a name, and which ones have a name near it."""
    near = near_names(word, known)
    told = f"there is no experiment {word!r}"
    if near:
        return f"{told}; did you mean {' or '.join(near)}?"
    if not known:
        return f"{told}, and no other could be read"
    names = sorted(known)
    more = f" and {len(names) - MOST} more" if len(names) > MOST else ""
    return f"{told}; the manual has {', '.join(names[:MOST])}{more}"


def no_folder(text: str, here: Path = Path()) -> str:
    """That there is no content folder of that name, and what there is instead."""
    path = Path(text)
    if path.is_file():
        holders = (p for p in path.parents if (p / "manual.yaml").is_file())
        holder = next(holders, path.parent).as_posix()
        return f"{text} is one file, and a whole folder is read: name {holder}"
    told = f"there is no folder {text}"
    if (here / "manual.yaml").is_file():
        return f"{told}; this one holds a manual.yaml: name it with a dot"
    folders = {
        each.parent.relative_to(here).as_posix(): ""
        for each in sorted(here.glob("*/manual.yaml"))
    }
    if folder := next(iter(near_names(text, folders)), None):
        return f"{told}; did you mean {folder}?"
    for folder in folders:
        stems = {each.stem: "" for each in sorted((here / folder).rglob("*.md"))}
        if near := near_names(text, stems):
            return (
                f"{told}; a whole folder is read, and {folder} has "
                f"{' and '.join(near)} in it: name {folder}"
            )
    if folders:
        return f"{told}; there is {' and '.join(folders)}"
    return f"{told}; manualgen start FOLDER makes one"
