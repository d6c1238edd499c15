"""What is seen: sentences that tell it, and which of their words tell it.

*The solution turns blue* tells it after its verb; *a white precipitate forms*
as a whole. Those words become the blank that a student fills in.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from manualgen.adopting.sensing import sensed
from manualgen.adopting.vocabulary import (
    alternatives,
    doing,
    numbers,
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
_WHEN = re.compile(r"(?:when|while|as soon as|after|before|if|until)\b", re.I)
_CLAUSE = re.compile(r"\b(?:which|that|who|because|if|when|until|so)\b|[,;:]", re.I)
_LEADS_IN = re.compile(
    r"(?:(?:and|so|then|now|later|soon|presently|eventually|at first|first)\s+)*"
    r"(?:(?:after|in|on|within)\s+(?:the|an?|one|two|three|a few|a couple of|\d+)(?:\s+[\w-]+)??\s+(?:second|minute|hour|day|night|week|lesson)s?,?\s+(?=(?:the|a|an|it)\b))?"
    r"(?:(?:when|once|after|as|on|during|with|in|at)\s[^,;:.]{2,60},\s+|"
    r"(?:when|once|if)\s+(?:you|we|they)\s[^,;:.]{2,60}?\s+(?=(?:it|the\s+\w+)\s+\w+s\b))?",
    re.IGNORECASE,
)
_MODAL = re.compile(r"\s+(?:should|will|may|might)(?:\s+(?:now|just|all))?$", re.I)
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
        rf"(?:\b(?:{verbs})\b|['’]s\s+(?:now\s+)?(?:gone|turned|become)\b)(?:\s+(?:from|to|into|back to))?\s+",
        re.IGNORECASE,
    )


@cache
def _does() -> re.Pattern[str]:
    verbs = alternatives(table().row("seen").texts("doing_verbs"))
    return re.compile(rf"(?<!-)\b(?:{verbs})\b(?!-)", re.IGNORECASE)


@cache
def _gives() -> re.Pattern[str]:
    verbs = alternatives(table().row("seen").texts("give_verbs"))
    return re.compile(rf"\b(?:{verbs})\s+(?=an?\s|off\s)", re.IGNORECASE)


@cache
def _participle() -> re.Pattern[str]:
    """*It gets added* is done, and no look of it."""
    return re.compile(rf"(?:{alternatives(set(doing().values()))})\b", re.IGNORECASE)


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
    return (
        word.endswith("s") and word in verbs and word not in words("seen", "nouns_too")
    )


def seen_in(text: str) -> Seen | None:
    """What a sentence tells to be seen, or None where it tells something else."""
    text, stop = _without_stop(text)
    opening = patterns("seeing").match(text)
    if opening:
        rest = text[opening.end() :]
        inner = _told(rest) or Seen("", *_without_reason(rest))
        opened = opening.group().casefold()
        is_said_alone = opened.rstrip().endswith("that") or "what happens" in opened
        lead = "" if is_said_alone else opening.group()
        said = Seen(lead + inner.lead, inner.blank, inner.tail + stop)
        return said if rest else None
    start = _LEADS_IN.match(text)
    begin = start.end() if start else 0
    told = _told(text[begin:])
    if told:
        return Seen(text[:begin] + told.lead, told.blank, told.tail + stop)
    found = sensed(text)
    return Seen(text[: found[0]], text[slice(*found)], stop) if found else None


def whole(text: str) -> Seen:
    """A sentence under a heading of observations: what its verb leaves, or all of it."""
    bare, stop = _without_stop(text)
    return seen_in(text) or Seen("", bare, stop)


def _told(text: str) -> Seen | None:
    """Subject, verb and what is seen, of a sentence that begins with its subject."""
    candidates = [m for p in (_become(), _gives(), _does()) if (m := p.search(text))]
    for verb in sorted(candidates, key=lambda m: (m.start(), -m.end())):
        subject = _MODAL.sub("", text[: verb.start()].strip())
        if not _is_subject(subject):
            continue
        if verb.re is _does():
            return _done(text, subject, verb)
        rest = text[verb.end() :]
        if verb.group().startswith(("gets", "get ")) and _participle().match(rest):
            return None
        if _WHEN.match(rest):
            return _up_to_when(text, verb)
        if verb.re is _gives() and _is_given(rest):
            return Seen(text[: verb.end()], rest, "")
        if rest and one_of("seen", "not_behind").match(rest) is None:
            return Seen(text[: verb.end()], rest, "")
    return _looks(text)


def _is_given(rest: str) -> bool:
    """Whether something to be seen is given: *a crimson flame*."""
    row = set(re.findall(r"[\w-]+", re.split(r"[,;]", rest)[0].casefold())[:5])
    return bool(row & words("seen", "given"))


def _up_to_when(text: str, verb: re.Match[str]) -> Seen:
    """*It hardly changes when …*: the verb is what is seen, and how."""
    before = text[: verb.start()].rstrip()
    subject, _, last = before.rpartition(" ")
    start = len(subject) + 1 if subject and last.endswith("ly") else verb.start()
    end = verb.end() - (len(verb.group()) - len(verb.group().rstrip()))
    return Seen(text[:start], text[start:end], text[end:])


def _looks(text: str) -> Seen | None:
    """*The tube is pink*, where no reason follows."""
    verb = re.search(
        r"(?:\b(?:is|are|will be|should be)|['’]ll be)\s+(?:now\s+|still\s+|all\s+)?",
        text,
    )
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
    if row[0].casefold() in doing() or _ends_open(row[-1]) or _counts(row[-1]):
        return False
    if re.search(rf"\b{_BE}\b", subject, re.IGNORECASE):
        return False
    adverbs = words("how") | {"it's"}
    return not all(w.casefold() in adverbs for w in row)


def _counts(word: str) -> bool:
    """Whether a number ends a subject, behind which *drops* are things."""
    return word in {*numbers(), "few", "more"} - {"one"}


def _ends_open(word: str) -> bool:
    """Whether a subject cannot end here; a capital is the name of a tube."""
    return word != "A" and word.casefold() in words("seen", "never_last")


def _without_reason(text: str) -> tuple[str, str]:
    """A sentence up to its *because*, and from there on."""
    found = re.search(r"\s+because\b", text, re.IGNORECASE)
    return (text[: found.start()], text[found.start() :]) if found else (text, "")


def _without_stop(text: str) -> tuple[str, str]:
    bare = text.rstrip(" .!")
    return bare, text[len(bare) :].strip()
