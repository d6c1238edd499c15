"""How a piece of a drawing stands to another: the words for it, and what is written instead.

The format knows seven relations. An author who writes *held in clamp stand* or
*connected to condenser* is told the one that is meant, and the rest of the
line is read as if it stood there.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from manualgen.model.fences import Relation
from manualgen.model.nearest import nearest

_KNOWN: Final = (
    r"(?P<word>on|above|in|^with|heated\s+by|held\s+by)\s+"
    r"|joined\s+(?:by\s+(?P<tube>[^\[\];]{1,80}?)\s+)?to\s+"
)
_JOINED: Final = r"(?:joined|joint|connected|conected|linked|attached|fitted|coupled)"
_TO: Final = r"(?:on ?to|to|into|with)"
_INSTEAD: Final = (
    (
        Relation.HELD,
        r"(?:hold|holds|held|holded|clamped|supported|gripped|fastened)"
        r"\s+(?:by|in|with|on|to|from|using|inside|at)",
    ),
    (Relation.IN, r"(?:heated|warmed)\s+in"),
    (Relation.HEATED, r"(?:heated|warmed|boiled)\s+(?:by|with|using|on|over)"),
    (
        Relation.IN,
        r"(?:(?:immersed|dipped|dipping|standing|stood|placed|inserted|put)\s+in(?:to)?"
        r"|inside(?:\s+of)?|into|within)",
    ),
    (
        Relation.ON,
        r"(?:(?:standing|stood|resting|placed|sitting|put|mounted)\s+(?:up)?on(?:to)?"
        r"|onto|upon)",
    ),
    (Relation.ABOVE, r"(?:(?:placed|fixed|hung|hanging|held)\s+(?:above|over)|over)"),
    (
        Relation.JOINED,
        rf"{_JOINED}\s+(?:(?:by|with|via|through|using)\s+(?P<pipe>[^\[\];]{{1,80}}?)\s+{_TO}"
        rf"|{_TO})|leading\s+(?:in)?to",
    ),
)
"""What teachers write instead; common practice, no source. The first that fits is taken."""

_UPSIDE_DOWN: Final = r"under|underneath|beneath|below"
_BESIDE: Final = r"next\s+to|beside|alongside"

RELATIONS: Final = ", ".join(Relation)
"""All of them, as a mend names them."""

_RELATION = re.compile(rf"(?<!\S)(?:{_KNOWN})", re.IGNORECASE)
_OTHER = re.compile(
    r"(?<!\S)(?:"
    + "|".join(f"(?P<r{n}>{words})" for n, (_, words) in enumerate(_INSTEAD))
    + rf"|(?P<under>{_UPSIDE_DOWN})|(?P<beside>{_BESIDE}))\s+(?=\S)",
    re.IGNORECASE,
)

_SPELT = tuple(r.value for r in Relation if len(r.value) > len("with"))
"""Those that are long enough to be misspelt and still known."""
_ONE_WORD = re.compile(r"[a-z]+(?=\s)", re.IGNORECASE)
_TWO_WORDS = re.compile(r"[a-z]+\s+[a-z]+(?=\s)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Related:
    """A relation as it stands in a line."""

    start: int
    end: int
    relation: Relation
    tube: str | None
    mend: str | None = None
    """What to write; None where it is written well."""


def relations_in(text: str) -> list[Related]:
    """The relations of a line whose contents in brackets are blanked out."""
    known = [_known(found) for found in _RELATION.finditer(text)]
    other = [_other(found) for found in _OTHER.finditer(text)]
    kept = [o for o in other if not any(_is_right(o, k) for k in known)]
    kept += [k for k in known if not any(_overlap(k, o) for o in kept)]
    return sorted(kept, key=lambda r: r.start)


def misspelt_relation(text: str) -> tuple[int, Relation] | None:
    """A relation that the first one or two words nearly are, and where they end."""
    for found in (_TWO_WORDS.match(text), _ONE_WORD.match(text)):
        near = nearest(" ".join(found[0].split()), _SPELT) if found else None
        if found and near:
            return found.end(), Relation(near)
    return None


def _known(found: re.Match[str]) -> Related:
    word = " ".join((found["word"] or "joined by").casefold().split())
    return Related(found.start(), found.end(), Relation(word), found["tube"])


def _other(found: re.Match[str]) -> Related:
    start, end = found.span()
    if found["under"]:
        mend = "the lower piece first, and the upper on the next line with above"
        return Related(start, end, Relation.ABOVE, None, mend)
    if found["beside"]:
        return Related(
            start, end, Relation.JOINED, None, "joined to, or a drawing of its own"
        )
    n = next(n for n in range(len(_INSTEAD)) if found[f"r{n}"])
    relation, tube = _INSTEAD[n][0], found["pipe"]
    if relation is not Relation.JOINED:
        return Related(start, end, relation, None, relation.value)
    mend = f"joined by {tube} to" if tube else "joined to"
    return Related(start, end, relation, tube, mend)


def _is_right(other: Related, known: Related) -> bool:
    """Whether the same words are a relation as the format has it."""
    return _overlap(other, known) and other.start >= known.start


def _overlap(one: Related, two: Related) -> bool:
    return one.start < two.end and two.start < one.end
