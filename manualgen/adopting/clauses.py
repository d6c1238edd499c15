"""Talk without stops, cut into lines anywhere, parted where a new clause can only begin.

A clause begins at *okay so*, *now*, *then* before a verb of doing; at *you need*
and *you get*; where a thing does what can be seen; and at a verb of doing that
nothing before it governs.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache

from manualgen.adopting.hearing import without_hesitations
from manualgen.adopting.piece import Piece
from manualgen.adopting.vocabulary import alternatives, doing, filled, table, words
from manualgen.knowledge import mentions

_FEWEST = 2
"""Words of a clause."""
_LONGEST = 60
"""Characters of a word."""


@cache
def _beginnings() -> re.Pattern[str]:
    verbs = alternatives(doing())
    leads = alternatives(table().row("clauses").texts("joiners"))
    texts = "|".join(filled("clauses", "beginnings"))
    return re.compile(
        rf"(?<=\s)(?:(?:{texts})|(?:{leads})\s+(?:(?:you|we|they)\s+(?:just\s+|then\s+)?)?(?={verbs}\s))",
        re.IGNORECASE,
    )


@cache
def _seeing() -> re.Pattern[str]:
    """A thing and the verb that tells what is seen of it: *the limewater goes*."""
    seen = table().row("seen")
    verbs = {v for k in ("become_verbs", "doing_verbs") for v in seen.texts(k)}
    sees = alternatives({v for v in verbs if v.split()[0].endswith("s")})
    no = alternatives(table().row("clauses").texts("no_subject"))
    word = rf"(?!(?:{no})\b)[a-z][\w-]*"
    how = r"(?:just|then|all|hardly|barely|only|soon|almost|nearly|\w+ly)"
    noun = rf"(?:the|an?|its|both|all the|some)\s+{word}(?:\s+{word}){{0,3}}?"
    place = rf"(?:\s+(?:of|in|on|at|from)\s+(?:the\s+|an?\s+)?{word}(?:\s+{word})?)?"
    lead = r"(?:in|at) the end\s+|at first\s+|eventually\s+|after a (?:while|bit|minute)\s+"
    has = r"(?:has|have)\s+(?:now\s+)?(?:got|gone|turned|become|changed)"
    return re.compile(
        rf"(?<=\s)(?:{lead})?(?:{noun}{place}|it|they)\s+(?:{how}\s+)?(?:{sees}|{has})(?=\s|$)",
        re.IGNORECASE,
    )


@cache
def _verb() -> re.Pattern[str]:
    return re.compile(
        rf"(?<=\s)(?P<doer>(?:you|we|they)\s+)?(?P<verb>{alternatives(doing())})(?=\s)",
        re.I,
    )


@cache
def _object() -> re.Pattern[str]:
    return re.compile(rf"\s+(?:{alternatives(words('clauses', 'objects'))})\b", re.I)


@cache
def _behind() -> re.Pattern[str]:
    behind = alternatives(words("clauses", "behind") | words("clauses", "objects"))
    return re.compile(rf"\s+(?:(?:{behind})\b|\w+ing\b)", re.IGNORECASE)


@cache
def _scope() -> re.Pattern[str]:
    """What governs a verb two words behind it: *let them*, *until the*."""
    governs = alternatives(words("clauses", "scopes"))
    return re.compile(rf"\b(?:{governs})(?:\s+\S+){{0,2}}\s*$", re.IGNORECASE)


def clauses(piece: Piece) -> Iterator[Piece]:
    """The clauses of a piece, every word in one of them."""
    text, stood = without_hesitations(piece.text)
    begin, is_condition = 0, True
    for start, is_sure in _starts(text):
        start = _before_joiners(text, begin, start)
        said = text[begin:start]
        if not _is_whole(said, is_sure=is_sure):
            continue
        if is_condition and _condition().match(said):
            is_condition = False
            continue
        is_condition = True
        yield _part(piece, stood[begin], stood[start])
        begin = start
    yield _part(piece, stood[begin], len(piece.text))


def _is_whole(said: str, *, is_sure: bool) -> bool:
    """Whether a clause can end here; ``is_sure`` where nothing can govern the next."""
    row = said.casefold().split()
    if len(row) < _FEWEST or set(row) <= words("clauses", "joiners"):
        return False
    is_open = row[-1] in words("clauses", "never_last")
    if (is_open and row[-2] not in ("begin", "start")) or _opening().search(said):
        return False
    return is_sure or not (_scope().search(said) or _telling().match(said))


@cache
def _opening() -> re.Pattern[str]:
    """*The second experiment* goes on: *we're going to do …*."""
    ordinals = alternatives(table().texts("ordinals"))
    return re.compile(
        rf"^(?:\S+\s+){{0,3}}(?:{ordinals})\s+(?:one|thing|experiment|practical|test)\s*$",
        re.IGNORECASE,
    )


