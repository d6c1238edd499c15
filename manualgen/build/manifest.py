"""What a site was built from, so that an unchanged manual is not built again."""

from __future__ import annotations

import datetime
import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.metadata import requires, version
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import TypeAlias

from manualgen.press.publishing import CARRIED_OVER, MAKER, MANIFEST
from manualgen.sources import Source, SourceError

Inputs: TypeAlias = Mapping[str, object]

TEMPLATES = "manualgen_templates"
"""What `manualgen.pages` renders, whose modules are not loaded for its name."""

DIGEST_LIMIT = 100_000_000
"""Bytes of the largest file whose digest is taken."""


def inputs_of(
    source: Source, today: datetime.date, asked_for: Mapping[str, object]
) -> Inputs:
    """Everything that shapes a site: sources, program, date and what is asked for."""
    return {
        "date": today.isoformat(),
        "asked_for": asked_for,
        "program": _program_digest(),
        "libraries": _libraries(),
        "sources": sources_of(source),
    }


def sources_of(source: Source) -> dict[str, str]:
    """The digest of every file of a content folder, by its path."""
    return {path: _source_digest(source, path) for path in source.files()}


def is_current(out: Path, inputs: Inputs) -> bool:
    """Whether the site at ``out`` is whole and was built from these inputs."""
    try:
        manifest = json.loads((out / MANIFEST).read_text(encoding="utf-8"))
        return bool(
            manifest["inputs"] == inputs and manifest["outputs"] == _outputs(out)
        )
    except (OSError, ValueError, KeyError, TypeError):
        return False


def write_manifest(folder: Path, inputs: Inputs) -> None:
    """Write down what the site in ``folder`` was built from, and what came of it."""
    manifest = {
        "version": 1,
        "maker": f"{MAKER} {version(MAKER)}",
        "inputs": inputs,
        "outputs": _outputs(folder),
    }
    text = json.dumps(manifest, ensure_ascii=False, indent=1, sort_keys=True)
    (folder / MANIFEST).write_text(text + "\n", encoding="utf-8")


def _outputs(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): _digest(path.read_bytes())
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name not in (*CARRIED_OVER, MANIFEST)
    }


def _source_digest(source: Source, path: str) -> str:
    try:
        return _digest(source.read(path, DIGEST_LIMIT))
    except SourceError as error:
        return f"unread: {error}"


@cache
def _program_digest() -> str:
    digest = hashlib.sha256()
    for package in (MAKER, TEMPLATES):
        for item in _files(files(package)):
            digest.update(item.read_bytes())
    return digest.hexdigest()


def _libraries() -> dict[str, str]:
    """The versions of what the program is built on, but for what only tests need."""
    needed = [need for need in requires(MAKER) or () if "extra ==" not in need]
    names = (re.split(r"[^\w.-]", need, maxsplit=1)[0] for need in needed)
    return {name: version(name) for name in names}


def _files(folder: Traversable) -> Iterable[Traversable]:
    for item in sorted(folder.iterdir(), key=lambda i: i.name):
        if item.is_dir():
            if item.name != "__pycache__":
                yield from _files(item)
        elif not item.name.endswith(".pyc"):
            yield item


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
