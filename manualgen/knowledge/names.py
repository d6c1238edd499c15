"""When two names name the same thing.

Names are compared by a key in which case, the spelling of sulfur, the space
before a Roman numeral and the kind of apostrophe make no difference. Words that
say in what form a chemical is used, not what it is, are taken off.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from manualgen.chemistry import Formula

_MULTIPLIERS: Final = {
    "½": "hemi",
    "1": "mono",
    "2": "di",
    "3": "tri",
    "4": "tetra",
    "5": "penta",
    "6": "hexa",
    "7": "hepta",
    "8": "octa",
    "9": "nona",
    "10": "deca",
    "12": "dodeca",
    "16": "hexadeca",
    "18": "octadeca",
}

_BEFORE = re.compile(
    r"(?:the |an? |some |dilute |concentrated |conc\.? |glacial |saturated |acidified |"
    r"alkaline |aqueous |anhydrous |hydrated |dry |solid |molten |powdered |finely divided |"
    r"hot |warm |cold |fresh |freshly made |pure |impure |crude |moist |"
    r"(?:a )?(?:saturated |dilute )?solution of )+"
)
_BEHIND = re.compile(
    r"(?:,? (?:solutions?|powder|granules|ribbons?|turnings|foil|filings|wool|strips?|"
    r"sheet|wire|pellets|crystals?|chips|lumps?|pieces?|solid|gas|vapour|liquid|metal|"
    r"flakes|beads|electrodes?|rods?|plates?|bars?|shavings|tablets?|suspension)"
    r"| ?\((?:aq|s|l|g|solid|liquid|gas|powder|anhydrous|dilute|aqueous|conc\.?)\))+$"
)
_SPACES = re.compile(r"[\s\u00a0\u202f]+")
_BEFORE_NUMERAL = re.compile(r" \((?=[0ivx]+\))")


def key(name: str) -> str:
    """The name as it is compared: ``Sulphuric  acid`` is ``sulfuric acid``."""
    text = _SPACES.sub(" ", name).strip(" .,;:").casefold()
    text = text.replace("’", "'").replace("sulph", "sulf").replace("‑", "-")
    return _BEFORE_NUMERAL.sub("(", text.replace("aluminum", "aluminium"))


def bare_key(name: str) -> str:
    """The key without the words that only say in what form it is used.

    >>> bare_key("dilute hydrochloric acid solution")
    'hydrochloric acid'
    """
    return _BEHIND.sub("", _BEFORE.sub("", key(name), count=1))


def hydrate_names(name: str, formula: Formula) -> Iterator[str]:
    """How a hydrate is called: ``-5-water``, ``pentahydrate``, ``hydrated …``."""
    for water in formula.adducts:
        number = "½" if str(water.count) == "1/2" else str(water.count)
        yield f"{name}-{number}-water"
        yield f"{name} {number}-water"
        if number in _MULTIPLIERS:
            yield f"{name} {_MULTIPLIERS[number]}hydrate"
