"""Which steps a later step says to do again, and how often at the least.

Only a sentence that says nothing else counts: ``Repeat from [Step](#portion)
twice.`` One with *until*, *with* or *instead* changes what is repeated.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Final

from manualgen.model.blocks import Step
from manualgen.model.experiment import Experiment
from manualgen.model.text import Inline, Reference
from manualgen.model.walk import blocks_of, plain, texts

_NUMBERS: Final = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10,
}  # fmt: skip
_COUNT: Final = (
    rf"(?P<twice>twice)(?: more)?|(?P<once>once)(?: more)?|"
    rf"(?P<more>\d{{1,2}}|{'|'.join(_NUMBERS)}) (?:more|further|other) times?|"
    rf"(?:a |for a )?(?P<another>another)(?: (?P<n>\d|{'|'.join(_NUMBERS)}))? times?|"
    rf"(?P<times>\d{{1,2}}|{'|'.join(_NUMBERS)}) times"
)
_BEFORE = re.compile(
    r"(?:^|[.;]\s|\n)\s{0,3}(?:then |now )?repeat (?P<range>(?:everything |all |the method )?from )?$",
    re.IGNORECASE,
)
_BEHIND = re.compile(
    rf"\s{{0,3}}(?:{_COUNT})(?:,? (?:to|and) (?:get|obtain|find|take|have)\b[^.;]{{0,80}})?\s{{0,3}}(?:[.;](?:\s|$)|$)",
    re.IGNORECASE,
)


def repeated(experiment: Experiment) -> Mapping[int, int]:
    """How many times more each step is done, by its number, where that is said."""
    more: Counter[int] = Counter()
    steps = tuple(blocks_of(experiment, Step))
    numbers = {step.name: step.number for step in steps if step.name}
    for step in steps:
        for name, is_range, count in _orders(step):
            first = numbers.get(name)
            if first is None or first >= step.number:
                continue
            last = step.number - 1 if is_range else first
            for number in range(first, last + 1):
                more[number] += count
    return more


def _orders(step: Step) -> Iterator[tuple[str, bool, int]]:
    """The named steps that one step repeats, whether on from there, and how often."""
    for block in step.blocks:
        for content in texts(block):
            for at, inline in enumerate(content):
                if isinstance(inline, Reference) and inline.name:
                    found = _order(content[:at], content[at + 1 :])
                    if found:
                        yield inline.name, *found


def _order(
    before: tuple[Inline, ...], behind: tuple[Inline, ...]
) -> tuple[bool, int] | None:
    asked = _BEFORE.search(plain(before))
    count = _BEHIND.match(plain(behind))
    if asked is None or count is None:
        return None
    return bool(asked["range"]), _least(count)


def _least(count: re.Match[str]) -> int:
    """How often at the least: *three times* may mean three in all."""
    if count["twice"]:
        return 2
    if count["once"]:
        return 1
    if count["another"]:
        return _number(count["n"]) if count["n"] else 1
    return _number(count["more"]) if count["more"] else _number(count["times"]) - 1


def _number(word: str) -> int:
    return _NUMBERS.get(word.casefold()) or int(word)
