"""What students could not read and now can: the change that a reviewer must see.

An answer, a blank's word, a teacher's note can come into the students' edition
by a slip of one mark, and no check can know that it was not meant.  So whatever
only the teacher read is looked for in what students newly read.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from manualgen.review.changes import Change
from manualgen.review.pieces import Fact, Piece

LEAK = "students can now read what only the teacher could"
LEAST_WORDS = 4
"""Fewer words than this in a row may well be the same by chance."""

_BLANK = re.compile(r"\[_(.+?)_\]")
_WORD = re.compile(r"\w+(?:[.,]\w+)*")
_MARKS = re.compile(r"\s*\[(?:max )?\d+\]")
_CLAUSE = re.compile(r"\S.*?(?:[.;!?](?=\s)|$)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class _Secret:
    """A text that the teacher alone reads, and the clauses by which it is known."""

    text: str
    clauses: tuple[tuple[int, int], ...]
    telling: tuple[int, ...]
    """Which of them are long enough to be known again, and nowhere in the open."""

    def read_in(self, words: str) -> str | None:
        """The longest run of its clauses that can be read there; None for none."""
        known = (n for n in self.telling if self._run(n, n) in words)
        first = last = next(known, None)
        if first is None or last is None:
            return None
        while last + 1 < len(self.clauses) and self._run(first, last + 1) in words:
            last += 1
        while first > 0 and self._run(first - 1, last) in words:
            first -= 1
        return self._quoted(first, last)

    def _run(self, first: int, last: int) -> str:
        return _spaced(self._quoted(first, last))

    def _quoted(self, first: int, last: int) -> str:
        said = self.text[self.clauses[first][0] : self.clauses[last][1]]
        return " ".join(_MARKS.sub("", said).split())


class Hidden:
    """What only the teacher could read of the older version."""

    def __init__(self, before: Sequence[Piece]) -> None:
        facts = [fact for piece in before for fact in piece.facts]
        public = _spaced(" ".join(fact.shown for fact in facts))
        hidden = dict.fromkeys(f.text for f in facts if f.text and not f.shown)
        self._secrets = tuple(s for text in hidden if (s := _secret(text, public)))

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
        found = (secret.read_in(words) for secret in self._secrets)
        return next((text for text in found if text), None)


def _closed(fact: Fact | None) -> set[str]:
    """The words in the blanks of a fact that students read."""
    return {_spaced(b) for b in _BLANK.findall(fact.text)} if fact else set()


def _secret(text: str, public: str) -> _Secret | None:
    """What is to be looked for of a hidden text; None where all of it is known."""
    clauses = tuple(match.span() for match in _CLAUSE.finditer(text))
    spaced = [_spaced(text[start:end]) for start, end in clauses]
    telling = tuple(
        n
        for n, words in enumerate(spaced)
        if len(words.split()) >= LEAST_WORDS and words not in public
    )
    return _Secret(text, clauses, telling) if telling else None


def _spaced(text: str) -> str:
    """The words alone, in small letters, a blank around each."""
    return f" {' '.join(_WORD.findall(_MARKS.sub('', text).casefold()))} "
