"""What a passage of the Method names: listed chemicals, other chemicals, apparatus."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from manualgen.knowledge import (
    ApparatusMention,
    Chemical,
    find_by_formula,
    mentions,
)
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Lineup
from manualgen.working.method import Passage

_NEGATED = re.compile(
    r"\b(?:do not|don't|does not|never|not|no|without|instead of|rather than|avoid|"
    r"must not|cannot|nor|neither)\b",
    re.IGNORECASE,
)
_LOOK_BACK: Final = 80
_VAGUE_NAMES: Final = frozenset({"solution", "solutions", "solid", "solids"})


@dataclass(frozen=True, slots=True)
class Named:
    """A chemical named in a passage."""

    start: int
    end: int
    entries: tuple[int, ...] = ()
    """The listed chemicals that it may mean; none for one that is not listed."""
    chemical: Chemical | None = None
    """What the tables take the words for; None for a word such as *the acid*."""
    short: bool = False
    negated: bool = False

    @property
    def sole(self) -> int | None:
        """The one listed chemical that is meant, if it is one."""
        return self.entries[0] if len(self.entries) == 1 else None


@dataclass(frozen=True, slots=True)
class NamedInPassage:
    """A passage with what it names, in order."""

    passage: Passage
    chemicals: tuple[Named, ...]
    apparatus: tuple[ApparatusMention, ...]

    @property
    def text(self) -> str:
        """The passage's words."""
        return self.passage.prose.text


def named_in(
    passage: Passage, lineup: Lineup, laboratory: Laboratory
) -> NamedInPassage:
    """The chemicals and apparatus that a passage names, the longest words first."""
    text = passage.prose.text
    found = mentions(text, laboratory.store, laboratory.vocabulary)
    candidates = [
        *(Named(p.start, p.end, p.value) for p in lineup.names.find(text)),
        *(_mentioned(m.chemical, m.start, m.end, lineup) for m in found.chemicals),
        *_by_formula(passage, lineup, laboratory),
        *(Named(p.start, p.end, p.value, short=True) for p in lineup.short.find(text)),
    ]
    kept = _without_overlaps(candidates, found.apparatus)
    return NamedInPassage(
        passage, tuple(_with_negation(n, text) for n in kept), found.apparatus
    )


def is_negated(text: str, start: int) -> bool:
    """Whether words stand in a clause that forbids or denies them."""
    begin = max(0, start - _LOOK_BACK)
    clause = max(text.rfind(sign, begin, start) + 1 for sign in ".,;:")
    return bool(_NEGATED.search(text, max(begin, clause), start))


def is_vague_name(text: str, named: Named) -> bool:
    """Whether a short name, *the solution*, may mean something just made."""
    return named.short and text[named.start : named.end].casefold() in _VAGUE_NAMES


def _mentioned(chemical: Chemical, start: int, end: int, lineup: Lineup) -> Named:
    return Named(start, end, lineup.of_substance(chemical.substance), chemical)


def _by_formula(
    passage: Passage, lineup: Lineup, laboratory: Laboratory
) -> Iterator[Named]:
    for start, end, span in passage.prose.formulas():
        if span.formula.charge:
            continue
        chemical = find_by_formula(span.formula, span.state, laboratory.store)
        if chemical is not None:
            yield _mentioned(chemical, start, end, lineup)


def _without_overlaps(
    candidates: Iterable[Named], apparatus: Iterable[ApparatusMention]
) -> list[Named]:
    """The longest at each place; of equals what is listed, and the list's own name first."""
    taken = [(a.start, a.end) for a in apparatus]
    kept: list[Named] = []
    for named in sorted(candidates, key=lambda n: (n.start - n.end, not n.entries)):
        over = [k for k in kept if k.start < named.end and named.start < k.end]
        longer = any(
            s <= named.start and named.end <= e and e - s > named.end - named.start
            for s, e in taken
        )
        if not over and not longer:
            kept.append(named)
    return sorted(kept, key=lambda n: n.start)


def _with_negation(named: Named, text: str) -> Named:
    if not is_negated(text, named.start):
        return named
    return Named(
        named.start, named.end, named.entries, named.chemical, named.short, negated=True
    )
