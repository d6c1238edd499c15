"""What students could not read and now can: the change that a reviewer must see.

An answer, a blank's word, a teacher's note can come into the students' edition
by a slip of one mark, and no check can know that it was not meant.  So whatever
only the teacher read is looked for in what students newly read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from manualgen.review.changes import Change
from manualgen.review.pieces import Fact, Piece

LEAK = "students can now read what only the teacher could"
LEAST_WORDS = 4
"""Fewer words than this in a row may well be the same by chance."""

_BLANK = re.compile(r"\[_(.+?)_\]")
_WORD = re.compile(r"\w+(?:[.,]\w+)*")
_MARKS = re.compile(r"\s*\[(?:max )?\d+\]")
_SENTENCE = re.compile(r"(?<=[.;!?])\s+")


class Hidden:
    """What only the teacher could read of the older version."""

    def __init__(self, before: Sequence[Piece]) -> None:
        facts = [fact for piece in before for fact in piece.facts]
        public = _spaced(" ".join(fact.shown for fact in facts))
        secrets = dict.fromkeys(s for fact in facts for s in _secrets(fact))
        self._secrets = tuple(s for s in secrets if _spaced(s) not in public)

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
        return next((s for s in self._secrets if _spaced(s) in words), None)


def _closed(fact: Fact | None) -> set[str]:
    """The words in the blanks of a fact that students read."""
    return {_spaced(b) for b in _BLANK.findall(fact.text)} if fact else set()


def _secrets(fact: Fact) -> Iterator[str]:
    """The sentences that the teacher alone reads, if long enough to be known again."""
    if fact.text and not fact.shown:
        for sentence in _SENTENCE.split(fact.text):
            if len(_spaced(sentence).split()) >= LEAST_WORDS:
                yield " ".join(_MARKS.sub("", sentence).split())


def _spaced(text: str) -> str:
    """The words alone, in small letters, a blank around each."""
    return f" {' '.join(_WORD.findall(_MARKS.sub('', text).casefold()))} "
