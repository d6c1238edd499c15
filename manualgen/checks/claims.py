"""What a text says of oxidation, reduction and displacement.

Only plain statements are taken: a known substance, a verb, and nothing between
them but small words. A question, a negation, a condition, a mere possibility
("can be oxidised") or a choice ("oxidised or reduced") states nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from manualgen.chemistry import Formula, formulas_of, without_form
from manualgen.working.prose import Prose

Fate: TypeAlias = Literal["oxidised", "reduced", "displaced"]
Meanings: TypeAlias = tuple[Formula, ...]

MOST_WORDS: Final = 5
"""Words of a substance's name."""

_ADVERB = (
    r"(?:itself|themselves|then|first|also|thus|therefore|further|partly|readily|"
    r"easily|slowly|quickly|rapidly|completely|being|been|both)"
)
_BE = rf"(?:is|are|was|were|gets?|(?:has|have)\s+been|will\s+be)(?:\s+{_ADVERB})*"
_AFTER_SUBJECT: Final = re.compile(
    rf"""\s+(?:
      {_BE}\s+(?P<fate>oxidi[sz]ed|reduced|displaced)
          (?:\s+and\s+(?P<second>oxidi[sz]ed|reduced))?
    | (?:is|are|acts?\s+as|was|were)\s+(?:the|an?)\s+
          (?P<agent>oxidi[sz]ing|reducing)\s+agents?
    | (?P<moves>loses?|gains?|lost|gained)\s+(?:\w+\s+)?electrons?
    )\b""",
    re.VERBOSE | re.IGNORECASE,
)
_IN_EVERY_CLAIM: Final = ("oxid", "reduc", "displac", "electron")
"""Most texts make no claim, and are soon passed over."""
_BEFORE_OBJECT: Final = re.compile(
    r"\b(?P<does>oxidi[sz]es|oxidation\s+of|reduces|reduction\s+of|displaces)\s+",
    re.IGNORECASE,
)
_CHOICE = re.compile(r"\s*(?:,?\s*or|/)\b", re.IGNORECASE)
_ARTICLE = re.compile(
    r"\b(?:the|each|both|all|these|those|this|that)\s+$", re.IGNORECASE
)
_ARTICLES = frozenset(("the", "a", "an"))
_LEADING_ARTICLE = re.compile(r"(?:the|an?)\s+", re.IGNORECASE)
_CLAUSE_BEGINS = re.compile(
    r"(?:^|[.;:,(!?]|\b(?:and|so|that|because|as|since|but|then|while|when|where|hence|"
    r"therefore|thus|why|how|although|though|here|(?:in|during|by)\s+(?:this|the|each)\s+"
    r"(?:reaction|equation|test|experiment|step|change)))\s*$",
    re.IGNORECASE,
)
_STATES_NOTHING = re.compile(
    r"\b(?:whether|if|unless|not|never|neither|nor|what|would|could|might|may|can|"
    r"should|false|wrong|wrongly|mistake|incorrect|incorrectly|instead)\b|n't\b|\?",
    re.IGNORECASE,
)
_ELSEWHERE = re.compile(
    r"\b(?:air|atmosphere|atmospheric|standing|stored|storage|exposed|exposure|left|"
    r"time|later|electrolysis|electrode|cell|industry|industrial|elsewhere|normally|"
    r"usually|often|easily|readily|slowly|burns?|burning|burnt|lit|pops?|explodes?|"
    r"flame|industrially)\b",
    re.IGNORECASE,
)
_BESIDE = re.compile(r"\s+(?:by|to|into|from)\s+", re.IGNORECASE)
_REACTION = re.compile(r"\breactions?\s+(?:of|between)\s+", re.IGNORECASE)
_PARTNER = re.compile(r"\s+(?:with|and)\s+", re.IGNORECASE)
_SENTENCE_ENDS = re.compile(r"[.;!?](?=\s|$)")
_WORD = re.compile(r"\S+")
_FORM = frozenset(("ion", "ions", "atom", "atoms", "metal", "gas", "molecules"))


@dataclass(frozen=True, slots=True)
class Claim:
    """That a substance meets a fate, in the author's words."""

    meanings: Meanings
    """What the substance's name may mean."""
    fates: frozenset[Fate]
    start: int
    end: int
    beside: tuple[Meanings, ...] = ()
    """What it is changed by, to or from, where the text says so; () if unknown."""
    is_general: bool = False
    """Whether the words are of what happens elsewhere: in air, on standing."""


_OTHERWISE: Final = {
    "oxidised": "reduced",
    "oxidized": "reduced",
    "reduced": "oxidised",
    "oxidises": "reduces",
    "oxidizes": "reduces",
    "reduces": "oxidises",
    "oxidation": "reduction",
    "reduction": "oxidation",
    "oxidising": "reducing",
    "oxidizing": "reducing",
    "reducing": "oxidising",
    "gains": "loses",
    "gain": "lose",
    "gained": "lost",
    "loses": "gains",
    "lose": "gain",
    "lost": "gained",
}
_EITHER = re.compile(rf"\b(?:{'|'.join(_OTHERWISE)})\b", re.IGNORECASE)


def otherwise(words: str) -> str:
    """The opposite claim: ``zinc is oxidised`` for ``zinc is reduced``."""
    turned = _EITHER.sub(lambda found: _OTHERWISE[found[0].lower()], words)
    return turned.replace("a oxid", "an oxid").replace("an red", "a red")


