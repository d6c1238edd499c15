"""Words that stand where an amount belongs.

*Some*, *a little*, *a few drops of* before a chemical are vague; *some time* is
not, nor is an amount that a result decides (*until* it is pink, *just enough to
dissolve*), one that has a limit (*up to* so much), what is found there (*if some
solid is left*), *a few drops* of an indicator, what is only for rinsing, and
granules against bumping.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from manualgen.model.place import Place
from manualgen.working.naming import Named, NamedInPassage
from manualgen.working.until import is_left_to_result
from manualgen.working.worked import WorkedExperiment

_VAGUE = re.compile(
    r"\b(?:some(?: more)?|a little|a bit of|a few|several|a small|a large|a tiny|"
    r"sufficient|a sufficient|enough|a suitable|an appropriate|a quantity of|an amount of|"
    r"small amounts? of|a pinch of|plenty of|a couple of|a lump of|a spot of|a dash of|a squirt of|a drop or two of)\b"
    r"(?P<rest>(?:\s+(?:more|further|small|large|tiny|of|the|your|dry|solid|dilute|clean|"
    r"fresh|drops?|pieces?|lumps?|crystals?|granules?|chips?|amounts?|quantit\w+|volumes?|"
    r"portions?|spatula\w*|spatula-fuls?|measures?|concentrated|powdered|anhydrous|cold|hot|"
    r"warm|strips?|bits?|spoon\w*|pellets?|grains?|cm3|cm³|ml|mL|millilitres?|grams?|"
    r"shavings|turnings|flakes|shreds|squirts?|dashes?))*)\s+$",
    re.IGNORECASE,
)
_DECIDED = re.compile(
    r"\b(?:to rinse|rins\w*|wash\w*|just enough|enough [^.]{0,60}? to|"
    r"to dissolve|to cover|to moisten|moisten\w*|damp\w*|to wet|wet|smear|minimum|least|"
    r"drop by drop|dropwise|a drop at a time|a little at a time|as needed|if necessary|"
    r"if needed|test for|to test|on the end of|on the tip of|at a time|grease|lubricat\w*|"
    r"to give|to bring|so that|to make up|to neutralise|to (?:the|a) (?:ph|depth)|depth of)\b",
    re.IGNORECASE,
)
_UP_TO = re.compile(
    r"\b(?:up to|at most|(?:no|not) more than)\s+(?:a total of\s+)?"
    r"\d[\d.,]*\s*(?:[cd]?m3|[cd]?m³|m[lL]|m?g|drops)\b"
)
_FOUND_THERE = re.compile(
    r"\b(?:if|when|whenever|unless|once|should)\s+(?:there (?:is|are)\s+)?(?:still\s+)?$",
    re.IGNORECASE,
)
_UNTIL = re.compile(r"\b(?:until|till)\b", re.IGNORECASE)
_HANDLES = re.compile(
    r"\b(?:add|put|use|pour|place|take|transfer|mix|tip|drop|sprinkle|measure|weigh|"
    r"dissolve|heat|warm|collect|stir|shake|react|crush|grind)\w*\b",
    re.IGNORECASE,
)


def vague_amounts(work: WorkedExperiment) -> Iterator[tuple[Place, str]]:
    """Each vague amount of a chemical in a step, with the words from *some* on."""
    for passage in work.materials.steps:
        for start, end in passage.passage.prose.sentences:
            here = [n for n in passage.chemicals if start <= n.start < end]
            sentence = passage.text[start:end]
            if not here or not _HANDLES.search(sentence) or _DECIDED.search(sentence):
                continue
            if _UP_TO.search(sentence):
                continue
            for named in here:
                if named.sole is not None and is_piece(work, named.sole):
                    continue
                for place, words in _before(passage, named, start):
                    if "drop" not in words or not _is_indicator(work, named):
                        yield place, words


def _before(
    passage: NamedInPassage, named: Named, start: int
) -> Iterator[tuple[Place, str]]:
    before = passage.text[start : named.start]
    match = _VAGUE.search(before)
    if match is None or named.negated or _is_water(named):
        return
    if _FOUND_THERE.search(before[: match.start()]):
        return
    if not _HANDLES.search(before[: match.start()]):
        return
    finish = next(e for s, e in passage.passage.prose.sentences if s <= start < e)
    sentence = passage.text[start:finish]
    if _UNTIL.search(before) or is_left_to_result(
        sentence, match.start(), named.end - start
    ):
        return
    first, last = start + match.start(), named.end
    place = passage.passage.prose.place(first, last)
    yield place, " ".join(passage.text[first:last].split())


def is_piece(work: WorkedExperiment, entry: int) -> bool:
    """Whether a line among the chemicals is a thing used up: granules, splints."""
    name = work.materials.lineup.entries[entry].listed.name
    piece = work.laboratory.vocabulary.find(name)
    return piece is not None and piece.consumable


def _is_indicator(work: WorkedExperiment, named: Named) -> bool:
    """Whether *a few drops* of it will do: its colour is all that is wanted."""
    sole = named.sole
    listed = None if sole is None else work.materials.lineup.entries[sole].chemical
    chemical = listed or named.chemical
    return chemical is not None and "indicators" in chemical.kin


def _is_water(named: Named) -> bool:
    return named.chemical is not None and named.chemical.substance == "water"
