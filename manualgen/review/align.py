"""Which piece of one version is which of the other.

Equal pieces are paired first, wherever they stand; what is left is paired with
what it is most like, if that is like enough; the rest came or went.
"""

from __future__ import annotations

import difflib
from collections import defaultdict
from collections.abc import Callable, Hashable, Sequence
from typing import TypeAlias, TypeVar

T = TypeVar("T")
Pair: TypeAlias = tuple[T | None, T | None]

ALIKE = 0.5
"""From this likeness on, of 1, a piece is the other reworded."""


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
    partner = _equal(before, after, text)
    _like(before, after, text, partner)
    if name:
        _named(before, after, name, partner)
    return _in_order(before, after, partner)


def moved(pairs: Sequence[Pair[T]], before: Sequence[T]) -> set[int]:
    """The indices of the pairs that changed places among those that stayed.

    The longest run that keeps its order stands still; the others moved.
    """
    rank = {id(item): index for index, item in enumerate(before)}
    kept = [
        (index, rank[id(old)])
        for index, (old, new) in enumerate(pairs)
        if old is not None and new is not None
    ]
    still = _longest_rising([place for _, place in kept])
    return {index for at, (index, _) in enumerate(kept) if at not in still}


def words_of(text: str) -> str:
    """Text as it is compared: a line wrapped elsewhere is the same text."""
    return " ".join(text.split())


def _equal(
    before: Sequence[T], after: Sequence[T], text: Callable[[T], str]
) -> dict[int, int]:
    places: dict[Hashable, list[int]] = defaultdict(list)
    for index, item in enumerate(before):
        places[words_of(text(item))].append(index)
    partner: dict[int, int] = {}
    for index, item in enumerate(after):
        same = places.get(words_of(text(item)))
        if same:
            partner[index] = same.pop(0)
    return partner


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


def _named(
    before: Sequence[T],
    after: Sequence[T],
    name: Callable[[T], str],
    partner: dict[int, int],
) -> None:
    """Pair what is still left with what is called the same."""
    taken = set(partner.values())
    left = {name(item): i for i, item in enumerate(before) if i not in taken}
    for j, item in enumerate(after):
        if j not in partner and name(item) in left:
            partner[j] = left.pop(name(item))


def _likeness(one: str, other: str) -> float:
    return difflib.SequenceMatcher(None, one.split(), other.split(), False).ratio()


def _in_order(
    before: Sequence[T], after: Sequence[T], partner: dict[int, int]
) -> tuple[Pair[T], ...]:
    gone = [i for i in range(len(before)) if i not in set(partner.values())]
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
    best: list[list[int]] = [[]]
    for index, number in enumerate(numbers):
        runs = [run for run in best if not run or numbers[run[-1]] < number]
        best.append([*_longest(runs), index])
    return set(_longest(best))


def _longest(runs: Sequence[list[int]]) -> list[int]:
    return sorted(runs, key=lambda run: -len(run))[0]