def may_claim(text: str) -> bool:
    """Whether a text has words without which there is no claim in it."""
    folded = text.casefold()
    return any(words in folded for words in _IN_EVERY_CLAIM)


def claims_in(prose: Prose) -> Iterator[Claim]:
    """The plain statements of a run of text, in its order."""
    for verb in _AFTER_SUBJECT.finditer(prose.text):
        yield from _about_subject(prose, verb)
    for verb in _BEFORE_OBJECT.finditer(prose.text):
        yield from _about_object(prose, verb)


def _about_subject(prose: Prose, verb: re.Match[str]) -> Iterator[Claim]:
    found = _name_before(prose, verb.start())
    if found is None or not _begins_clause(prose.text[: found[0]]):
        return
    start, meanings = found
    if not _is_statement(prose.text, start, verb.end()):
        return
    yield Claim(
        meanings,
        _fates(verb),
        start,
        verb.end(),
        (*_beside(prose, verb.end()), *_reacting(prose, start)),
        _is_general(prose.text, start),
    )


def _about_object(prose: Prose, verb: re.Match[str]) -> Iterator[Claim]:
    found = _name_after(prose, verb.end())
    if found is None or not _is_statement(prose.text, verb.start(), found[0]):
        return
    end, meanings = found
    does = verb["does"].lower()
    fate: Fate = "oxidised" if does.startswith("oxid") else "reduced"
    if does == "displaces":
        fate = "displaced"
    general = _is_general(prose.text, verb.start())
    beside = (*_beside(prose, end), *_reacting(prose, verb.start()))
    yield Claim(meanings, frozenset((fate,)), verb.start(), end, beside, general)


def _fates(verb: re.Match[str]) -> frozenset[Fate]:
    if verb["agent"]:
        oxidises = verb["agent"].lower().startswith("oxid")
        return frozenset(("reduced" if oxidises else "oxidised",))
    if verb["moves"]:
        loses = verb["moves"].lower().startswith("lo")
        return frozenset(("oxidised" if loses else "reduced",))
    words = [w.lower() for w in (verb["fate"], verb["second"]) if w]
    return frozenset(_fate(word) for word in words)


def _fate(word: str) -> Fate:
    if word == "displaced":
        return "displaced"
    return "reduced" if word == "reduced" else "oxidised"


def _is_statement(text: str, start: int, end: int) -> bool:
    begin, stop = _sentence(text, start)
    return not _CHOICE.match(text, end) and not _STATES_NOTHING.search(text[begin:stop])


def _is_general(text: str, start: int) -> bool:
    begin, stop = _sentence(text, start)
    return _ELSEWHERE.search(text[begin:stop]) is not None


def _sentence(text: str, offset: int) -> tuple[int, int]:
    """The bounds of the sentence around an offset, its mark included."""
    ends = [m.end() for m in _SENTENCE_ENDS.finditer(text)]
    begin = max((e for e in ends if e <= offset), default=0)
    return begin, min((e for e in ends if e > offset), default=len(text))


def _begins_clause(before: str) -> bool:
    """Whether a subject may begin behind these words: "the mass of the" says no."""
    return _CLAUSE_BEGINS.search(_ARTICLE.sub("", before)) is not None


def _name_before(prose: Prose, end: int) -> tuple[int, Meanings] | None:
    """The longest name of a substance that ends here, and where it begins."""
    words = list(_WORD.finditer(prose.text, 0, end))[-MOST_WORDS:]
    for start in (word.start() for word in words if word[0].lower() not in _ARTICLES):
        if meanings := _meanings(prose, start, end):
            return start, meanings
    return None


def _name_after(prose: Prose, start: int) -> tuple[int, Meanings] | None:
    """The longest name of a substance that begins here, and where it ends."""
    article = _LEADING_ARTICLE.match(prose.text, start)
    start = article.end() if article else start
    words = list(_WORD.finditer(prose.text, start))[: MOST_WORDS + 1]
    for word in reversed(words):
        end = word.start() + len(word[0].rstrip(".,;:!?)"))
        if meanings := _meanings(prose, start, end):
            return end, meanings
    return None


def _meanings(prose: Prose, start: int, end: int) -> Meanings:
    words = list(_WORD.finditer(prose.text, start, end))
    if words and all(word[0].lower() in _FORM for word in words[1:]):
        for begin, stop, span in prose.formulas():
            if (begin, stop) == words[0].span():
                return (span.formula,)
    name = prose.text[start:end]
    return formulas_of(name) or formulas_of(without_form(name)[0])


def _beside(prose: Prose, end: int) -> tuple[Meanings, ...]:
    """What stands behind "by", "to", "into" or "from" right after a verb."""
    found: list[Meanings] = []
    while word := _BESIDE.match(prose.text, end):
        name = _name_after(prose, word.end())
        found.append(name[1] if name else ())
        end = name[0] if name else len(prose.text)
    return tuple(found)


def _reacting(prose: Prose, offset: int) -> tuple[Meanings, ...]:
    """The two of "the reaction of bromine with iodide ions", said in the same sentence."""
    begin, _ = _sentence(prose.text, offset)
    reaction = _REACTION.search(prose.text, begin, offset)
    if reaction is None:
        return ()
    first = _name_after(prose, reaction.end())
    partner = _PARTNER.match(prose.text, first[0]) if first else None
    second = _name_after(prose, partner.end()) if partner else None
    return tuple(found[1] for found in (first, second) if found)