@cache
def _condition() -> re.Pattern[str]:
    """*Once the dots are dry*, after which the first verb belongs to it."""
    joiners = alternatives(words("clauses", "joiners"))
    return re.compile(
        rf"(?:(?:{joiners})\s+)*(?:once|when|after|before|if|as soon as)\b",
        re.IGNORECASE,
    )


@cache
def _telling() -> re.Pattern[str]:
    """A clause that tells what it means has a subject before its verbs."""
    return re.compile(
        r"(?:(?:and|so)\s+)*(?:(?:what\s+)?(?:that|this)\s*(?:'s because|\s(?:is because|shows|means|tells|proves))|because)\b",
        re.IGNORECASE,
    )


def _starts(text: str) -> Iterable[tuple[int, bool]]:
    """Where a clause may begin, and whether nothing before can govern it."""
    named = mentions(text)
    spans = [(m.start, m.end) for m in named.apparatus]
    spans += [(m.start, m.end) for m in named.chemicals]
    inside = {at for start, end in spans for at in range(start + 1, end)}
    inside |= {start for start, end in spans if " " in text[start:end]}
    found = {m.start(): False for m in _seeing().finditer(text)}
    found |= {
        m.start(): False
        for m in _verb().finditer(text)
        if m.start() not in inside and _is_free(text, m)
    }
    found |= {m.start(): True for m in _beginnings().finditer(text)}
    return sorted(found.items())


def _is_free(text: str, verb: re.Match[str]) -> bool:
    """Whether a verb of doing follows nothing that goes on with it, and has its object."""
    row = text[max(0, verb.start() - _LONGEST) : verb.start()].split()
    before = row[-1].casefold() if row else ""
    has_object = bool(_object().match(text, verb.end()))
    if (before in words("clauses", "particles") or verb["doer"]) and not has_object:
        return False
    if before in words("clauses", "governing") | words("how"):
        return False
    word = verb["verb"].casefold()
    if word in words("clauses", "sure_verbs"):
        return True
    needs = word in words("clauses", "with_object") | words("doing_if_known")
    return has_object or (not needs and bool(_behind().match(text, verb.end())))


def _before_joiners(text: str, begin: int, start: int) -> int:
    """The place before the words that lead the clause in: *and*, *so*, *okay*."""
    joiners = words("clauses", "joiners")
    while before := text[begin:start].split():
        if before[-1].casefold() not in joiners or len(before) <= _FEWEST:
            break
        start = text.rindex(before[-1], begin, start)
    return start


def _part(piece: Piece, start: int, end: int) -> Piece:
    text = piece.text[start:end].rstrip()
    first = bisect_right(piece.marks, start, key=lambda mark: mark[0])
    last = bisect_left(piece.marks, start + len(text), key=lambda mark: mark[0])
    inner = ((at - start, origin) for at, origin in piece.marks[first:last])
    marks = ((0, piece.origin_at(start)), *inner)
    return replace(piece, text=text, marks=marks, after_gap=False)
