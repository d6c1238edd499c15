"""What is done: sentences as steps, in the imperative, one action each.

*So you add the acid and stir* is two steps, *The acid is poured away* is
*Pour away the acid*. A sentence whose verb is not known stays what it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from manualgen.adopting.leading import led_in, without_doer
from manualgen.adopting.spans import quantities_in
from manualgen.adopting.vocabulary import (
    alternatives,
    doing,
    numbers,
    one_of,
    table,
    words,
)
from manualgen.knowledge import mentions

_CONDITION = re.compile(
    r"(?:when|once|after|if|as soon as|using|with|while|before|at|in|to|for|on|without)\s[^,]{2,90},\s*",
    re.IGNORECASE,
)
_INVERTED = re.compile(
    r"^((?:(?:and|then|now)\s+)*(?:in|into|onto|on)\s+(?:the\s+|each\s+)?[\w-]+(?:\s+[\w-]+)?)\s+(?:goes|go)\s+(?=an?\b|the\b|some\b|\d)",
    re.IGNORECASE,
)
"""*Into A goes a nail*: it is to be put there."""
_SHORT_IS = re.compile(
    r"^(it|that|this)['’]s\s+(?=(?:then\s+|now\s+)?\w+(?:ed|ut|t|n)\b)", re.I
)
_PUT_THERE = re.compile(
    r"((?!(?:it|this|that|these|they|what|which|who|how|if|when|everything|everyone|nothing)\b)"
    r"[^,;:.]{3,60}?)\s+(?:goes|go)\s+"
    r"((?:in|into|onto|inside|under|over)\s+(?:the|an?|each|another|your)\s.{2,80})",
    re.IGNORECASE,
)
"""*The wine goes in the flask.*"""
_NOT = re.compile(r"(?:do not|don't|don’t)\s+", re.IGNORECASE)
_STATED = re.compile(
    r"note\s+to\s+(?:self|me|the\s+\w+)\b|"
    r"\w+\s+(?:is|are|was|were|has|have|comes|goes)\b|"
    r"(?:test|place|table|start|mix|share)\s+(?:one|two|three|four|five|\d)\b",
    re.IGNORECASE,
)
_BEHIND_A_VERB = re.compile(
    r"\s*(?:$|[,.;]|(?:the|a|an|it|them|this|that|these|those|in|into|on|onto|to|up|down|"
    r"off|out|over|with|for|until|your|their|its|each|all|both|some|any|another|one|two|three|four|"
    r"five|ten|gently|strongly|again|well|slowly|carefully|at|as|by|every|half|more|from|"
    r"through|back|away|how|what|when|quickly|aside|\d)(?![\w-])|-?\d)",
    re.IGNORECASE,
)
_PARTICLE = r"(?:up|out|off|down|away|together|in|on|aside)"


@cache
def _verb() -> str:
    return rf"(?:{alternatives(doing())})"


@cache
def _adverbs() -> str:
    return rf"(?:(?:{alternatives(table().texts('how'))})\s+)*"


@cache
def _starts() -> re.Pattern[str]:
    return re.compile(
        rf"(?P<how>{_adverbs()})(?P<verb>{_verb()})(?![\w'’])(?!-(?!\d))", re.I
    )


@cache
def _into() -> re.Pattern[str]:
    """*To the first tube add …*, *In the fume cupboard add …*."""
    sure = rf"(?:{alternatives({*doing()} - words('noun_too') | {'drop', 'place', 'measure'})})"
    number = alternatives(numbers())
    return re.compile(
        rf"(?:to|into|onto|in|on|with|under|over|from)\s+"
        rf"(?:(?:the|each|another|a|an|your|one|both)(?:\s+[\w-]+){{1,4}}?|(?-i:[A-Z])),?\s+"
        rf"(?=(?:(?:we|you)\s+)?{sure}\s+(?:the|an?|it|them|some|another|in|{number}|\d)(?![^\W\d]))",
        re.IGNORECASE,
    )


@cache
def _unparted_condition() -> re.Pattern[str]:
    """*Once it is dry stand it in …*, with no comma to part the two."""
    return re.compile(
        rf"(?:(?:when|once|after|as soon as|if|before)\s(?:[\w'’-]+\s+){{2,9}}?"
        rf"(?={_verb()}\s+(?:the|an?|it|them)\b)|"
        rf"every\s+(?:\w+\s+){{0,2}}(?:second|minute|hour)s?,?\s+(?:(?:you|we|they)\s+)?(?={_verb()}\s))",
        re.IGNORECASE,
    )


@cache
def _joint() -> re.Pattern[str]:
    return re.compile(
        rf"(?:\s*[,;]\s*(?:and\s+)?(?:then\s+|next\s+|now\s+|finally\s+)?|\s+and\s+(?:then\s+|now\s+|just\s+)?|\s+then\s+)"
        rf"(?:(?:you|we)\s+)?(?P<action>{_adverbs()}(?P<verb>{_verb()})(?![\w'’-]))",
        re.IGNORECASE,
    )


@cache
def _without_verb() -> re.Pattern[str]:
    """*Vinegar in the third …*, which goes there."""
    ordinals = alternatives(table().texts("ordinals"))
    return re.compile(rf"(?:\w+\s+){{1,3}}in(?:to)?\s+the\s+(?:{ordinals})\b", re.I)


@cache
def _passive() -> re.Pattern[str]:
    participles = alternatives(set(doing().values()) - {"used", "run"})
    return re.compile(
        rf"(?P<subject>[^,;:]{{2,90}}?)\s+(?:is|are|should be|must be)\s+(?:then\s+|now\s+|next\s+)?"
        rf"(?P<how>{_adverbs()})(?P<done>{participles})\b(?P<rest>.*)",
        re.IGNORECASE,
    )


@cache
def _base_of() -> dict[str, str]:
    return {participle: verb for verb, participle in doing().items()}


def steps_in(text: str) -> tuple[str, ...]:
    """The steps that a sentence tells, or none where it tells something else.

    >>> steps_in("and then you add the acid and stir it")
    ('Add the acid', 'Stir it')
    """
    bare = _INVERTED.sub(r"\1 put ", text.strip(), count=1)
    if found := _PUT_THERE.fullmatch(led_in(bare)):
        bare = f"put {found[1][:1].lower()}{found[1][1:]} {found[2]}"
    elif _without_verb().match(bare) and mentions(bare.split(" in", 1)[0]).chemicals:
        bare = f"put {bare[:1].lower()}{bare[1:]}"
    said = imperative(bare)
    if said is not None:
        return tuple(_sentence(part) for part in actions(said))
    return tuple(_sentence(part) for part in _from_passive(bare))


def imperative(text: str) -> str | None:
    """The sentence from its verb of doing on, or None where it does not begin with one."""
    rest = led_in(text)
    if _is_action(rest):
        return rest
    found = _into().match(rest) or _CONDITION.match(rest)
    if found:
        after = without_doer(led_in(rest[found.end() :]))
        if _is_action(after):
            return rest[: found.end()] + after
    if _unparted_condition().match(rest):
        return rest
    bare = without_doer(rest)
    is_done = bare != rest and not one_of("not_behind_doers").match(bare)
    return bare if is_done and _is_action(bare) else None


def _is_action(text: str) -> bool:
    if barred := _NOT.match(text):
        return _starts().match(text, barred.end()) is not None
    found = _starts().match(text)
    if not found or _STATED.match(text[found.start("verb") :]):
        return False
    verb = found["verb"].casefold()
    # *Dilute acid* does nothing, *dilute the acid* does.
    if verb == "dilute" and not _BEHIND_A_VERB.match(text[found.end() :]):
        return False
    if verb in words("doing_if_known") or verb == "i":
        return _is_about_something(text)
    return True


def _is_about_something(text: str) -> bool:
    named = mentions(text)
    return bool(
        named.chemicals
        or named.apparatus
        or next(quantities_in(text), None)
        or re.match(
            r"do (?:the (?:same|next|other)|this|it|that)\b|make (?:it|sure|up)\b|work out\b|give (?:it|them) a\b",
            text,
            re.I,
        )
    )


def actions(text: str) -> Iterator[str]:
    """The single actions of an imperative sentence, joined by *and* or *then*."""
    begin = 0
    condition = (
        _into().match(text)
        or _CONDITION.match(text)
        or _unparted_condition().match(text)
    )
    for joint in _joint().finditer(text, condition.end() if condition else 0):
        before = text[begin : joint.start()]
        is_alone = len(before.split()) < 2 and not (
            begin and re.search("then|;", joint.group())
        )
        if is_alone or not _parts(text, joint):
            continue
        if before.count("(") != before.count(")"):
            continue
        yield before
        begin = joint.start("action")
    yield text[begin:]


def _parts(text: str, joint: re.Match[str]) -> bool:
    """Whether what follows is another action and not a noun of that name."""
    verb = joint["verb"].casefold()
    after = text[joint.end("verb") :]
    if _STATED.match(verb + after):
        return False
    before = text[: joint.start()].rsplit(" ", 1)[-1].casefold()
    if verb in words("noun_too") - words("done_alone") and not after.strip(" .;,"):
        return False
    if verb in words("noun_too") or before in ("the", "a", "an", "of"):
        return bool(_BEHIND_A_VERB.match(after))
    return True


def _from_passive(text: str) -> Iterator[str]:
    rest = _SHORT_IS.sub(r"\1 is ", led_in(text))
    found = _passive().fullmatch(rest.rstrip(" ."))
    if not found or one_of("seen", "not_subjects").match(found["subject"]):
        return
    row = re.split(
        rf"\s+and\s+(?:then\s+|is\s+|are\s+)?(?=(?:{alternatives(_base_of())})\b)",
        found["rest"],
        flags=re.IGNORECASE,
    )
    yield _active(found["how"], found["done"], found["subject"], row[0])
    pronoun = "them" if re.search(r"\bare\b", rest[: found.start("done")]) else "it"
    for further in row[1:]:
        done, _, behind = further.partition(" ")
        yield _active("", done, pronoun, f" {behind}" if behind else "")


def _active(how: str, done: str, subject: str, rest: str) -> str:
    verb = _base_of()[done.casefold()]
    particle = re.match(rf"\s+{_PARTICLE}(?=\s*$|\s+(?!the\b|an?\b))", rest)
    behind = particle.group() if particle else ""
    object_ = subject if _is_name(subject) else subject[0].lower() + subject[1:]
    return f"{how}{verb}{behind} {object_}{rest[len(behind) :]}"


def _is_name(subject: str) -> bool:
    first = subject.split()[0]
    return first.isupper() or any(c.isupper() or c.isdigit() for c in first[1:])


def _sentence(text: str) -> str:
    """With a capital and without what joined it to the next."""
    bare = text.strip().rstrip(" ,;")
    return bare[:1].upper() + bare[1:]
