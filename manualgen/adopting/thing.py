"""One thing that is needed, as an entry of one of the two lists of the format.

Only what the source gives is written: no amount is made up, and a thing of
which neither a table nor a heading tells what it is stays unplaced.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from manualgen.adopting.qualities import (
    TREATED,
    cut_from,
    kept_of_apparatus,
    portion_in,
    precision_in,
    qualities_in,
    ratings_in,
    tidied,
    treatments_in,
)
from manualgen.adopting.spans import quantities_in, right_formula
from manualgen.adopting.unsure import is_letter, is_share, is_unsure
from manualgen.adopting.vocabulary import Part, alternatives, numbers, table, words
from manualgen.knowledge import (
    Chemical,
    Form,
    find_apparatus,
    find_chemical,
    mentions,
)
from manualgen.quantities import parse_quantity
from manualgen.quantities.kinds import AMOUNTS, kind_of
from manualgen.quantities.kinds import is_strength as strength
from manualgen.quantities.mend import typed

_PORTION = r"(?:(?:small|tiny|large|big|short|good|level|thin)\s+)*(?:little|few|(?:pinch|bit|drop|couple|piece|spatula|strip|length|handful|spoonful|teaspoon|squirt|cube|lump|sheet|roll)(?=\s+of\b))"
_ARTICLE = re.compile(
    r"^(?:(?:(?:off|from|on) (?:the|my) (?:\w+ )?(?:trolley|shelf|shelves|side|front|bench|tray|cupboard|back|fridge|desk),?|of which|no more than|not more than|at least|an?(?!\s+"
    + _PORTION
    + r"\b)|the|some|about|roughly|around|approximately|another|second|third|further|(?:small|large)\s+(?:amounts?|quantit(?:y|ies)) of|amounts? of|samples? of|also|then|and|plus|any|your|each|of|or|maybe|perhaps|either)\s+)+",
    re.IGNORECASE,
)
_ASIDE = re.compile(
    r"\s*(?:\b(?:if you|if we|that|which|who|because|so that|standing|to stand|for (?:the|each|this|every)|each|apiece|itself|an?\s+(?:group|pair|head|person|go)|per group|I make|in total|altogether|please|as well|again$|of course|to fit\b|to (?:catch|hold|put|cover|keep|collect|stand|take) (?:the|it|them)\b|as before|too|in case|or so|here$)\b.*)",
    re.IGNORECASE,
)
_CALLED = re.compile(r"\bI make it\b", re.IGNORECASE)
_LONG = 6
"""Letters of a last word that others may end with."""
_WORTHY = re.compile(r"[\w%°³²·⁻+−()’'/., -]+")


@dataclass(frozen=True, slots=True)
class Needed:
    """A thing that is needed, as an entry of a list; the part is None where unsure."""

    entry: str
    part: Part | None
    words: str
    """As the source has it."""


def needed(item: str, part: Part | None) -> Needed:
    """One item of a list as an entry; ``part`` is the list that its heading names."""
    said = item.strip()
    if read_to := _read_to(said, part):
        return read_to
    if is_unsure(said) or is_share(said):
        return Needed(said, None, said)
    portion, rest = portion_in(_in_full(said))
    strengths, amounts, rest = quantities_of(rest)
    if len(strengths) > 1 or len(amounts) > 1:
        return Needed(said, None, said)
    count, rest = _count(rest)
    words_, rest = qualities_in(rest)
    treated, rest = treatments_in(rest)
    name = bare_name(rest)
    sort = _sort(name, part) or _sort_by_amount(said, strengths, amounts)
    if not name or not _WORTHY.fullmatch(name) or _is_nameless(name) or len(name) > 80:
        return Needed(said, None, said)
    name = _with_its_capitals(name)
    if sort is Part.APPARATUS and strengths:
        return Needed(said, None, said)
    if sort is Part.APPARATUS:
        words_ += ratings_in(said)
        lead = f"{count} " if count else ""
        name = _in_the_plural(name) if count not in ("", "1") else name
        return Needed(
            ", ".join([lead + name, *amounts, *kept_of_apparatus(words_)]), sort, said
        )
    if sort is Part.CHEMICALS:
        name = f"{count} {name}" if count and not amounts else name
        told = [*(strengths or words_), *amounts, *portion, *treated]
        return Needed(", ".join([name, *told]), sort, said)
    return Needed(said, None, said)


def _read_to(said: str, part: Part | None) -> Needed | None:
    """*A balance to 0.01 g* as the list has it: *balance, reading to 0.01 g*."""
    bare, precision = precision_in(said)
    piece = needed(bare, part) if precision else None
    if piece is None or piece.part is not Part.APPARATUS:
        return None
    return Needed(f"{piece.entry}, {precision}", piece.part, said)


def name_in(item: str) -> str:
    """The name of a thing without its count, amount and strength."""
    return bare_name(_count(quantities_of(item)[2])[1])


def known_thing(item: str) -> bool:
    """Whether a table, or its last word, tells what a thing is."""
    return own_sort(name_in(item)) is not None


_QUALITY = re.compile(
    r"(?:crushed|powdered|dilute|concentrated|saturated|dry|fresh|chopped|class [AB]|graduated|"
    r"(?:of |from )?(?:it|them|each)|I make it\b.*|reading to .*|2 per class|\d+ per class|all of it.*|about|roughly)",
    re.IGNORECASE,
)


def _in_full(item: str) -> str:
    """Short forms written out: *conc.*, *soln*."""
    short = table().row("short_forms")
    for form in short.cells:
        item = re.sub(rf"\b{form}\b(?:\.|(?!\w))", short.text(form), item, flags=re.I)
    return item


def _with_its_capitals(name: str) -> str:
    """Without the capital that began a line; *Petri dish* always has its own."""
    first, _, rest = name.partition(" ")
    if rest and first.casefold() in words("proper_names"):
        return f"{first[0].upper()}{first[1:]} {rest}"
    is_title = first.istitle() and len(first) > 2 and "'" not in first
    is_title = is_title and not rest[:1].isupper()
    if not is_title or first.casefold() in words("proper_names"):
        return name
    return name[0].lower() + name[1:]


def _in_the_plural(name: str) -> str:
    """The name of more than one, where its last word is known in both forms."""
    head = re.split(r"\s+(?:with|of|for|and)\s", name, maxsplit=1)[0]
    last = head.rsplit(" ", 1)[-1].casefold()
    is_one = {last, f"{last}s"} <= words("last_words", "apparatus")
    return f"{head}s{name[len(head) :]}" if is_one else name


def _is_nameless(name: str) -> bool:
    """Whether it is a letter, or a number is left before it that is no locant."""
    is_numbered = name[0].isdigit() and not re.match(r"\d+(?:,\d+)*-[^\W\d]", name)
    is_place = re.match(r"(?:in|on|into|from|at|with|by)\s", name, re.IGNORECASE)
    return is_numbered or bool(is_place) or is_letter(name)


def _sort_by_amount(said: str, strengths: list[str], amounts: list[str]) -> Part | None:
    """Of which a strength, a mass or *2 cm3 of it* is told is a chemical, known or not."""
    weighed = any(kind_of(parse_quantity(a).unit) == "mass" for a in amounts)
    weighed = weighed or any(
        said[end:].startswith(" of ") for _, end, _ in quantities_in(said) if amounts
    )
    return Part.CHEMICALS if strengths or weighed else None


def quantities_of(item: str) -> tuple[list[str], list[str], str]:
    """Strengths, amounts and what is left of an item."""
    strengths: list[str] = []
    amounts: list[str] = []
    rest = item
    found = list(quantities_in(item))
    for _, _, written in found:
        quantity = parse_quantity(written)
        if strength(quantity.unit):
            strengths.append(typed(quantity))
        elif kind_of(quantity.unit) in AMOUNTS:
            amounts.append(typed(quantity))
    for start, end, _ in reversed(found):
        rest = f"{rest[:start]} {rest[end:]}"
    return strengths, amounts, tidied(_CALLED.sub(" ", rest))


_BEHIND = re.compile(r"(.+?)\s*(?:\((?:[x×]\s*)?(\d{1,2})\)|[x×]\s*(\d{1,2}))\s*")


def _count(text: str) -> tuple[str, str]:
    """A number before or behind the name, in figures."""
    if behind := _BEHIND.fullmatch(text):
        return behind[2] or behind[3], behind[1]
    bare = re.sub(
        r"^(?:and|plus|also|about|roughly|some|(?:an?\s+)?(?:row|set|series) of)\s+",
        "",
        text,
        flags=re.I,
    )
    found = re.match(
        rf"(\d{{1,2}}|{alternatives(numbers())})\s*(?:[x×]\s*)?(?=[^\W\d])", bare, re.I
    )
    if not found or bare[found.end() :].startswith("per "):
        return "", text
    word = found[1].casefold()
    figure = numbers().get(word, word)
    rest = bare[found.end() :]
    one = re.match(r"pair of\s+", rest, re.IGNORECASE) if figure == "1" else None
    return ("", rest[one.end() :]) if one else (figure, rest)


def bare_name(text: str) -> str:
    """The name alone: without article, brackets and what is added."""
    bare = _ARTICLE.sub("", tidied(text), count=1)
    bare = re.sub(
        r"\s*\([^()]*\)", lambda m: m.group() if _is_roman(m.group()) else "", bare
    )
    bare = _ASIDE.sub("", bare) or bare
    if " with " not in bare:
        bare = re.sub(r"\s+(?:in|on) (?:it|them)$", "", bare)
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
    own = own_sort(name)
    return own or (part if part is Part.APPARATUS else None)


def own_sort(name: str) -> Part | None:
    """On which list a thing belongs by a table, or by its last word."""
    chemical, piece = find_chemical(name), find_apparatus(name)
    if piece and (chemical is None or _is_piece_first(name, chemical)):
        return Part.APPARATUS
    if chemical:
        return Part.CHEMICALS
    head = cut_from(name).split(" of ")[0]
    last = re.split(r"[\s-]", head.casefold())[-1] if name else ""
    for sort in (Part.CHEMICALS, Part.APPARATUS):
        known = words("last_words", sort.value)
        if {last, last.removesuffix("s")} & known or _ends_as(last, sort):
            return sort
    named = mentions(name)
    if len(named.chemicals) == 1 and not named.apparatus:
        return Part.CHEMICALS
    return Part.APPARATUS if named.apparatus and not named.chemicals else None


def _ends_as(word: str, sort: Part) -> bool:
    """Whether a word is made of a longer known one: *microburner*."""
    known = words("last_words", sort.value)
    return any(word.endswith(k) for k in known if len(k) >= _LONG)


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


def is_detail(part: str) -> bool:
    """Whether a part of a list tells only how much of the thing before it, or of what kind."""
    bare = _ARTICLE.sub("", part.strip(), count=1)
    if TREATED.match(f", {bare}"):
        return True
    if _QUALITY.fullmatch(bare) or right_formula(bare):
        return True
    rest = bare
    for start, end, _ in reversed(list(quantities_in(bare))):
        rest = rest[:start] + rest[end:]
    return rest != bare and not re.sub(
        r"\b(?:about|of|it|them|each|apiece|an? (?:group|pair|head|person|go)|per (?:group|pair|head|person|student))\b|[ (),]",
        "",
        rest,
    )
