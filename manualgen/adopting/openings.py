"""The sentence or heading that opens a practical, and the title that it gives.

Most name their practical: *the second experiment is the silver mirror*. One that
stands alone, *OK, second one*, has its title in the sentence behind it.
"""

from __future__ import annotations

import re

from manualgen.adopting.leading import leads, led_in
from manualgen.adopting.piece import Kind
from manualgen.adopting.statement import Statement
from manualgen.adopting.vocabulary import patterns

LONGEST_TITLE = 12
"""Words of a title."""
PREFIX = re.compile(
    r"(?:practical|experiment|activity|investigation|task|demonstration|station|test|lab)\s+\w+\s*[-–—:.)]*\s*",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"^\d{1,2}[.)]\s+(?=\S)")
_CALLED = re.compile(
    r"(?:this|that|it|this one|that one)(?:'s|\s+is)\s+(?:(?:called|about)\s+)?(?:the\s+)?(?=\w)",
    re.IGNORECASE,
)
_ASIDE = re.compile(r"(?:which|who|where|and|but|so)\b", re.IGNORECASE)
"""*Page three, which I'm less sure about*: the title stands in the next sentence."""
_ONE = re.compile(
    r"(?:the\s+)?([\w' -]{2,40}?)\s+(?:one|practical|experiment)(?=\s*(?:[,:.]|$))",
    re.IGNORECASE,
)


def title_of(first: Statement) -> str:
    """The title in a heading or an opening; nothing where it is a sentence of its own."""
    if first.kind is Kind.HEADING:
        if first.part is not None:
            return ""
        words = PREFIX.sub("", first.text, count=1) or first.text
        return _cased(_NUMBER.sub("", words, count=1))
    said = opened(first)
    if said is None:
        return _named_in(first.text) if first.kind is Kind.TEXT else ""
    if not said or _ASIDE.match(said):
        return ""
    called = _CALLED.match(said)
    return _cased(_without_one(said[called.end() :] if called else said))


def _named_in(text: str) -> str:
    """The title in a sentence that opens a practical by none of the known words."""
    for bare in leads(text):
        if found := patterns("titles").search(bare):
            words = next(group for group in found.groups() if group)
            title = _cased(_without_one(words))
            return title if len(title.split()) <= LONGEST_TITLE else ""
    return ""


def title_behind(second: Statement) -> str:
    """The title in the sentence behind an opening that has none, such as *This is the …*."""
    bare = led_in(second.text)
    said = _CALLED.match(bare)
    words = _without_one(bare[said.end() :]) if said else ""
    return _cased(words) if 0 < len(words.split()) <= LONGEST_TITLE else ""


def _without_one(words: str) -> str:
    """*The rate one, with marble* is about *rate, with marble*."""
    found = _ONE.match(words)
    return f"{found[1]}{words[found.end() :]}" if found else words


def _cased(words: str) -> str:
    bare = re.sub(r"\s+", " ", words).strip(" .:-–—,")
    bare = re.sub(r"^['’]s\s+(?:the\s+|an?\s+)?", "", bare)
    if bare.isupper() and len(bare) > 5:
        bare = bare.lower()
    return bare[:1].upper() + bare[1:]


def is_strong(statement: Statement) -> bool:
    """Whether an opening names a practical, so that steps behind it are enough."""
    strong = patterns("openings", "strong")
    return any(strong.match(bare) for bare in leads(statement.text))


def is_named(statement: Statement) -> bool:
    """Whether an opening has its title within its words."""
    named = patterns("openings", "named")
    return any(named.match(bare) for bare in leads(statement.text))


def is_alone(statement: Statement) -> bool:
    """Whether an opening is the whole sentence, such as *Second one*."""
    alone = patterns("openings", "alone")
    return any(alone.fullmatch(bare) for bare in leads(statement.text))


def tells_one(statement: Statement) -> bool:
    """Whether an opening, or a sentence behind one, says which: *the copper one*."""
    said = opened(statement) or led_in(statement.text)
    called = _CALLED.match(said)
    return _ONE.match(said[called.end() :] if called else said) is not None


def opened(statement: Statement) -> str | None:
    """What an opening says behind its words of opening, or None where it is none."""
    if statement.kind is not Kind.TEXT:
        return None
    if is_alone(statement):
        return ""
    for bare in leads(statement.text):
        if named := patterns("openings", "named").match(bare):
            return ", ".join(title for title in named.groups() if title is not None)
        for strength in ("strong", "weak"):
            found = patterns("openings", strength).match(bare)
            if found:
                rest = bare[found.end() :]
                return _within(rest)
    return None


def _within(rest: str) -> str:
    """What is said behind a second opening: *on to the next one, the copper one*."""
    for strength in ("strong", "weak"):
        if found := patterns("openings", strength).match(rest):
            return rest[found.end() :]
    return rest
