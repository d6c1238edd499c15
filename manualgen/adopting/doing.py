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
from manualgen.adopting.stated import commanded, from_passive, parted_goes
from manualgen.adopting.vocabulary import (
    alternatives,
    doing,
    numbers,
    one_of,
    patterns,
    table,
    words,
)
from manualgen.knowledge import mentions

_CONDITION = re.compile(
    r"(?:when|once|after|if|as soon as|soon as|should (?:any|the|it|there)|using|with|while|before|at|in|to|for|on|without)\s[^,]{2,90},\s*",
    re.IGNORECASE,
)
_PLACED = re.compile(
    r"\s+\w+\s+(?:round|around|over|into|onto|under|through|between|on|in)\s+(?:it|them|the)\b",
    re.IGNORECASE,
)
"""*Pack ice round it*: what stands behind a verb that is also a noun."""
_ASKED = re.compile(r"(?:,?\s+(?:please|for me))?\s*\?$", re.IGNORECASE)
"""*Could you stir it for me?* is *stir it*."""
_NOT = re.compile(r"(?:do not|don't|don’t)\s+", re.IGNORECASE)
_STATED = re.compile(
    r"note\s+to\s+(?:self|me|the\s+\w+)\b|"
    r"\w+\s+(?:(?!(?:it|that|what|they|all|everything|the|this|how|if)\b)\w+\s+)?(?:is|are|was|were|has|have|comes|goes)\b|"
    r"(?:test|place|table|start|mix|share)\s+(?:one|two|three|four|five|\d)\b(?!\s+\w+\s+of\b)",
    re.IGNORECASE,
)
_BEHIND_A_VERB = re.compile(
    r"\s*(?:$|[,.;]|(?:the|a|an|it|them|this|that|these|those|in|into|on|onto|to|up|down|"
    r"off|out|over|with|for|until|your|their|its|each|all|both|some|any|another|one|two|three|four|"
    r"five|ten|gently|strongly|again|well|slowly|carefully|at|as|by|every|half|more|from|"
    r"through|back|away|how|what|when|quickly|aside|\d)(?![\w-])|-?\d)",
    re.IGNORECASE,
)


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
    doer = r"(?:(?:you|we|they|i)\s+(?:(?:then|just|can|could|should|will|must)\s+)*)?"
    no_noun = (
        r"(?<!\bthe )(?<!\ba )(?<!\ban )(?<!\bto )(?<!\byou )(?<!\bwe )(?<!\bthey )"
    )
    return re.compile(
        rf"(?:(?:when|once|after|as soon as|soon as|if|before)\s(?:[\w'’-]+\s+){{2,9}}?"
        rf"(?={doer}{no_noun}{_verb()}\s+(?:the|an?|it|them)\b)|"
        rf"(?:every\s+(?:\w+\s+){{0,2}}(?:second|minute|hour)s?|after\s+(?:an?|one|two|three|five|ten|\d+)\s+(?:\w+\s+)?(?:second|minute|hour)s?|"
        rf"(?:the\s+|on\s+the\s+)?(?:next|following)\s+(?:day|lesson|week|morning|time)),?\s+(?={doer}{_verb()}\s))",
        re.IGNORECASE,
    )


@cache
def _only_then() -> re.Pattern[str]:
    """*Only then does one add …*, in which one is turned round."""
    return re.compile(
        rf"(?:only|not until|never)\b[^,;:]{{0,60}}?\s(?P<doer>(?:do|does|should|can|must|may)\s+(?:you|we|they|one|i)\s+)(?={_verb()}\s)",
        re.IGNORECASE,
    )


@cache
def _joint() -> re.Pattern[str]:
    return re.compile(
        rf"(?:\s*[,;]\s*(?:and\s+)?(?:then\s+|next\s+|now\s+|finally\s+)?|\s+and\s+(?:then\s+|now\s+|just\s+)?|\s+then\s+)"
        rf"(?:(?:you|we|they)\s+)?(?P<action>{_adverbs()}(?P<verb>{_verb()})(?![\w'’-]))",
        re.IGNORECASE,
    )


