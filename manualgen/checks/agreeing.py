"""Sentences about a thing that the author named: the verb agrees with the name."""

from __future__ import annotations

import re
from typing import Final

from manualgen.knowledge.plurals import is_plural

_PLURALS: Final = {
    "is": "are",
    "has": "have",
    "was": "were",
    "does": "do",
    "goes": "go",
}
_IT = re.compile(r"\bit is\b")


def with_verb(name: str, said: str, aside: str = "") -> str:
    """A name and what is said of it in the singular, an aside between them.

    >>> with_verb("conical flasks", "is listed"), with_verb("beaker", "is listed")
    ('conical flasks are listed', 'beaker is listed')
    >>> with_verb("iron filings", "reacts with acid", "(H228)")
    'iron filings (H228) react with acid'
    """
    subject = f"{name} {aside}".rstrip()
    return f"{subject} {verb(name, said)}"


def verb(name: str, said: str) -> str:
    """What is said of a name, its verb in the name's number."""
    if not is_plural(name):
        return said
    first, space, rest = said.partition(" ")
    plural = _PLURALS.get(first) or (first[:-1] if first.endswith("s") else first)
    return f"{plural}{space}{_IT.sub('they are', rest)}"


def not_on_list(name: str, kind: str) -> str:
    """That what the Method uses is on no list of chemicals or of apparatus."""
    told = with_verb(name, "is used here and")
    return f"{told} {verb(name, 'is')} not on the list of {kind}"


def it(name: str) -> str:
    """*it* or *them*, as the object of a verb."""
    return "them" if is_plural(name) else "it"


def with_article(name: str) -> str:
    """The name after *a* or *an*; a plural has neither.

    >>> with_article("evaporating basin"), with_article("burette"), with_article("tongs")
    ('an evaporating basin', 'a burette', 'tongs')
    """
    if is_plural(name):
        return name
    is_an = name[:1].casefold() in "aeio" or name.casefold().startswith("um")
    return f"{'an' if is_an else 'a'} {name}"
