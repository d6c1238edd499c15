"""What an *until* of a sentence belongs to.

``Add acid until it is pink`` leaves the amount of acid to the result;
``add 6 g of potassium iodide and swirl until it dissolves`` only the swirling.
"""

from __future__ import annotations

import re
from typing import Final

_UNTIL = re.compile(r"\b(?:until|till)\b", re.IGNORECASE)
_DEEDS: Final = (
    r"swirl|stir|shake|mix|heat|warm|boil|simmer|cool|wait|leave|let|allow|keep|grind|crush|"
    r"invert|watch|stand|bring|reflux|evaporate|dry|filter|centrifuge"
)
_ANOTHER_DEED = re.compile(
    rf"(?:\band|\bthen|[,;:.])\s+(?:(?:then|and|\w+ly)\s+)*(?:{_DEEDS})\b",
    re.IGNORECASE,
)
_GIVES_MORE = re.compile(
    r"\b(?:add|adds|adding|run|runs|pour|drip|titrate|put|go on|carry on|continue|repeat|"
    r"more|portions?|drops?|dropwise|a little|a time|each time)\b",
    re.IGNORECASE,
)
_GOES_ON = re.compile(
    r"\b(?:more|another|further|again|repeat|go on|carry on|continue)\b", re.IGNORECASE
)
"""*And stir until no more dissolves*: then it is the result that decides."""

_CLAUSE = re.compile(r"[,;:]|\bthen\b|\band\b", re.IGNORECASE)


def is_left_to_result(sentence: str, start: int, end: int) -> bool:
    """Whether an *until* says how much of what stands from start to end is used.

    >>> is_left_to_result("Add 1 g of it until it is pink.", 4, 13)
    True
    >>> is_left_to_result("Add 6 g of it and swirl until it dissolves.", 4, 13)
    False
    """
    return any(
        _says_how_much(sentence, start, end, until.start(), until.end())
        for until in _UNTIL.finditer(sentence)
    )


def _says_how_much(sentence: str, start: int, end: int, begin: int, stop: int) -> bool:
    if stop <= start:
        return not _CLAUSE.search(sentence, stop, start)
    between = sentence[end:begin]
    if not _ANOTHER_DEED.search(between) or _GIVES_MORE.search(between):
        return True
    return bool(_GOES_ON.search(sentence, stop))
