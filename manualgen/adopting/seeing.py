"""What is seen: sentences that tell it, and which of their words tell it.

*The solution turns blue* tells it after its verb; *a white precipitate forms*
as a whole. Those words become the blank that a student fills in.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from manualgen.adopting.vocabulary import (
    alternatives,
    doing,
    one_of,
    patterns,
    table,
    words,
)

_BE = r"(?:is|are|was|were|has|have|will|can|does|do|should|must|may|gets|means|shows|tells|comes|came|come)"
_ARTICLE = re.compile(
    r"(?:the|it|this|that|these|they|its|their|both|all|your|each|one|then|at the \w+)\b",
    re.IGNORECASE,
)
_CLAUSE = re.compile(r"\b(?:which|that|who|because|if|when|until|so)\b|[,;:]", re.I)
_FARTHEST = 9
"""Words of a subject before its verb."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A sentence that tells what is seen, parted round the words of the blank."""

    lead: str
    blank: str
    tail: str


@cache
def _become() -> re.Pattern[str]:
    verbs = alternatives(table().row("seen").texts("become_verbs"))
    return re.compile(
        rf"\b(?:{verbs})\b(?:\s+(?:from|to|into|back to))?\s+", re.IGNORECASE
    )


@cache
def _does() -> re.Pattern[str]:
    verbs = alternatives(table().row("seen").texts("doing_verbs"))
    return re.compile(rf"(?<!-)\b(?:{verbs})\b(?!-)", re.IGNORECASE)


@cache
def _gives() -> re.Pattern[str]:
    verbs = alternatives(table().row("seen").texts("give_verbs"))
    return re.compile(rf"\b(?:{verbs})\s+(?=an?\s|off\s)", re.IGNORECASE)


def has_verb(text: str) -> bool:
    """Whether a line of talk has a verb that makes a sentence of it."""
    start = " ".join(text.split()[:_FARTHEST])
    if re.search(rf"\b(?:{_BE}|needs?|wants?|use)\b", start, re.I) or seen_in(text):
        return True
    rest = one_of("fillers").sub("", text, count=1).strip()
    first = re.split(r"\W", rest, maxsplit=1)[0].casefold()
    return first in doing() and not re.match(
        r"(?:dilute|clean|dry)\s+(?!the|it|them)", rest
    )


def is_verb_of_seeing(word: str) -> bool:
    """Whether a word can only be the verb of a subject before it: *rises*."""
    verbs = table().row("seen").texts("doing_verbs")
    return word.endswith("s") and word in verbs and word not in _NOUNS


def seen_in(text: str) -> Seen | None:
    """What a sentence tells to be seen, or None where it tells something else."""
    text, stop = _without_stop(text)
    opening = patterns("seeing").match(text)
    if opening:
        rest = text[opening.end() :]
        inner = _told(rest) or Seen("", rest, "")
        is_said_alone = opening.group().rstrip().endswith("that")
        lead = "" if is_said_alone else opening.group()
        said = Seen(lead + inner.lead, inner.blank, inner.tail + stop)
        return said if rest else None
    start = re.match(r"(?:(?:and|so|then|now|at first|first)\s+)*", text, re.I)
    begin = start.end() if start else 0
    told = _told(text[begin:])
    return (
        Seen(text[:begin] + told.lead, told.blank, told.tail + stop) if told else None
    )


def whole(text: str) -> Seen:
    """A sentence under a heading of observations: what its verb leaves, or all of it."""
    bare, stop = _without_stop(text)
    return seen_in(text) or Seen("", bare, stop)


def _told(text: str) -> Seen | None:
    """Subject, verb and what is seen, of a sentence that begins with its subject."""
    candidates = [m for p in (_become(), _gives(), _does()) if (m := p.search(text))]
    for verb in sorted(candidates, key=lambda m: (m.start(), -m.end())):
        subject = text[: verb.start()].strip()
        if not _is_subject(subject):
            continue
        if verb.re is _does():
            return _done(text, subject, verb)
        rest = text[verb.end() :]
        if rest and one_of("seen", "not_behind").match(rest) is None:
            return Seen(text[: verb.end()], rest, "")
    return _looks(text)


def _looks(text: str) -> Seen | None:
    """*The tube is pink*, where no reason follows."""
    verb = re.search(r"\b(?:is|are)\s+(?:now\s+|still\s+|all\s+)?", text)
    if verb is None or not one_of("looks").match(text, verb.end()):
        return None
    subject = text[: verb.start()].strip()
    is_fact = re.search(r"\bbecause\b|\bso\b", text[verb.end() :])
    if is_fact or not _ARTICLE.match(subject) or not _is_subject(subject):
        return None
    return Seen(text[: verb.end()], text[verb.end() :], "")


def _done(text: str, subject: str, verb: re.Match[str]) -> Seen:
    if _ARTICLE.match(subject):
        return Seen(text[: verb.start()], text[verb.start() :], "")
    return Seen("", text, "")


def _is_subject(subject: str) -> bool:
    row = subject.split()
    if not row or len(row) > _FARTHEST or _CLAUSE.search(subject.removeprefix("that")):
        return False
    if one_of("seen", "not_subjects").match(subject):
        return False
    if row[0].casefold() in doing() or row[-1].casefold() in _AUXILIARY:
        return False
    if re.search(rf"\b{_BE}\b", subject, re.IGNORECASE):
        return False
    adverbs = words("how") | {"it's"}
    return not all(w.casefold() in adverbs for w in row)


_NOUNS = frozenset(
    {"bubbles", "drops", "falls", "cracks", "steams", "flashes", "smells"}
)
_AUXILIARY = frozenset({"to", "not", "never", "please", "you", "we", "the", "a", "an"})


def _without_stop(text: str) -> tuple[str, str]:
    bare = text.rstrip(" .!")
    return bare, text[len(bare) :].strip()
