"""What is done, said of the thing that it is done to.

*The wine goes in the flask* is *put the wine in the flask*, *tube two gets a drop
of acid* is *add a drop of acid to tube two*, and *the acid is poured away* is
*pour away the acid*.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from manualgen.adopting.leading import led_in
from manualgen.adopting.sentences import LONGEST
from manualgen.adopting.spans import quantities_in
from manualgen.adopting.vocabulary import alternatives, doing, one_of, table
from manualgen.knowledge import mentions

_INVERTED = re.compile(
    r"^((?:(?:and|then|now)\s+)*(?:in|into|onto|on)\s+(?:the\s+|each\s+)?[\w-]+(?:\s+[\w-]+)?)\s+(?:goes|go)\s+(?=an?\b|the\b|some\b|\d)",
    re.IGNORECASE,
)
"""*Into A goes a nail*: it is to be put there."""
_FIRST = re.compile(
    r"(?:(?:and|then|now|so)\s+)*(in|on)\s+(?:goes|go)\s+([^,;:.]{3,60})(.*)", re.I
)
"""*In goes the zinc.*"""
_SHORT_IS = re.compile(
    r"^(it|that|this)['’]s\s+(?=(?:then\s+|now\s+)?\w+(?:ed|ut|t|n)\b)", re.I
)
_SUBJECT = (
    r"(?!(?:it|this|that|these|they|what|which|who|how|if|when|everything|everyone|nothing|you|we|i)\b)"
    r"(?:(?!\b(?:is|are|was|were|which|that(?!')|who|if|when|until|and then)\b)[^,;:.]){3,60}?"
)
_GOES = re.compile(
    rf"({_SUBJECT})\s+(?:(?:then|just|all|now|also)\s+)?(?:goes|go)\s+"
    r"((?:straight\s+|right\s+|back\s+)?(?:(?:in|into|on|onto|inside|under|over|between|round|through)\s+"
    r"(?:the|an?|each|another|your|it|them|one|both|all|its)\b.{2,80}|"
    r"(?:in|on|on top|halfway\s+\w+|at the (?:bottom|top|end|front|back))"
    r"(?=\s*$|,|\s+(?:first|next|last|from|with|too|as well|together|after)\b).{0,80}))",
    re.IGNORECASE,
)
_GETS = re.compile(
    rf"({_SUBJECT})\s+(?:then\s+|also\s+|each\s+)?(?P<just>just\s+|only\s+)?(?:gets|get)\s+(?P<what>.{{3,80}})",
    re.IGNORECASE,
)
_PARTICLE = r"(?:up|out|off|down|away|together|in|on|aside)"


def commanded(text: str) -> str:
    """A sentence about where a thing goes as a command; any other as it stands."""
    if len(text) > LONGEST:
        return text.strip()
    bare = _INVERTED.sub(r"\1 put ", text.strip(), count=1)
    if first := _FIRST.fullmatch(bare):
        return f"put {first[2]} {first[1]}{first[3]}"
    said = led_in(bare).rstrip(" .")
    if goes := _GOES.fullmatch(said):
        return f"put {_small(goes[1])} {goes[2]}"
    if (gets := _GETS.fullmatch(said)) and (given := _given(gets)):
        return given
    if _without_verb().match(bare) and mentions(bare.split(" in", 1)[0]).chemicals:
        return f"put {_small(bare)}"
    return bare


_AND_GOES = re.compile(
    r",?\s+(?:and|then)\s+(?:then\s+)?(?=(?:the|an?|your)\s+[^,;:]{2,40}?\s+(?:goes|go)\s|(?:they|you|we|i)\s+\w)",
    re.IGNORECASE,
)


_DOER = re.compile(r"(?:they|you|we|i)\s", re.IGNORECASE)


def parted_goes(text: str) -> list[str]:
    """*The acid goes in the tube and the bung goes on top* as two clauses."""
    clauses = _AND_GOES.split(text) if len(text) <= LONGEST else [text]
    first, *others = clauses
    is_stated = commanded(first) != first.strip() or _is_passive(first.strip(" ."))
    goes = [c for c in others if not _DOER.match(c)]
    is_sure = is_stated and all(commanded(c) != c.strip() for c in goes)
    return clauses if is_sure else [text]


_EACH = re.compile(r"(?:each|every|all|both)\b", re.IGNORECASE)
_SHARE = re.compile(
    r"(?:an?|\w+)\s+(?:\w+\s+)?(?:drops?|squirts?|spatulas?|pieces?|spoons?|splash|pinch)\s+of\s",
    re.IGNORECASE,
)


def _given(gets: re.Match[str]) -> str | None:
    """*Tube two gets acid*: a vessel is told, and a substance or an amount of it."""
    what = gets["what"]
    first = next(iter(mentions(what).chemicals), None)
    is_share = _SHARE.match(what) and _EACH.match(gets[1])
    if not is_share and (first is None or not mentions(gets[1]).apparatus):
        return None
    if is_share or next(quantities_in(what), None) or " of " in what:
        return f"add {what} to {_small(gets[1])}"
    return f"put {gets['just'] or ''}{what} in {_small(gets[1])}"


def _small(text: str) -> str:
    is_article = re.match(r"A\s+[a-z]", text)
    return text if _is_name(text) and not is_article else text[:1].lower() + text[1:]


@cache
def _without_verb() -> re.Pattern[str]:
    """*Vinegar in the third …*, which goes there."""
    ordinals = alternatives(table().texts("ordinals"))
    return re.compile(rf"(?:\w+\s+){{1,3}}in(?:to)?\s+the\s+(?:{ordinals})\b", re.I)


_BE = (
    r"(?:is|are|was|were|will be|can be|may be|should be|must be|is to be|are to be|"
    r"has to be|have to be|needs to be|need to be|has been|have been|gets|get)"
)


@cache
def _passive() -> re.Pattern[str]:
    participles = alternatives(set(doing().values()) - {"used", "run"})
    run = r"run(?=\s+(?:in|into|through|off|out|from|down)\b)"
    return re.compile(
        rf"(?P<subject>[^,;:]{{2,90}}?)\s+{_BE}\s+(?:then\s+|now\s+|next\s+)?"
        rf"(?P<how>{_adverbs()})(?P<done>{run}|(?:{participles})\b)(?P<rest>.*)",
        re.IGNORECASE,
    )


@cache
def _adverbs() -> str:
    return rf"(?:(?:{alternatives(table().texts('how'))})\s+)*"


@cache
def _base_of() -> dict[str, str]:
    return {participle: verb for verb, participle in doing().items()}


_FURTHER = re.compile(
    rf",?\s+and\s+(?=(?:the|each|an?)\s+[^,;:]{{2,60}}?\s+{_BE}\s)", re.IGNORECASE
)


def from_passive(text: str) -> Iterator[str]:
    """The actions of a passive sentence, or none where it is no such sentence."""
    rest = _SHORT_IS.sub(r"\1 is ", led_in(text)).rstrip(" .")
    clauses = _FURTHER.split(rest)
    if not all(map(_is_passive, clauses)):
        clauses = [rest]
    for clause in clauses:
        if _is_passive(clause):
            yield from _actives(clause)


def _is_passive(clause: str) -> bool:
    found = _passive().fullmatch(clause)
    if found is None or re.search(
        r"\b(?:there|why|how|what|who|whether|ask|note that|says that)\b",
        found["subject"],
        re.IGNORECASE,
    ):
        return False
    if re.search(r"\bgets? left\b", clause, re.IGNORECASE):
        return False
    return not one_of("seen", "not_subjects").match(clause)


def _actives(clause: str) -> Iterator[str]:
    found = _passive().fullmatch(clause)
    if found is None:
        return
    row = re.split(
        rf"\s*,?\s+and\s+(?:then\s+|is\s+|are\s+)?(?=(?:{alternatives(_base_of())})\b)",
        found["rest"],
        flags=re.IGNORECASE,
    )
    yield _active(found["how"], found["done"], found["subject"], row[0])
    is_many = re.search(r"\b(?:are|were)\b", clause[: found.start("done")])
    pronoun = "them" if is_many else "it"
    for further in row[1:]:
        done, _, behind = further.partition(" ")
        yield _active("", done, pronoun, f" {behind}" if behind else "")


def _active(how: str, done: str, subject: str, rest: str) -> str:
    verb = _base_of()[done.casefold()]
    particle = re.match(rf"\s+{_PARTICLE}(?=\s*$|\s+(?!the\b|an?\b))", rest)
    behind = particle.group() if particle else ""
    if behind and subject.casefold() in ("it", "them", "this", "that"):
        return f"{how}{verb} {subject.lower()}{behind}{rest[len(behind) :]}"
    object_ = subject if _is_name(subject) else subject[0].lower() + subject[1:]
    return f"{how}{verb}{behind} {object_}{rest[len(behind) :]}"


def _is_name(subject: str) -> bool:
    first = subject.split()[0]
    return first.isupper() or any(c.isupper() or c.isdigit() for c in first[1:])
