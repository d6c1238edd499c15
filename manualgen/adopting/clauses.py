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
from manualgen.adopting.leading import base_of_one
from manualgen.adopting.piece import Piece
from manualgen.adopting.sentences import LONGEST
from manualgen.adopting.spans import quantities_in
from manualgen.adopting.vocabulary import (
    alternatives,
    doing,
    filled,
    patterns,
    table,
    words,
)
from manualgen.knowledge import mentions

_FEWEST = 2
"""Words of a clause."""
_LONGEST = 60
"""Characters of a word."""


@cache
def _beginnings() -> re.Pattern[str]:
    verbs = alternatives(doing())
    leads = alternatives(table().row("clauses").texts("joiners"))
    texts = "|".join(filled("clauses", "beginnings") + filled("clauses", "anew"))
    return re.compile(
        rf"(?<=\s)(?:(?:{texts})|(?:{leads})\s+(?:(?:you|we|they)\s+(?:just\s+|then\s+)?)?(?={verbs}\s))",
        re.IGNORECASE,
    )


@cache
def _anew() -> re.Pattern[str]:
    """Words with which a clause begins, whatever stands before them."""
    return re.compile("|".join(filled("clauses", "anew")), re.IGNORECASE)


@cache
def _seeing() -> re.Pattern[str]:
    """A thing and the verb that tells what is seen of it: *the limewater goes*."""
    seen = table().row("seen")
    verbs = {v for k in ("become_verbs", "doing_verbs") for v in seen.texts(k)}
    sees = alternatives({v for v in verbs if v.split()[0].endswith("s")})
    many = alternatives({v for v in verbs if " " not in v and not v.endswith("s")})
    no = alternatives(table().row("clauses").texts("no_subject"))
    word = rf"(?!(?:{no})\b)[a-z][\w-]*"
    how = r"(?:just|then|all|hardly|barely|only|soon|almost|nearly|\w+ly)"
    noun = rf"(?:the|an?|its|both|all the|some)\s+{word}(?:\s+{word}){{0,3}}?"
    does = rf"(?:{alternatives(base_of_one().keys() - doing().keys())})(?=\s+(?:the|it|them)\b)"
    place = rf"(?:\s+(?:of|in|on|at|from)\s+(?:the\s+|an?\s+)?{word}(?:\s+{word})?)?"
    lead = r"(?:with|in) the \w+\s+(?=the\s)|(?:in|at) the end\s+|at first\s+|eventually\s+|after a (?:while|bit|minute)\s+"
    has = r"(?:has|have)\s+(?:now\s+)?(?:got|gone|turned|become|changed)"
    return re.compile(
        rf"(?<=\s)(?:{lead})?(?:{noun}{place}|it|they)\s+(?:{how}\s+)?(?:(?:{sees}|{has})(?=\s|$)|{does})"
        rf"|(?<=\s)they\s+(?:{how}\s+)?(?:{many})(?=\s|$)",
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
        said = text[max(begin, start - LONGEST) : start]
        is_anew = bool(_anew().match(text, start)) and len(said.split()) > _FEWEST
        is_whole = is_anew or _is_whole(said, is_sure=is_sure)
        if not is_whole or _is_listed(said, text[start:]):
            continue
        if is_condition and not is_anew and _condition().match(said):
            is_condition = False
            continue
        is_condition = True
        yield _part(piece, stood[begin] if begin else 0, stood[start])
        begin = start
    yield _part(piece, stood[begin] if begin else 0, len(piece.text))


_COMPLETE = re.compile(r"\bas well\b|\b(?:watch|help) (?:it|them)\b", re.IGNORECASE)
"""What governs nothing behind it."""


def _is_whole(said: str, *, is_sure: bool) -> bool:
    """Whether a clause can end here; ``is_sure`` where nothing can govern the next."""
    row = said.casefold().split()
    if len(row) < _FEWEST or set(row) <= words("clauses", "joiners"):
        return False
    is_open = row[-1] in words("clauses", "never_last")
    if (is_open and row[-2] not in ("begin", "start")) or _opening().search(said):
        return False
    return is_sure or not (
        _scope().search(_COMPLETE.sub("", said)) or _telling().match(said)
    )


@cache
def _ahead() -> re.Pattern[str]:
    """*When it is full lift it out*: the condition goes with the verb behind it."""
    verbs = alternatives(doing())
    return re.compile(
        rf"(?<=\s)(?<!wait )(?<!stop )(?<!only )(?<!and )(?<!see )(?<!until )(?<!so )(?<!then )(?<!now )"
        rf"(?:when|once) (?:the|it|they|all the|both) ?(?:[\w'’]+ ){{1,6}}?(?={verbs} (?:it|them|the|an?)\b)",
        re.IGNORECASE,
    )


def _is_listed(said: str, behind: str) -> bool:
    """Whether a verb that is a noun too goes on with a list: *a felt tip a beaker*."""
    row = behind.split(maxsplit=2)[:2]
    is_noun = len(row) == 2 and row[0].casefold() in words("noun_too")
    if not is_noun or not _LED.match(row[1]) or row[0].casefold() in ("watch", "use"):
        return False
    return patterns("needing").search(said) is not None


_LED = re.compile(r"(?:an?|some|two|three|four|five|six|\d+)$", re.IGNORECASE)


@cache
def _opening() -> re.Pattern[str]:
    """*The second experiment* goes on: *we're going to do …*."""
    ordinals = alternatives(table().texts("ordinals"))
    return re.compile(
        rf"^(?:\S+\s+){{0,3}}(?:{ordinals})\s+(?:one|thing|experiment|practical|test|day|lesson|week|session|go|station|bench)\s*$",
        re.IGNORECASE,
    )


@cache
def _condition() -> re.Pattern[str]:
    """*Once the dots are dry*, after which the first verb belongs to it."""
    joiners = alternatives(words("clauses", "joiners"))
    return re.compile(
        rf"(?:(?:{joiners})\s+)*(?:once|when|after(?! (?:that|lunch|break)\b)|before|if|as soon as|soon as)\b",
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
    found |= dict.fromkeys(_subjects(text, [m.start for m in named.chemicals]), False)
    found |= {
        _before_how(text, m.start()): False
        for m in _verb().finditer(text)
        if m.start() not in inside and _is_free(text, m)
    }
    found |= {m.start(): True for m in _ahead().finditer(text)}
    found |= {m.start(): True for m in _beginnings().finditer(text)}
    return sorted(found.items())


_OF_ITSELF = re.compile(
    r"(?:(?!(?:and|the|it|they|you|we|that|which|to|till|until|when|in|into)\b)[\w-]+\s+){1,5}?(?:just\s+|only\s+)?(?:turns|goes|does nothing|fizzes|becomes|dissolves|melts|sinks|floats)\b",
    re.IGNORECASE,
)


def _subjects(text: str, chemicals: list[int]) -> Iterator[int]:
    """Bare substances and amounts that do something: *bromine turns …*."""
    amounts = [s for s, end, _ in quantities_in(text) if text[end:].startswith(" of ")]
    for at in sorted({*chemicals, *amounts}):
        row = text[max(0, at - _LONGEST * 3) : at].split()
        before = row[-1].casefold() if row else ""
        is_bound = before in words("clauses", "never_last") or before in words(
            "clauses", "governing"
        )
        is_bound = is_bound or before in words("clauses", "qualities")
        is_bound = is_bound or row[-2:-1] in (["the"], ["a"], ["an"], ["some"])
        if at and not (is_bound and before != "and") and _OF_ITSELF.match(text, at):
            yield at


def _before_how(text: str, start: int) -> int:
    """The place before the adverb of a verb: *half fill*."""
    row = text[max(0, start - _LONGEST * 3) : start].split()
    is_how = len(row) > 1 and row[-1].casefold() in words("how")
    return text.rindex(row[-1], 0, start) if is_how else start


def _is_free(text: str, verb: re.Match[str]) -> bool:
    """Whether a verb of doing follows nothing that goes on with it, and has its object."""
    row = text[max(0, verb.start() - _LONGEST) : verb.start()].split()
    before = row[-1].casefold() if row else ""
    has_object = bool(_object().match(text, verb.end()))
    if (before in words("clauses", "particles") or verb["doer"]) and not has_object:
        return False
    if _ends_name(row, verb["verb"]):
        return False
    if before in words("how"):
        row = row[:-1]
        before = row[-1].casefold() if row else ""
    is_last = before == "each" and (
        bool(verb["doer"]) or row[-2:-1] in (["on"], ["in"], ["of"], ["to"])
    )
    if before in words("clauses", "governing") and not is_last:
        return False
    word = verb["verb"].casefold()
    if word in words("clauses", "sure_verbs"):
        return True
    needs = word in words("clauses", "with_object") | words("doing_if_known")
    return has_object or (not needs and bool(_behind().match(text, verb.end())))


def _ends_name(row: list[str], verb: str) -> bool:
    """Whether a verb is the last word of a thing: *with a cocktail stick*."""
    is_thing = verb.casefold() in words("last_words", "apparatus")
    return is_thing and "with" in [word.casefold() for word in row[-4:-1]]


def _before_joiners(text: str, begin: int, start: int) -> int:
    """The place before the words that lead the clause in: *and*, *so*, *okay*."""
    joiners = words("clauses", "joiners")
    while before := text[max(begin, start - LONGEST) : start].split():
        is_well = before[-2:] == ["as", "well"]
        if before[-1].casefold() not in joiners or len(before) <= _FEWEST or is_well:
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
