"""``manualgen start``: a new manual with one experiment that builds."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

from manualgen.commands.faults import TOOL_FAILED, WRONG_USAGE, CommandError
from manualgen.knowledge.labels import label_keys

EXAMPLE = "manualgen start our-practicals"

SCHEMAS = ("apparatus", "chemicals", "experiment", "manual")


MADE = ("site", ".manualgen-cache")
"""What a build makes, which is no part of a manual's history."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words."""
    parser.add_argument(
        "folder", type=Path, metavar="FOLDER", help="a new folder, or an empty one"
    )


def _is_free(folder: Path) -> bool:
    """Whether nothing is in a folder but what is hidden, as in a new repository."""
    return folder.is_dir() and all(p.name.startswith(".") for p in folder.iterdir())


def run(options: argparse.Namespace) -> int:
    """Write a content folder, and beside it the schemas that editors use."""
    folder: Path = options.folder
    if folder.exists() and not _is_free(folder):
        raise CommandError(f"{folder} is not empty; name a new folder", WRONG_USAGE)
    try:
        for name, text in _files():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            if not path.exists():  # such as a new repository's own .gitignore
                path.write_text(text, encoding="utf-8")
    except OSError as error:
        raise CommandError(
            f"cannot write {folder}: {error.strerror}", TOOL_FAILED
        ) from error
    content = folder / "content"
    sys.stdout.write(
        f"{content} holds a manual with one experiment; go on with\n"
        f"  manualgen check {content}\n"
        f"  manualgen build {content} --out {folder / 'site'}\n"
    )
    return 0


def _files() -> Iterator[tuple[str, str]]:
    for item in files("manualgen.data").joinpath("start").iterdir():
        yield f"content/{item.name}", item.read_text(encoding="utf-8")
    yield ".gitignore", "".join(f"{made}/\n" for made in MADE)
    yield from schema_files()


def schema_files() -> Iterator[tuple[str, str]]:
    """The schemas that editors use, by their paths from beside a content folder."""
    for name in SCHEMAS:
        schema = files("manualgen.data").joinpath("schemas", f"{name}.json")
        yield f".schemas/{name}.json", schema.read_text(encoding="utf-8")
    yield ".schemas/labels.json", json.dumps(_labels_schema(), indent=2) + "\n"


def _labels_schema() -> dict[str, object]:
    """The JSON Schema of labels.yaml, from the table of labels itself."""
    words = {
        key: {"type": "string", "examples": [english]}
        for key, english in label_keys().items()
    }
    language = {"type": "object", "properties": words, "additionalProperties": False}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "labels.yaml of a manualgen content folder",
        "type": "object",
        "propertyNames": {"pattern": "^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$"},
        "additionalProperties": language,
    }
