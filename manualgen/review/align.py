"""Which piece of one version is which of the other.

Equal pieces are paired first, wherever they stand; what is left is paired with
what it is most like, if that is like enough; the rest came or went.
"""

from __future__ import annotations

import difflib
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from typing import TypeAlias, TypeVar

from manualgen.review.writing import words_of

T = TypeVar("T")
Pair: TypeAlias = tuple[T | None, T | None]

ALIKE = 0.5
"""From this likeness on, of 1, a piece is the other reworded."""

LONG = 1_000_000
"""Words of one times words of the other; past it their order does not count."""

MOST_COMPARED = 40_000
"""So many comparisons of likeness at most; past them only names tell."""


def align(
    before: Sequence[T],
    after: Sequence[T],
    text: Callable[[T], str],
    name: Callable[[T], str] | None = None,
) -> tuple[Pair[T], ...]:
    """Pairs of old and new, in the new order, what is gone at its old place.

    ``text`` gives the words that are compared, blanks and line ends alike;
    ``name`` what a piece is called, by which those belong together that have
    no words in common.
    """
    return in_order(before, after, partners(before, after, text, name))


def partners(
    before: Sequence[T],
    after: Sequence[T],
    text: Callable[[T], str],
    name: Callable[[T], str] | None = None,
) -> dict[int, int]:
    """The index of the old one by the index of the new one that it became."""
    partner: dict[int, int] = {}
    pair_named(before, after, lambda item: words_of(text(item)), partner)
    _like(before, after, text, partner)
    if name:
        pair_named(before, after, name, partner)
    return partner


def pair_named(
    before: Sequence[T],
    after: Sequence[T],
    name: Callable[[T], str],
    partner: dict[int, int],
) -> None:
    """Pair those that have no partner yet by their names, the first with the first."""
    taken = set(partner.values())
    free: dict[str, list[int]] = defaultdict(list)
    for i, item in enumerate(before):
        if i not in taken:
            free[name(item)].append(i)
    for j, item in enumerate(after):
        if j not in partner and free.get(name(item)):
            partner[j] = free[name(item)].pop(0)


def strays(numbers: Sequence[int]) -> set[int]:
    """The indices of what left its place.

    ``numbers`` are the old ranks in the new order; the longest run that keeps
    its order stands still, the others moved.
    """
    return set(range(len(numbers))) - _longest_rising(numbers)


def _like(
    before: Sequence[T],
    after: Sequence[T],
    text: Callable[[T], str],
    partner: dict[int, int],
) -> None:
    """Pair what is left with its likest, the likest of all first."""
    taken = set(partner.values())
    old = [i for i in range(len(before)) if i not in taken]
    new = [i for i in range(len(after)) if i not in partner]
    if len(old) * len(new) > MOST_COMPARED:
        return
    likeness = [
        (_likeness(text(before[i]), text(after[j])), -abs(i - j), i, j)
        for i in old
        for j in new
    ]
    for measure, _, i, j in sorted(likeness, reverse=True):
        if measure < ALIKE:
            break
        if i not in taken and j not in partner:
            partner[j] = i
            taken.add(i)


def _likeness(one: str, other: str) -> float:
    """The share of words in common, 0 where it cannot reach `ALIKE`."""
    old, new = words_of(one).split(" "), words_of(other).split(" ")
    matcher = difflib.SequenceMatcher(None, old, new, False)
    if matcher.real_quick_ratio() < ALIKE or matcher.quick_ratio() < ALIKE:
        return 0.0
    is_long = len(old) * len(new) > LONG
    return matcher.quick_ratio() if is_long else matcher.ratio()


def in_order(
    before: Sequence[T], after: Sequence[T], partner: Mapping[int, int]
) -> tuple[Pair[T], ...]:
    """The pairs in the new order, what is gone at its old place."""
    kept = set(partner.values())
    gone = [i for i in range(len(before)) if i not in kept]
    pairs: list[Pair[T]] = []
    for j, item in enumerate(after):
        old = partner.get(j)
        while old is not None and gone and gone[0] < old:
            pairs.append((before[gone.pop(0)], None))
        pairs.append((None if old is None else before[old], item))
    pairs += [(before[i], None) for i in gone]
    return tuple(pairs)


def _longest_rising(numbers: Sequence[int]) -> set[int]:
    """The indices of a longest rising run, not necessarily of neighbours."""
    ends: list[int] = []
    lasts: list[int] = []
    before: list[int | None] = []
    for index, number in enumerate(numbers):
        length = bisect_left(ends, number)
        before.append(lasts[length - 1] if length else None)
        ends[length : length + 1] = [number]
        lasts[length : length + 1] = [index]
    return set(_back(before, lasts[-1])) if lasts else set()


def _back(before: Sequence[int | None], last: int | None) -> Sequence[int]:
    run: list[int] = []
    while last is not None:
        run.append(last)
        last = before[last]
    return run
