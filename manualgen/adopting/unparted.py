"""A list that was said without stops: *a beaker a glass rod a sieve*.

It is parted before an article, a number or an amount of something, and where
one thing of which a table or its last word tells what it is ends and another
begins.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise

from manualgen.adopting.spans import quantities_in
from manualgen.adopting.vocabulary import alternatives, numbers, words
from manualgen.knowledge import find_chemical, mentions

_WORD = re.compile(r"\S+")
_LEADS = re.compile(
    rf"(?:an?|some|the|about|around|roughly|another|dilute|concentrated|conc|\d{{1,2}}|{alternatives(numbers())})",
    re.IGNORECASE,
)


def parted(text: str, is_known: Callable[[str], bool]) -> str:
    """The list with a comma between its things, where they can be told apart."""
    things = _with_amounts_behind(list(_things(text)))
    said = "".join(things[:1])
    for before, thing in pairwise(things):
        is_next = _is_led(thing) or (
            is_known(_named(before)) and is_known(_named(thing))
        )
        said += f", {thing}" if is_next else f" {thing}"
    return said


def _with_amounts_behind(things: list[str]) -> list[str]:
    """*Ethanol / 5 mL water / 9 mL tongs* with each amount behind its substance.

    Only where the first amount follows a substance that has none of its own.
    """
    parts = [_leading_amount(thing) for thing in things]
    first = next((n for n, (amount, _) in enumerate(parts) if amount), 0)
    if not first or not find_chemical(_named(things[first - 1])):
        return things
    said = [rest for _, rest in parts]
    for n, (amount, _) in enumerate(parts):
        if amount:
            said[n - 1] = f"{said[n - 1]} {amount}".strip()
    return [thing for thing in said if thing]


def _leading_amount(thing: str) -> tuple[str, str]:
    """The amounts that a thing begins with, and the rest, where no *of* joins them."""
    end = 0
    for start, stop, _ in quantities_in(thing):
        if thing[end:start].strip() or thing[stop:].startswith(" of "):
            break
        end = stop
    return thing[:end].strip(), thing[end:].strip()


def _is_led(thing: str) -> bool:
    """Whether a thing begins with an article, a number or an amount."""
    first = next(quantities_in(thing), None)
    return _named(thing) != thing or (first is not None and first[0] == 0)


def _named(thing: str) -> str:
    """A thing without what leads it in."""
    found = re.match(rf"(?:(?:{_LEADS.pattern}|and|plus)\s+)+", thing, re.IGNORECASE)
    return thing[found.end() :] if found else thing


def _things(text: str) -> Iterator[str]:
    named = mentions(text)
    inner = [(m.start, m.end) for m in named.chemicals]
    inner += [(m.start, m.end) for m in named.apparatus]
    ends = {end for _, end in inner}
    measured = [(start, end) for start, end, _ in quantities_in(text)]
    amounts = {start for start, end in measured if text[end:].startswith(" of ")}
    inner += measured
    found = list(_WORD.finditer(text))
    begin = 0
    for word, following, third in zip(
        found, found[1:], [*found[2:], None], strict=False
    ):
        if any(s <= word.start() and following.end() <= e for s, e in inner):
            continue
        if following.group().casefold() in words("binding"):
            continue
        is_lead = _begins(following) or following.start() in amounts
        if (is_lead and _has_name(text[begin : word.end()])) or (
            _ends(word, ends) and (not _is_last(following) or _is_last(third))
        ):
            yield text[begin : word.end()].strip(" ,")
            begin = following.start()
    yield text[begin:].strip(" ,")


def _begins(word: re.Match[str]) -> bool:
    return bool(_LEADS.fullmatch(word.group())) or word.group().casefold() == "and"


def _has_name(text: str) -> bool:
    """Whether more than what leads a thing in stands before here."""
    bare = _named(text.strip())
    last = bare.rsplit(" ", 1)[-1].casefold()
    return (
        bool(bare)
        and not _LEADS.fullmatch(bare)
        and last not in words("binding") | {"and", "plus", "half"}
    )


def _ends(word: re.Match[str], ends: set[int]) -> bool:
    return word.end() in ends or _is_last(word)


def _is_last(word: re.Match[str] | None) -> bool:
    """Whether a word may end a thing: *cabbage* does, but not before *indicator*."""
    bare = word.group().casefold().strip(",") if word else ""
    return any(bare in words("last_words", s) for s in ("chemicals", "apparatus"))
