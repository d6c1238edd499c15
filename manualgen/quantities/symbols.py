"""The name of a quantity, as authors type it, in the parts that print differently.

`c_b` is c with the subscript b, `V2` is V with the subscript 2, `theta` the Greek
letter and `dT` stays what it is; `deltaH` is a change, ΔH (ISO 80000-1: symbols in
italics, what stands below them upright unless it is itself a symbol).
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

_SYMBOL = re.compile(r"(?P<base>[^\W\d_]+)(?P<number>\d+)?(?:_(?P<rest>\w+))?")
_CHANGE = re.compile(r"(?:[Dd]elta(?=[A-Z])|Δ)(.+)")


@dataclass(frozen=True, slots=True)
class SymbolName:
    """A symbol in its parts."""

    is_change: bool
    """Whether an upright Δ stands before it."""
    letter: str
    """Greek where its name was typed."""
    below: tuple[str, ...]
    """The subscripts, in order."""


def symbol_name(name: str) -> SymbolName | None:
    """The parts of a symbol, or None for words that are none.

    >>> symbol_name("rho_w")
    SymbolName(is_change=False, letter='ρ', below=('w',))
    >>> symbol_name("deltaH").letter
    'H'
    """
    found = _SYMBOL.fullmatch(name)
    if not found:
        return None
    subscripts = (found["number"], *(found["rest"] or "").split("_"))
    below = tuple(_greek(each) for each in subscripts if each)
    change = _CHANGE.fullmatch(found["base"])
    letter = change[1] if change else found["base"]
    return SymbolName(change is not None, _greek(letter), below)


def _greek(name: str) -> str:
    """The Greek letter of a name, ``theta`` or ``Theta``; else the name itself."""
    size = "SMALL" if name.islower() else "CAPITAL"
    spelt = name.upper().replace("LAMBDA", "LAMDA")
    try:
        return unicodedata.lookup(f"GREEK {size} LETTER {spelt}")
    except KeyError:
        return name
