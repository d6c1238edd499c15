"""What is needed: a list in prose or by lines, as entries of the two lists of the format.

Only what the source gives is written: no amount is made up, and a thing of
which neither a table nor a heading tells what it is stays unplaced.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.adopting.spans import quantities_in, right_formula
from manualgen.adopting.vocabulary import Part, alternatives, numbers, words
from manualgen.knowledge import (
    Chemical,
    Form,
    builtin_vocabulary,
    find_apparatus,
    find_chemical,
    mentions,
)
from manualgen.quantities import parse_quantity
from manualgen.quantities.kinds import AMOUNTS, kind_of
from manualgen.quantities.kinds import is_strength as strength
from manualgen.quantities.mend import typed

_ARTICLE = re.compile(
    r"^(?:(?:an?(?!\s+(?:little|few|pinch|bit|drop|piece)\b)|the|some|about|roughly|around|approximately|another|also|then|and|plus|any|your|each|of|or|maybe|perhaps|either)\s+)+",
    re.IGNORECASE,
)
_STRENGTH_WORD = re.compile(r"\b(saturated|concentrated|glacial)\b", re.IGNORECASE)
_ASIDE = re.compile(
    r"\s*(?:\b(?:if you|if we|that|which|who|because|so that|standing|to stand|for (?:the|each|this|every)|each|per group|I make|in total|altogether|please|as well|too|in case|or so)\b.*)",
    re.IGNORECASE,
)
_CALLED = re.compile(r"\bI make it\b", re.IGNORECASE)
_WORTHY = re.compile(r"[\w%°³²·⁻+−()’'/., -]+")


@dataclass(frozen=True, slots=True)
class Needed:
    """A thing that is needed, as an entry of a list; the part is None where unsure."""

    entry: str
    part: Part | None
    words: str
    """As the source has it."""


def needed_in(text: str, part: Part | None = None) -> tuple[Needed, ...]:
    """The things that a list names, in order."""
    return tuple(
        _needed(thing, part) for item in items_in(text) for thing in _filled(item)
    )


def _filled(item: str) -> tuple[str, ...]:
    """A vessel and what is in it: *a kettle of hot water* is two things."""
    vessel, of, content = item.partition(" of ")
    piece = find_apparatus(_bare(vessel)) if of else None
    if piece and piece.holds and find_chemical(_bare(content)):
        return vessel, content
    return (item,)


_JOINT = re.compile(
    r"\s*,\s+(?:and\s+)?(?:then\s+)?|\s+and\s+(?:then\s+)?|\s+with\s+|\s+standing in\s+|"
    r"\s+(?=(?:an?|some|two|three|four|five|six)\s+\w)",
    re.IGNORECASE,
)


def items_in(text: str) -> Iterator[str]:
    """The items of a list: parted by commas, semicolons and *and*, but not inside a name."""
    bare = text.strip().rstrip(".")
    pieces = re.split(r"\s*;\s*(?:and\s+)?", bare)
    for piece in pieces:
        yield from _with_details(list(_by_comma(piece)))


def _by_comma(text: str) -> Iterator[str]:
    named = mentions(text)
    spans = [(m.start, m.end) for m in named.apparatus]
    spans += [(m.start, m.end) for m in named.chemicals]
    begin = 0
    for joint in _JOINT.finditer(text):
        inside = any(s < joint.start() and joint.end() < e for s, e in spans)
        if inside or _is_in_brackets(text, joint.start()):
            continue
        is_sure = "," in joint.group() or joint.group().split()[:1] == ["and"]
        before, after = text[begin : joint.start()], text[joint.end() :]
        if not is_sure and not _both_known(before, after):
            continue
        yield text[begin : joint.start()]
        begin = joint.end()
    yield text[begin:]


def _both_known(before: str, after: str) -> bool:
    following = _JOINT.split(after, maxsplit=1)[0]
    left, right = (_bare(_quantities(t)[2]) for t in (before, following))
    if find_apparatus(f"{left} with {right}") and "clip" in right:
        return False
    return _is_known(left) and _is_known(right)


def _is_known(name: str) -> bool:
    """Whether a table knows a thing by all of its words."""
    if builtin_vocabulary().phrases.exactly(name):
        return True
    spans = (m.end - m.start for m in mentions(name).chemicals)
    return max(spans, default=0) >= len(name) > 0


def _is_in_brackets(text: str, at: int) -> bool:
    return text.count("(", 0, at) > text.count(")", 0, at)


def _with_details(parts: list[str]) -> Iterator[str]:
    """Items, each with the quantities and qualities that a comma parted from it."""
    item = ""
    for part in parts:
        if item and _is_detail(part):
            item += f", {part.strip()}"
            continue
        if item.strip():
            yield item
        item = part
    if item.strip():
        yield item


_QUALITY = re.compile(
    r"(?:crushed|powdered|dilute|concentrated|saturated|dry|fresh|chopped|class [AB]|graduated|"
    r"I make it\b.*|reading to .*|2 per class|\d+ per class|all of it.*|about|roughly)",
    re.IGNORECASE,
)


def _is_detail(part: str) -> bool:
    bare = _ARTICLE.sub("", part.strip(), count=1)
    if _QUALITY.fullmatch(bare) or right_formula(bare):
        return True
    rest = bare
    for start, end, _ in reversed(list(quantities_in(bare))):
        rest = rest[:start] + rest[end:]
    return rest != bare and not re.sub(r"about|of|[ (),]", "", rest)


def _needed(item: str, part: Part | None) -> Needed:
    said = item.strip()
    strengths, amounts, rest = _quantities(said)
    count, rest = _count(rest)
    words_, rest = _qualities(rest)
    name = _bare(rest)
    sort = _sort(name, part)
    if not name or not _WORTHY.fullmatch(name) or name[0].isdigit() or len(name) > 80:
        return Needed(said, None, said)
    if sort is Part.APPARATUS:
        lead = f"{count} " if count else ""
        return Needed(", ".join([lead + name, *amounts, *_kept(words_)]), sort, said)
    if sort is Part.CHEMICALS:
        name = f"{count} {name}" if count and not amounts else name
        return Needed(", ".join([name, *strengths, *words_, *amounts]), sort, said)
    return Needed(said, None, said)


def _kept(qualities: list[str]) -> list[str]:
    return [q for q in qualities if q.startswith("class")]


def _quantities(item: str) -> tuple[list[str], list[str], str]:
    """Strengths, amounts and what is left of an item."""
    strengths: list[str] = []
    amounts: list[str] = []
    rest = item
    found = list(quantities_in(item))
    for _, _, written in found:
        quantity = parse_quantity(written)
        if strength(quantity.unit) and len(strengths) < 1:
            strengths.append(typed(quantity))
        elif kind_of(quantity.unit) in AMOUNTS and len(amounts) < 1:
            amounts.append(typed(quantity))
    for start, end, _ in reversed(found):
        rest = f"{rest[:start]} {rest[end:]}"
    return strengths, amounts, _tidied(_CALLED.sub(" ", rest))


def _tidied(text: str) -> str:
    bare = re.sub(r"\(\s*(?:of|about)?\s*\)", " ", text)
    bare = re.sub(r"\s*,\s*(?=,|$)", "", " ".join(bare.split()))
    return re.sub(r"^[\s,x×]+|[\s,:]+$", "", bare)


def _count(text: str) -> tuple[str, str]:
    """A number before the name, in figures."""
    bare = re.sub(r"^(?:about|roughly|some)\s+", "", text, flags=re.I)
    found = re.match(
        rf"(\d{{1,2}}|{alternatives(numbers())})\s*(?:[x×]\s*)?(?=[^\W\d])", bare, re.I
    )
    if not found or bare[found.end() :].startswith("per "):
        return "", text
    word = found[1].casefold()
    return numbers().get(word, word), bare[found.end() :]


def _qualities(text: str) -> tuple[list[str], str]:
    """Words of strength and glass, which stand behind the name in a list."""
    found: list[str] = []
    for match in _STRENGTH_WORD.finditer(text):
        found.append(match[1].casefold())
    text = _STRENGTH_WORD.sub(" ", text)
    if re.search(r"\bdilute\b", text, re.IGNORECASE):
        found.append("dilute")
        text = re.sub(r"\bdilute\b", " ", text, flags=re.IGNORECASE)
    if glass := re.search(r"\bclass ([AB])\b", text):
        found.append(f"class {glass[1]}")
        text = text.replace(glass.group(), " ")
    return found[:1], _tidied(text)


def _bare(text: str) -> str:
    """The name alone: without article, brackets and what is added."""
    bare = _ARTICLE.sub("", _tidied(text), count=1)
    bare = re.sub(
        r"\s*\([^()]*\)", lambda m: m.group() if _is_roman(m.group()) else "", bare
    )
    bare = _ASIDE.sub("", bare) or bare
    head, *qualities = bare.split(", ")
    if qualities and all(
        _QUALITY.fullmatch(q.strip()) or _is_formula(q) for q in qualities
    ):
        bare = head
    return bare.strip(" ,.")


def _is_roman(text: str) -> bool:
    return bool(re.fullmatch(r"\s*\([IVX]+\)", text))


def _is_formula(text: str) -> bool:
    return right_formula(text.strip()) is not None


def _sort(name: str, part: Part | None) -> Part | None:
    """On which list a thing belongs: by a table, its last word, or the heading.

    A heading of chemicals is believed; one of equipment often stands over both.
    """
    if part is Part.CHEMICALS:
        return part
    own = _own_sort(name)
    return own or (part if part is Part.APPARATUS else None)


def _own_sort(name: str) -> Part | None:
    chemical, piece = find_chemical(name), find_apparatus(name)
    if piece and (chemical is None or _is_piece_first(name, chemical)):
        return Part.APPARATUS
    if chemical:
        return Part.CHEMICALS
    last = re.split(r"[\s-]", name.split(" of ")[0].casefold())[-1] if name else ""
    for sort in (Part.CHEMICALS, Part.APPARATUS):
        if last in words("last_words", sort.value):
            return sort
    named = mentions(name)
    if len(named.chemicals) == 1 and not named.apparatus:
        return Part.CHEMICALS
    return Part.APPARATUS if named.apparatus and not named.chemicals else None


def _is_piece_first(name: str, chemical: Chemical) -> bool:
    """Whether the apparatus is the longer reading: *carbon rods*, *litmus paper*."""
    named = mentions(name)
    pieces = max((m.end - m.start for m in named.apparatus), default=0)
    others = max((m.end - m.start for m in named.chemicals), default=0)
    if pieces != others:
        return pieces > others
    if pieces:
        last = name.casefold().rsplit(" ", 1)[-1]
        return last in words("last_words", "apparatus")
    return chemical.form is Form.SOLID
