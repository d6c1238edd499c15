"""Sentences that ask for things, and the list of things in them.

Some phrases ask for whatever stands behind them. Others only may: *take*, *have*,
*share*, or no verb at all. They ask where a list follows of which a table or the
last words know most, and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import islice

from manualgen.adopting.doing import steps_in
from manualgen.adopting.leading import led_in
from manualgen.adopting.needs import details_parted, items_in
from manualgen.adopting.seeing import has_verb, seen_in
from manualgen.adopting.sentences import LONGEST
from manualgen.adopting.spans import quantities_in
from manualgen.adopting.thing import is_detail, known_thing
from manualgen.adopting.unparted import parted
from manualgen.adopting.vocabulary import (
    NEEDS,
    alternatives,
    doing,
    one_of,
    part_named,
    patterns,
    table,
    words,
)
from manualgen.quantities import parse_quantity
from manualgen.quantities.kinds import is_strength

_LABEL = re.compile(r"([A-Za-z][^:;.!?|]{2,40}):\s+(?=\S)")
_FARTHEST = 12
"""Words before the list at most."""
_LONGEST = 8
"""Words of a thing that no table knows."""
_FEWEST = {"sure": 1, "likely": 2, "possible": 3}
"""Things that a list has at least behind a verb of each sort."""
_FEWEST_BARE = 3
_MOST = 12
"""Verbs and colons of a sentence behind which a list is looked for."""
_KNOWN = 0.66
"""Share of a list's things that are known."""
_BESIDE = 6
"""Characters before a strength that is told of the last thing: *I make it 1 molar*."""


@lru_cache(maxsize=4096)
def need_list(text: str) -> str | None:
    """The list of things in a sentence that says they are needed, or None."""
    bare = led_in(text)
    label = _LABEL.match(bare)
    if label and part_named(label[1]) in NEEDS:
        return bare[label.end() :]
    found = patterns("needing").match(text) or patterns("needing").match(bare)
    if found:
        rest = (text if found.string is text else bare)[found.end() :]
        rest = patterns("asked_of").sub("", rest, count=1)
        return None if _is_purpose(rest) else _without_remark(rest)
    behind = re.fullmatch(rf"(.+?){table().text('needed_behind')}", bare)
    if behind and one_of("seen", "not_subjects").match(bare):
        return None
    if behind and not re.search(r"\b(?:which|that|because)\b|[,;]", behind[1]):
        return behind[1]
    return _with_details(bare) or next(_lists(bare), None)


_TOLD_OF = re.compile(
    r"(?:the\s+)?(?P<name>[^,;:]{3,40}?)\s+(?:is|are)\s+"
    r"(?P<where>(?:in|on|by)\s+(?:the|my)\s+[^,;:]{3,40},\s+)?(?=\S+\s)",
    re.IGNORECASE,
)


def _with_details(text: str) -> str | None:
    """*The acid is 0.5 molar, 60 ml a group* as *acid, 0.5 molar, 60 ml a group*."""
    found = _TOLD_OF.match(text)
    if found is None or not known_thing(found["name"]):
        return None
    told = _without_remark(text[found.end() :].rstrip(" ."))
    units = [parse_quantity(q).unit for *_, q in quantities_in(told)]
    is_told = any(map(is_strength, units)) or (found["where"] and units)
    if not is_told or not all(map(is_detail, re.split(r",\s+(?:and\s+)?", told))):
        return None
    return f"{found['name']}, {told}"


def _is_purpose(rest: str) -> bool:
    """*You need to stir it* is no list, nor is *we use the tile to see it*."""
    if re.match(r"to\s|it\b|not\b|that\b|them\b", rest, re.IGNORECASE):
        return True
    return len(re.split(r",|\band\b", rest)) < 3 and bool(
        re.search(r"\bto\s+[a-z]{3,}\b|\bbecause\b|\bwhen\b", rest)
    )


@cache
def _having() -> re.Pattern[str]:
    """A verb or sign behind which things that are needed may stand, by how sure it is."""
    row = table().row("having")
    sorts = (rf"(?P<{k}>{alternatives(row.texts(k))})" for k in row.cells)
    return re.compile(rf"(?<![\w'’-])(?:{'|'.join(sorts)})(?![\w'’])|:", re.I)