@cache
def _goes_on() -> re.Pattern[str]:
    """Behind a verb that is also a noun, one that is none: *stopper and invert it*."""
    sure = alternatives({*doing()} - words("noun_too") - words("doing_if_known"))
    return re.compile(rf"\s+and\s+(?:then\s+)?(?:{sure})(?![\w-])", re.IGNORECASE)


def steps_in(text: str) -> tuple[str, ...]:
    """The steps that a sentence tells, or none where it tells something else.

    >>> steps_in("and then you add the acid and stir it")
    ('Add the acid', 'Stir it')
    """
    bare = commanded(text)
    further = parted_goes(text)
    if len(further) > 1:
        return tuple(step for clause in further for step in steps_in(clause))
    said = imperative(bare)
    if said is not None:
        return tuple(_sentence(part) for part in actions(said))
    return tuple(_sentence(part) for part in from_passive(bare))


def imperative(text: str) -> str | None:
    """The sentence from its verb of doing on, or None where it does not begin with one."""
    rest = led_in(text)
    if turned := _only_then().match(rest):
        return rest[: turned.start("doer")] + rest[turned.end() :]
    is_caused = patterns("doers", "causing").match(rest)
    if not is_caused and _is_action(rest):
        return rest
    found = _into().match(rest) or _CONDITION.match(rest)
    if found:
        after = without_doer(led_in(rest[found.end() :]))
        if _is_action(after):
            return rest[: found.end()] + after
    led = _condition_first(text, rest)
    if unparted := _unparted_condition().match(led):
        return led[: unparted.end()] + without_doer(led[unparted.end() :])
    bare = without_doer(rest)
    is_done = bare != rest and not one_of("not_behind_doers").match(bare)
    if is_done and _is_action(bare):
        return bare
    return rest if _is_command(rest) else None


_COMMAND = re.compile(
    r"(?P<verb>[a-z]{3,}(?<!ing)(?<!ed)(?<!ly)(?<![^s]s))\s+(?:the|an?|some|it|them|your|their|each|both|another)\s+\w",
    re.IGNORECASE,
)


def _is_command(text: str) -> bool:
    """Whether a verb that no list has bids something on the bench: *spill some acid*."""
    found = _COMMAND.match(text)
    if found is None or found["verb"].casefold() in words("no_command"):
        return False
    named = mentions(text)
    starts = [m.start for m in named.chemicals]
    starts += [m.start for m in named.apparatus]
    return bool(starts) and min(starts) > 0


def _condition_first(text: str, rest: str) -> str:
    """The sentence with *next* where that begins a condition and leads nothing in."""
    bare = text.strip()
    return bare if _unparted_condition().match(bare) else rest


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
            r"do (?:exactly |just )?(?:the (?:same|next|other|rest|second|third|fourth)|this|it|that)\b|make (?:it|sure|up|an?|two|three|four)\b|look (?:straight |closely |carefully )?(?:down|through|into|closely|carefully|at it)\b|get (?:it|them|the \w+|your \w+) (?:written|noted|set|ready)\b|keep (?:it|them|\w+ing)\b|work out\b|give (?:it|them)\b",
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


def _begins_name(text: str, verb: int) -> bool:
    """Whether a text begins with a longer name than its verb: *tap water*."""
    named = mentions(text)
    ends = [m.end for m in named.chemicals if not m.start]
    ends += [m.end for m in named.apparatus if not m.start]
    return max(ends, default=0) > verb


def _parts(text: str, joint: re.Match[str]) -> bool:
    """Whether what follows is another action and not a noun of that name."""
    verb = joint["verb"].casefold()
    after = text[joint.end("verb") :]
    if _STATED.match(verb + after):
        return False
    if _goes_on().match(after):
        return True
    before = text[: joint.start()].rsplit(" ", 1)[-1].casefold()
    if verb in words("noun_too") - words("done_alone") and not after.strip(" .;,"):
        return False
    if verb in words("noun_too") or before in ("the", "a", "an", "of"):
        if _begins_name(verb + after, len(verb)):
            return False
        return bool(_BEHIND_A_VERB.match(after) or _PLACED.match(after))
    return True


def _sentence(text: str) -> str:
    """With a capital and without what joined it to the next."""
    bare = _ASKED.sub("", text.strip()).rstrip(" ,;")
    return bare[:1].upper() + bare[1:]
