"""Text from anybody as a terminal may show it.

Names of files and words of an author can hold what a terminal obeys: sequences
that clear the screen, set the title or begin a line anew.  They can also hold
letters that turn the reading order round, and halves of letters that no
encoding knows.  All of these are shown as a programmer writes them.
"""

from __future__ import annotations

import re

_ORDERS = re.compile(
    "[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]",
)


def printable(text: str) -> str:
    r"""The text with every control character written out, line ends too.

    >>> printable("red\x1b[31m")
    'red\\x1b[31m'
    """
    return _ORDERS.sub(_written, text)


def _written(found: re.Match[str]) -> str:
    return found[0].encode("unicode_escape").decode()