def _lists(text: str) -> Iterator[str]:
    """The lists of known things that a sentence may ask for, the first first."""
    is_question = text.endswith("?")
    is_caused = patterns("doers", "causing").match(text)
    is_idle = is_question and not (is_caused or patterns("asking_for").match(text))
    if is_idle or len(text) > LONGEST or patterns("danger").search(led_in(text)):
        return
    body = text.rstrip(" .?!")
    for verb in islice(_having().finditer(body), _MOST):
        lead, rest = body[: verb.start()], _without_remark(body[verb.end() :])
        rest = patterns("asked_of").sub("", rest, count=1)
        is_second = "," in lead and _having().search(lead)
        if len(lead.split()) > _FARTHEST or is_second or _acts(lead):
            return
        fewest = _FEWEST.get(verb.lastgroup or "", _FEWEST["likely"])
        share = 1.0 if fewest > 1 and seen_in(text) else _KNOWN
        if _is_list(rest, 1 if is_question else fewest, share):
            yield rest
    bare = _without_remark(body)
    opens = patterns("opening_signs", "3").search(text)
    is_said = is_question or opens or steps_in(text) or _acts(bare)
    if not is_said and _is_list(bare, _FEWEST_BARE):
        yield bare


def _acts(lead: str) -> bool:
    """Whether something is done, or not to be done, before the list."""
    lead = patterns("before_asking").sub("", led_in(lead), count=1)
    if lead.strip().casefold() in ("that", "this", "it"):
        return False
    if patterns("not_asking").search(lead):
        return True
    having = {w for k in _FEWEST for v in words("having", k) for w in v.split()}
    row = re.findall(r"[\w'-]+", led_in(lead).casefold())
    while len(row) > 1 and row[0] in words("how"):
        row = row[1:]
    return bool(row) and row[0] in doing().keys() - having and len(row) > 1


def _without_remark(text: str) -> str:
    """A list without the clause that goes on about something else."""
    said = details_parted(patterns("places_of_needs").sub(", ", text)).strip(" ,")
    for found in patterns("remarks").finditer(said):
        first = next(quantities_in(said[found.end() :]), None)
        if first is None or first[0] > _BESIDE:
            return said[: found.start()].strip()
    return said.strip()


def _is_list(text: str, fewest: int, share: float = _KNOWN) -> bool:
    """Whether a text is a list of so many things, and most of them known."""
    said = text if re.search("[,;]", text) else parted(text, known_thing)
    items = [item.strip() for item in items_in(said)]
    if not all(map(may_be_thing, items)):
        return False
    known = sum(map(known_thing, items))
    return len(items) >= fewest and known >= share * len(items)


def may_be_thing(item: str) -> bool:
    """Whether an item of a list is no clause: *we close it*, *poured into the funnel*."""
    row = re.findall(r"[^\W_][\w'’-]*", item.casefold())
    is_rate = "per" in row and next(quantities_in(item), None) is None
    if not row or is_rate or row[0] in words("no_thing") or _clause().search(item):
        return False
    if row[:2] == ["the", "one"]:
        return False
    if row[0] in doing() and len(row) > 1 and row[1] in words("clauses", "objects"):
        return False
    return known_thing(item) or not (has_verb(item) or len(row) > _LONGEST)


@cache
def _clause() -> re.Pattern[str]:
    """Verbs that no name of a thing holds."""
    seen = table().row("seen")
    verbs = {v for k in ("become_verbs", "doing_verbs") for v in seen.texts(k)}
    sees = {v for v in verbs if v.endswith("s") and v not in words("seen", "nouns_too")}
    done = {f"{verb}s" for verb in doing().keys() - words("noun_too")}
    part = alternatives(set(doing().values()))
    return re.compile(
        rf"\b(?:is|are|was|were|will|can|has|have|must|should|(?:{alternatives(sees | done)})(?=\s))\b"
        rf"|\b(?:over|until|when|while|because|does|do|did)\b|\b(?:{part})\s+(?:in|into|on|onto|to|from|up|out)\b",
        re.IGNORECASE,
    )
