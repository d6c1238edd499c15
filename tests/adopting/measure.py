"""How near a draft comes to the one that a careful colleague made.

A needed thing has landed where the same list has the same entry; a step where a
step has the same words, but for a few; what is seen where a line with a blank
has them; a break where a practical begins at the same line or time. What has
not landed must stand under *Not placed yet*.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from pathlib import Path

import yaml

COLLEAGUE = Path(__file__).parent / "colleague"
ALIKE = 0.8
"""Share of words that two steps have in common."""

_FORMULA_BESIDE = re.compile(r" \(`[^`]+`\)")
_ITEM = re.compile(r"^(?:\d+\.|-) (.*(?:\n(?! *[>\[\n-]| *\d+\.).+)*)", re.MULTILINE)


@dataclass(frozen=True)
class Practical:
    begins: str
    needs: tuple[str, ...]
    steps: tuple[str, ...]
    seen: tuple[str, ...]
    unplaced: str


@dataclass
class Tally:
    expected: int = 0
    landed: int = 0
    astray: list[str] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)

    @property
    def percent(self) -> float:
        return 100 * self.landed / self.expected if self.expected else 100.0


def colleague(name: str) -> list[Practical]:
    text = (COLLEAGUE / f"{name}.md").read_text(encoding="utf-8")
    parts = re.split(r"^===== (.*)\n", text, flags=re.MULTILINE)[1:]
    pairs = zip(parts[::2], parts[1::2], strict=True)
    return [practical(begins, draft) for begins, draft in pairs]


def practical(begins: str, draft: str) -> Practical:
    _, front, body = draft.split("---\n", 2)
    listed = yaml.load(front, Loader=yaml.CBaseLoader)
    needs = [
        f"{key}: {entry}"
        for key in ("chemicals", "apparatus")
        for entry in listed.get(key, [])
    ]
    return Practical(
        begins,
        tuple(needs),
        tuple(_items(_section(body, "## Method"))),
        tuple(_items(_section(body, "## Observations"))),
        _section(body, "### Not placed yet"),
    )


def compare(expected: list[Practical], found: list[Practical]) -> Tally:
    tally = Tally()
    begun = {p.begins: p for p in found}
    unplaced = words(" ".join(p.unplaced for p in found))
    for wanted in expected:
        _count(tally, f"break {wanted.begins}", wanted.begins in begun, unplaced)
        draft = begun.get(wanted.begins, Practical("", (), (), (), ""))
        _compare(tally, wanted, draft, unplaced)
    for extra in begun.keys() - {p.begins for p in expected}:
        _count(tally, f"no break {extra}", False, unplaced)
    return tally


def _compare(tally: Tally, wanted: Practical, draft: Practical, rest: str) -> None:
    for need in wanted.needs:
        _count(tally, need, need in draft.needs, rest)
    left = list(draft.steps)
    for step in wanted.steps:
        _count(tally, step, _taken(step, left), rest)
    for line in wanted.seen:
        _count(tally, line, any(_is_seen(line, other) for other in draft.seen), rest)
    for extra in [n for n in draft.needs if n not in wanted.needs]:
        tally.astray.append(f"extra {extra}")
    tally.astray += [f"extra {step}" for step in left]


def _count(tally: Tally, what: str, landed: bool, rest: str) -> None:
    tally.expected += 1
    tally.landed += landed
    if not landed:
        bare = words(what.removeprefix("chemicals: ").removeprefix("apparatus: "))
        is_there = all(f" {word} " in rest for word in bare.split())
        (tally.unplaced if is_there else tally.astray).append(what)


def _taken(step: str, left: list[str]) -> bool:
    """Whether one of the steps that are left is this one; it is used up."""
    for other in left:
        if likeness(step, other) >= ALIKE:
            left.remove(other)
            return True
    return False


def _is_seen(line: str, other: str) -> bool:
    blanks = [
        set(words(" ".join(re.findall(r"\[_(.*?)_\]", t))).split())
        for t in (line, other)
    ]
    return likeness(line, other) >= ALIKE and bool(blanks[0] & blanks[1])


def likeness(one: str, other: str) -> float:
    return SequenceMatcher(None, words(one).split(), words(other).split()).ratio()


def words(text: str) -> str:
    bare = _FORMULA_BESIDE.sub("", text).casefold()
    row = re.findall(r"[\w°%.]+", bare.replace("[_", " ").replace("_]", " "))
    return f" {' '.join(w.rstrip('.') for w in row)} "


def _items(section: str) -> Iterable[str]:
    return [" ".join(found.split()) for found in _ITEM.findall(section)]


def _section(body: str, heading: str) -> str:
    found = re.search(rf"^{heading}\n(.*?)(?=^#|\Z)", body, re.MULTILINE | re.DOTALL)
    return found[1] if found else ""
