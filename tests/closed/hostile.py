"""The attacks as data, and the content folders that they make."""

from __future__ import annotations

import base64
import json
import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias

import yaml

TABLES = Path(__file__).with_name("attacks")
SECRET = "KEPT-OUTSIDE-THE-FOLDER"
DOT = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg=="
)
SOUND = """\
---
title: Sound
time: 10 min
---

## Method

1. Look at the water.
"""
MANUAL = "title: T\nparts:\n  - title: P\n    experiments: [{}]\n"

Row: TypeAlias = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Attack:
    """What a hostile contributor hands in."""

    name: str
    files: Mapping[str, bytes]
    links: Mapping[str, str] = field(default_factory=dict)
    pipes: tuple[str, ...] = ()
    finds: frozenset[str] = frozenset()
    """The checks that find fault with it; none where it is only words."""

    def write(self, folder: Path) -> Path:
        """The content folder, with a folder of secrets beside it."""
        content, outside = folder / "content", folder / "outside"
        outside.mkdir(parents=True)
        for kind in ("md", "png", "csv", "yaml"):
            (outside / f"secret.{kind}").write_text(f"a\n{SECRET}: 1\n")
            (folder / f"secret.{kind}").write_text(f"a\n{SECRET}: 1\n")
        for name, text in self.files.items():
            path = Path(os.fsdecode(os.fsencode(content / name)))
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.replace(b"OUTSIDE", bytes(outside)))
        for name, target in self.links.items():
            (content / name).symlink_to(target.replace("OUTSIDE", str(outside)))
        for name in self.pipes:
            os.mkfifo(content / name)
        return content


def attacks() -> Iterator[Attack]:
    """Those by whole files, in the order of their table."""
    for name, row in _table("files").items():
        yield _attack(name, row)


def _attack(name: str, row: Row) -> Attack:
    files = {"images/dot.png": DOT, "sound.md": SOUND.encode()}
    if "body" in row or "front" in row:
        body = _grown(str(row.get("body", "")))
        files["x.md"] = experiment(body, _grown(str(row.get("front", ""))))
    for path, text in _mapping(row, "files").items():
        files[_grown(path)] = _content(str(text))
    links = {path: str(to) for path, to in _mapping(row, "links").items()}
    pipes = tuple(map(str, _sequence(row, "pipes")))
    files.setdefault("manual.yaml", manual((*files, *links, *pipes)))
    finds = frozenset(map(str, _sequence(row, "finds")))
    return Attack(name, files, links, pipes, finds)


def experiment(body: str, front: str = "") -> bytes:
    """An experiment that is sound but for the hostile part."""
    head = "" if front.startswith("title:") else "title: X\n"
    time = "" if front.startswith("time:") else "time: 10 min\n"
    if not body.startswith("## "):
        body = f"## Theory\n\n{body}"
    text = f"---\n{head}{time}{front}\n---\n\n{body}\n\n## Method\n\n1. Look.\n"
    return text.encode("utf-8", "surrogatepass")


def manual(paths: tuple[str, ...]) -> bytes:
    """A manual that lists every experiment."""
    stems = [Path(path).stem for path in paths if path.endswith(".md")]
    listed = ", ".join(json.dumps(s) for s in stems if s.isprintable())
    return MANUAL.format(listed).encode()


_INNERMOST = re.compile(r"⟨(\d+) times ([^⟨⟩]*)⟩")


def _grown(text: str) -> str:
    """A text in which what is to be repeated is, from the inside out."""
    while found := _INNERMOST.search(text):
        text = text[: found.start()] + found[2] * int(found[1]) + text[found.end() :]
    return text


def _content(text: str) -> bytes:
    if text == "SOUND":
        return SOUND.encode()
    if text == "DOT":
        return DOT
    if text.startswith("BYTES:"):
        return bytes.fromhex(text.removeprefix("BYTES:"))
    if text.startswith("UTF-16:"):
        return text.removeprefix("UTF-16:").encode("utf-16")
    return _grown(text).encode("utf-8", "surrogatepass")


@dataclass(frozen=True, slots=True)
class HostilePlace:
    """A place where text is taken."""

    name: str
    file: str
    """The department's file, or x.md."""
    front: str
    body: str
    quoted: bool

    def holding(self, words: str) -> bytes:
        """The file with hostile words in the place."""
        quoted = json.dumps(words)
        put = quoted if self.quoted else words
        if self.file == "x.md":
            return experiment(
                self.body.replace("HERE", put), self.front.replace("HERE", put)
            )
        text = self.body.replace("HERE", put).replace("INSIDE", quoted[1:-1])
        if self.file == "manual.yaml":
            text = _manual_with(text)
        return text.encode("utf-8", "surrogatepass")


def _manual_with(line: str) -> str:
    rest = "" if line.startswith("title:") else "title: T\n"
    if not line.startswith("parts:"):
        rest += "parts: [{title: P, experiments: [sound]}]\n"
    return f"{rest}{line}\n"


def places(of: str) -> Iterator[HostilePlace]:
    """The places in an experiment, or those in the department's files."""
    for name, row in _mapping(_table("places"), of).items():
        assert isinstance(row, Mapping)
        quoted = row.get("quoted") == "yes"
        front, body = str(row.get("front", "")), str(row.get("body", ""))
        file = next((key for key in row if "." in key), "x.md")
        yield HostilePlace(name, file, front, str(row.get(file, body)), quoted)


def hostile_words() -> dict[str, str]:
    """What is written into each place, by name."""
    return {
        name: str(_mapping(_table("words"), name)["words"]) for name in _table("words")
    }


def _table(name: str) -> dict[str, Row]:
    text = (TABLES / f"{name}.yaml").read_text(encoding="utf-8")
    table = yaml.load(text, Loader=yaml.BaseLoader)
    assert isinstance(table, dict)
    return table


def _mapping(row: Mapping[str, object], key: str) -> Mapping[str, object]:
    found = row.get(key, {})
    assert isinstance(found, Mapping)
    return found


def _sequence(row: Row, key: str) -> list[object]:
    found = row.get(key, [])
    assert isinstance(found, list)
    return found


def files_in(folder: Path) -> dict[str, bytes]:
    """What each file of a folder holds, those of git left out."""
    return {
        p.relative_to(folder).as_posix(): p.read_bytes()
        for p in sorted(folder.rglob("*"))
        if p.is_file() and ".git" not in p.parts
    }
