"""Which piece of the older experiment is which of the newer one."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from manualgen.review.align import partners
from manualgen.review.pieces import Piece


@dataclass(frozen=True, slots=True)
class Pairing:
    """The pieces of both versions, and what became of the older ones."""

    before: tuple[Piece, ...]
    after: tuple[Piece, ...]
    partner: Mapping[int, int]
    """The old index by the new one."""
    _became: Mapping[Piece, Piece]

    def became(self, old: Piece | None) -> Piece | None:
        """What an old piece is now; None where it is gone."""
        return None if old is None else self._became.get(old)

    def kept(self) -> Iterator[tuple[Piece, Piece]]:
        """The pieces that are in both, in the new order."""
        for j, i in sorted(self.partner.items()):
            yield self.before[i], self.after[j]

    def is_told_with_parent(self, piece: Piece) -> bool:
        """Whether it is a part of something that came or went as a whole."""
        parent = piece.parent
        if not piece.part or parent is None:
            return False
        return parent not in self._became and parent not in self._became.values()

    def parts_of(self, piece: Piece) -> Iterator[Piece]:
        """The parts that are told of with a piece that came or went."""
        for other in (*self.before, *self.after):
            if other.part and other.parent is piece:
                yield other


def pair_pieces(before: Sequence[Piece], after: Sequence[Piece]) -> Pairing:
    """Pair the pieces of each kind by what they say, or else by their names."""
    partner: dict[int, int] = {}
    for kind in dict.fromkeys(p.kind for p in (*after, *before)):
        old = [i for i, p in enumerate(before) if p.kind == kind]
        new = [j for j, p in enumerate(after) if p.kind == kind]
        found = partners(
            [before[i] for i in old],
            [after[j] for j in new],
            lambda piece: piece.text,
            lambda piece: piece.name,
        )
        partner.update({new[j]: old[i] for j, i in found.items()})
    partner.update(_sections(before, after, partner))
    became = {before[i]: after[j] for j, i in partner.items()}
    return Pairing(tuple(before), tuple(after), partner, became)


def _sections(
    before: Sequence[Piece], after: Sequence[Piece], partner: Mapping[int, int]
) -> Mapping[int, int]:
    """Sections that belong together by what stands in them, whatever they are called."""
    votes: dict[int, Counter[Piece]] = defaultdict(Counter)
    index = {piece: j for j, piece in enumerate(after)}
    for j, i in partner.items():
        parent, old = after[j].parent, before[i].parent
        if parent is not None and old is not None and parent.kind == "section":
            votes[index[parent]][old] += 1
    taken = {before[i] for i in partner.values()}
    found: dict[int, int] = {}
    for j, counted in votes.items():
        free = [p for p, _ in counted.most_common() if p not in taken]
        if j not in partner and free and free[0].kind == "section":
            found[j] = before.index(free[0])
            taken.add(free[0])
    return found
