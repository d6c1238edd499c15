"""What is said of a thing beside its name: portions, treatment, strength in words, glass."""

from __future__ import annotations

import re

from manualgen.adopting.spans import quantities_in, right_quantity
from manualgen.adopting.vocabulary import numbers
from manualgen.quantities import parse_quantity
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import typed

_STRENGTH_WORD = re.compile(r"\b(saturated|concentrated|glacial)\b", re.IGNORECASE)


def tidied(text: str) -> str:
    """Without the brackets, commas and *of* that a quantity leaves behind it."""
    bare = re.sub(r"\(\s*(?:of|about)?\s*\)", " ", text)
    bare = re.sub(
        r",\s*(?:about|roughly)?\s*(?:of (?:it|them|each)\b)?(?=\s*(?:,|$))", " ", bare
    )
    bare = re.sub(r"\s(?:at|of)(?=\s*(?:,|$))", " ", bare)
    bare = re.sub(r"\s*,\s*(?=,|$)", "", " ".join(bare.split()))
    return re.sub(r"^[\s,x×]+|[\s,:]+$", "", bare)


_PORTIONS = re.compile(
    r"(?:about|roughly|around)?\s*(\w+)\s+((?:level\s+)?(?:drop|spatula|teaspoon|tablespoon|spoonful|spatula-end)s?)\s+of\s+(?=\S)",
    re.IGNORECASE,
)
TREATED = re.compile(
    r",\s*((?:freshly\s+|finely\s+)?[a-z]{3,}(?<!we)(?<!se)(?<!ne)ed)(?=\s*(?:,|\(|$))"
)


def portion_in(item: str) -> tuple[list[str], str]:
    """Counted drops or spatulas, which stand behind the name in a list.

    Drops are a unit of the format; a number of anything else stays in words.
    """
    found = _PORTIONS.match(item)
    said = found[1].casefold() if found else ""
    if found is None or not (said.isdigit() or said in numbers()):
        return [], item
    portion = found[2].casefold()
    shown = numbers() if portion.startswith("drop") else _in_words()
    number = shown.get(said, said)
    return [f"{number} {portion}"], item[found.end() :]


def _in_words() -> dict[str, str]:
    return {figure: word for word, figure in numbers().items()}


def treatments_in(text: str) -> tuple[list[str], str]:
    """What was done to a thing beforehand: *orange juice, strained*."""
    found = TREATED.search(text)
    if found is None or _STRENGTH_WORD.fullmatch(found[1]):
        return [], text
    return [found[1]], tidied(text[: found.start()] + text[found.end() :])


def kept_of_apparatus(qualities: list[str]) -> list[str]:
    """Those that a piece of apparatus is listed with: its class and its ratings."""
    return [q for q in qualities if q.startswith("class") or q[0].isdigit()]


def ratings_in(item: str) -> list[str]:
    """Quantities that are neither strength nor size: a battery's *6 V*."""
    written = (parse_quantity(w) for _, _, w in quantities_in(item))
    return [typed(q) for q in written if kind_of(q.unit) == "potential difference"]


_READS = re.compile(
    r"(?<!\d),?\s*\(?(?:reads|reading|accurate|weighing)?\s+to\s+(?P<to>\d[^()]*)\)?$"
)


def precision_in(item: str) -> tuple[str, str]:
    """What an instrument reads to, as a list has it: *reading to 0.01 g*."""
    found = _READS.search(item)
    told = right_quantity(found["to"]) if found else None
    return (
        (item[: found.start()], f"reading to {told}") if found and told else (item, "")
    )


def qualities_in(text: str) -> tuple[list[str], str]:
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
    return found[:1], tidied(text)


_PIECES = re.compile(
    r"^(?:\w+ )?(?:bits?|pieces?|strips?|squares?|lengths?|lumps?|scraps?) of ", re.I
)


def cut_from(name: str) -> str:
    """What *bits of stained cloth* are of."""
    return _PIECES.sub("", name)
