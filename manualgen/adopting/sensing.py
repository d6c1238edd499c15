"""What is seen, told in words that no list foresees, by several weak signs together.

A thing that does something of itself, a colour, a crust or a smell: two of these
without a word of explanation tell what is seen, one does not.
"""

from __future__ import annotations

import re
from functools import cache

from manualgen.adopting.sentences import LONGEST
from manualgen.adopting.vocabulary import (
    alternatives,
    doing,
    one_of,
    patterns,
    table,
    words,
)

_MODAL = re.compile(
    r"\b(?:will|should|may|might|can|does|did)\s+(?:\w+\s+)?$|['’]ll\s+$", re.I
)
_ENOUGH = 2
_LONGEST = 10
"""Words of a subject."""
_DEFINITE = re.compile(
    r"(?:the|it|its|your|this|that|these|they|both|each|one)\b", re.I
)


def sensed(text: str) -> tuple[int, int] | None:
    """Where the words stand that tell what is seen, or None where none do.

    >>> "the colours shoot out to the edge"[slice(*sensed("the colours shoot out to the edge"))]
    'shoot out to the edge'
    """
    if len(text) > LONGEST or patterns("sensed", "not").search(text):
        return None
    compared = patterns("sensed", "compared").match(text)
    if compared:
        return compared.end(), len(text)
    begin = _after_lead(text)
    made = _made().match(text, begin)
    if made and _is_thing(made["subject"]):
        return made.start("blank"), len(text)
    found = _verb().search(text, begin)
    if found is None or not _is_thing(text[begin : found.start()]):
        return None
    if _signs(text, begin, found) < _ENOUGH or not _agrees(found):
        return None
    start = found.end() if found["be"] else found.start()
    if not found["be"] and not _DEFINITE.match(text, begin):
        return begin, len(text)
    return start, len(text)


def _after_lead(text: str) -> int:
    found = patterns("sensed", "leads").match(text)
    return found.end() if found else 0


@cache
def _verb() -> re.Pattern[str]:
    row = table().row("sensed")
    verbs = alternatives(row.texts("verbs"))
    how = r"(?:(?:just|only|now|all|then|still|soon|hardly|\w+ly)\s+)*"
    return re.compile(
        rf"\b(?:(?P<be>(?:is|are|looks|look|will be|should be|['’]ll be)\s+{how})|(?P<does>{how}(?:{verbs})\b))",
        re.IGNORECASE,
    )


@cache
def _made() -> re.Pattern[str]:
    """*It turns the water red*: something gives a thing its colour."""
    looks = alternatives(table().row("seen").texts("looks"))
    return re.compile(
        rf"(?P<subject>[^,;:]{{2,50}}?)\s+(?:turns?|dyes?|colours?|makes?|stains?)\s+"
        rf"(?:it|them|(?:the|your|its|both|a)\s+[\w-]+(?:\s+water|\s+solution)?)\s+"
        rf"(?P<blank>(?:[\w-]+\s+){{0,2}}(?:{looks})\b.*)",
        re.IGNORECASE,
    )


def _is_thing(subject: str) -> bool:
    """Whether a subject may be a thing and no person."""
    row = re.findall(r"[\w'’-]+", subject.casefold())
    if row[:1] == ["one"] and len(row) > 1:
        row = row[1:]
    if not row or len(row) > _LONGEST:
        return False
    if one_of("seen", "not_subjects").match(" ".join(row)):
        return False
    if row[0] in doing() and row[0] not in words("noun_too"):
        return False
    return row[-1] not in words("seen", "never_last") | words("clauses", "never_last")


def _agrees(verb: re.Match[str]) -> bool:
    """Whether a verb of many follows many: *crystals grow*, but not *your fizzy pop*."""
    if verb["be"] or re.search(r"s\b", verb["does"]):
        return True
    before = verb.string[: verb.start()].split()
    row = [w.casefold() for w in before[-4:]]
    return any(w.endswith("s") or w in ("they", "both", "all", "and") for w in row) or (
        _MODAL.search(verb.string[: verb.start()]) is not None
    )


def _signs(text: str, begin: int, verb: re.Match[str]) -> int:
    """How much tells that something is seen: its verb, its look, its name."""
    looks = patterns("sensed", "looks").findall(text, begin)
    behind = text[verb.end() :]
    if verb["be"]:
        is_look = patterns("sensed", "is_look").match(behind)
        return _ENOUGH if is_look else 0
    return (
        1 + min(2, len(looks)) + bool(patterns("sensed", "sure").search(verb["does"]))
    )
