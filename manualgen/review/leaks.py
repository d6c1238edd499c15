"""What students could not read and now can: the change that a reviewer must see.

An answer, a blank's word, a teacher's note can come into the students' edition
by a slip of one mark, and no check can know that it was not meant.  So whatever
only the teacher read is looked for in what students newly read.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from typing import TypeAlias

from manualgen.review.changes import Change
from manualgen.review.pieces import Fact, Piece

LEAK = "students can now read what only the teacher could"
LEAST_WORDS = 4
"""A clause of fewer words than this may well be the same by chance."""
LEAST_RUN = 8
"""So may fewer words in a row that are no whole clause."""

_BLANK = re.compile(r"\[_(.+?)_\]")
_WORD = re.compile(r"\w+(?:[.,]\w+)*")
_MARKS = re.compile(r"\s*\[(?:max )?\d+\]")
_CLAUSE_END = re.compile(r"[.;!?](?=\s|$)")

Gram: TypeAlias = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Secret:
    """A text that the teacher alone reads, and the runs by which it is known again."""

    text: str
    words: Gram
    spans: tuple[tuple[int, int], ...]
    """Where each word stands in the text."""
    runs: tuple[tuple[int, int], ...]
    """The first word of each and the one after its last; none is said in the open."""

    def read_in(self, words: Gram) -> str | None:
        """The longest stretch around the first run that can be read there, or None."""
        said = f" {' '.join(words)} "
        first, last = next(
            (run for run in self.runs if self._run(*run) in said), (0, 0)
        )
        if not last:
            return None
        while last < len(self.words) and self._run(first, last + 1) in said:
            last += 1
        while first and self._run(first - 1, last) in said:
            first -= 1
        return self._quoted(first, last)

    def _run(self, first: int, last: int) -> str:
        return f" {' '.join(self.words[first:last])} "

    def _quoted(self, first: int, last: int) -> str:
        start, end = self.spans[first][0], self.spans[last - 1][1]
        stop = _CLAUSE_END.match(self.text, _past_marks(self.text, end))
        said = self.text[start : stop.end() if stop else end]
        return " ".join(_MARKS.sub("", said).split())


class Hidden:
    """What only the teacher could read of the older version."""

    def __init__(self, before: Sequence[Piece]) -> None:
        facts = [fact for piece in before for fact in piece.facts]
        public = _words(" ".join(fact.shown for fact in facts))
        hidden = dict.fromkeys(f.text for f in facts if f.text and not f.shown)
        said, grams = f" {' '.join(public)} ", _grams(public, LEAST_RUN)
        secrets = (_secret(text, said, grams) for text in hidden)
        self._secrets = tuple(
            (_grams(secret.words, LEAST_WORDS), secret)
            for secret in secrets
            if secret.runs
        )

    def flagged(self, change: Change, old: Piece | None, now: Fact | None) -> Change:
        """The change, told as a leak where it lets something out."""
        if change.leak or now is None or not now.shown:
            return change
        secret = self._uncovered(old, now)
        if secret is None:
            return change
        quoted = f": “{secret}”" if secret and secret != change.after else ""
        return replace(change, consequence=LEAK + quoted, leak=True)

    def _uncovered(self, old: Piece | None, now: Fact) -> str | None:
        """What comes out, empty for the whole; None where nothing does."""
        was = {fact.kind: fact for fact in old.facts} if old else {}
        same = was.get(now.kind)
        hidden = [f.text for f in was.values() if f.text and not f.shown]
        if now.text in hidden or (same and same.text and not same.shown):
            return ""
        words = _spaced(now.shown)
        for blank in _closed(same) - _closed(now):
            if words.count(blank) > (_spaced(same.shown).count(blank) if same else 0):
                return blank.strip()
        read = _words(now.shown)
        grams = _grams(read, LEAST_WORDS)
        near = (s for of, s in self._secrets if not grams.isdisjoint(of))
        return next((text for s in near if (text := s.read_in(read))), None)


def _closed(fact: Fact | None) -> set[str]:
    """The words in the blanks of a fact that students read."""
    return {_spaced(b) for b in _BLANK.findall(fact.text)} if fact else set()


def _secret(text: str, public: str, grams: AbstractSet[Gram]) -> _Secret:
    """What is to be looked for of a hidden text, but for what is said in the open."""
    found = list(_WORD.finditer(_without_marks(text)))
    words = tuple(match[0].casefold() for match in found)
    spans = tuple(match.span() for match in found)
    clauses = (
        run
        for run in _clauses(text, spans)
        if run[1] - run[0] >= LEAST_WORDS
        and f" {' '.join(words[slice(*run)])} " not in public
    )
    pieces = (
        (n, n + LEAST_RUN)
        for n in range(len(words) - LEAST_RUN + 1)
        if words[n : n + LEAST_RUN] not in grams
    )
    return _Secret(text, words, spans, (*clauses, *pieces))


def _clauses(text: str, spans: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Each clause, by its first word and the word after its last."""
    starts = [start for start, _ in spans]
    first = 0
    for end in (*(match.end() for match in _CLAUSE_END.finditer(text)), len(text)):
        last = bisect_left(starts, end)
        if last > first:
            yield first, last
        first = last


def _without_marks(text: str) -> str:
    """The text with blanks where marks stand, so that every word keeps its place."""
    return _MARKS.sub(lambda match: " " * len(match[0]), text)


def _past_marks(text: str, at: int) -> int:
    marks = _MARKS.match(text, at)
    return marks.end() if marks else at


def _words(text: str) -> Gram:
    """The words alone, in small letters."""
    return tuple(_WORD.findall(_MARKS.sub("", text).casefold()))


def _grams(words: Gram, length: int) -> AbstractSet[Gram]:
    """Every run of so many words."""
    return {words[n : n + length] for n in range(len(words) - length + 1)}


def _spaced(text: str) -> str:
    """The words alone, a blank around each."""
    return f" {' '.join(_words(text))} "
