"""What became of each piece, told one change at a time."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from manualgen.review.align import in_order, strays
from manualgen.review.changes import Change
from manualgen.review.leaks import LEAK, Hidden
from manualgen.review.marks import with_marks
from manualgen.review.pairing import Pairing, pair_pieces
from manualgen.review.pieces import Fact, Piece


def piece_changes(before: Sequence[Piece], after: Sequence[Piece]) -> Iterator[Change]:
    """All that changed in an experiment's sections, in the new order."""
    pairing = pair_pieces(before, after)
    hidden = Hidden(before)
    moves = dict(_moves(pairing))
    for old, new in in_order(before, after, pairing.partner):
        changes = [
            hidden.flagged(change, old, _fact_of(new, change.kind))
            for change in _of_pair(pairing, old, new)
        ]
        yield from changes
        if new in moves and not any(change.leak for change in changes):
            yield moves[new]


def _fact_of(piece: Piece | None, kind: str) -> Fact | None:
    facts = piece.facts if piece else ()
    return next((fact for fact in facts if fact.kind == kind), None)


def _of_pair(
    pairing: Pairing, old: Piece | None, new: Piece | None
) -> Iterator[Change]:
    here = new or old
    is_whole = old is None or new is None
    if here is None or (is_whole and pairing.is_told_with_parent(here)):
        return
    kinds = (f.kind for piece in (new, old) if piece for f in piece.facts)
    for kind in dict.fromkeys(kinds):
        was, now = _fact_of(old, kind), _fact_of(new, kind)
        if is_whole and (now or was) is here.facts[0]:
            was, now = _with_parts(pairing, old, was), _with_parts(pairing, new, now)
        change = _change(here, was, now, whole=is_whole)
        if change:
            anchors = (old.anchor if old else "", new.anchor if new else "")
            if is_whole and kind == here.kind:
                change = replace(change, what=with_marks(here))
            yield replace(change, anchors=anchors)


def _with_parts(
    pairing: Pairing, piece: Piece | None, fact: Fact | None
) -> Fact | None:
    """The first fact of what is new or gone, with what its parts say."""
    if piece is None or fact is None:
        return None
    texts = [f for part in pairing.parts_of(piece) for f in part.facts]
    return replace(
        fact,
        text="; ".join(f.text for f in (fact, *texts) if f.text),
        shown="; ".join(f.shown for f in (fact, *texts) if f.shown),
    )


def _change(
    piece: Piece, was: Fact | None, now: Fact | None, *, whole: bool
) -> Change | None:
    here = now or was
    if here is None or (whole and here.minor):
        return None
    before, after = (f.text if f and f.text else None for f in (was, now))
    read_before, read_after = (f.shown if f else "" for f in (was, now))
    is_same = read_before == read_after
    if before != after:
        return Change(
            here.kind, piece.what, before, after, here.place, teachers=is_same
        )
    if is_same:
        return None
    if read_after:
        what = f"{piece.what}, now in the students' edition"
        return Change(here.kind, what, None, after, here.place, LEAK, leak=True)
    what = f"{piece.what}, no longer in the students' edition"
    return Change(here.kind, what, before, None, here.place)


def _moves(pairing: Pairing) -> Iterator[tuple[Piece, Change]]:
    """What stands elsewhere than it did: in something else, or past its neighbours."""
    staying: dict[Piece | None, list[tuple[Piece, Piece]]] = defaultdict(list)
    for old, new in pairing.kept():
        if pairing.became(old.parent) is new.parent:
            staying[new.parent].append((old, new))
        elif not pairing.is_told_with_parent(new):
            yield new, _moved(old, new, old.where, new.where)
    ranks = {piece: rank for rank, piece in enumerate(pairing.before)}
    for group in staying.values():
        for index in sorted(strays([ranks[old] for old, _ in group])):
            old, new = group[index]
            places = _position(old, pairing.before), _position(new, pairing.after)
            yield new, _moved(old, new, *places)


def _moved(old: Piece, new: Piece, before: str, after: str) -> Change:
    if old.what != new.what:
        before, after = old.what, new.what
    return Change(
        new.kind,
        f"{new.what}, moved",
        before,
        after,
        new.place,
        teachers=not old.is_shown and not new.is_shown,
        anchors=(old.anchor, new.anchor),
    )


def _position(piece: Piece, among: Sequence[Piece]) -> str:
    siblings = [p for p in among if p.parent is piece.parent]
    return f"{siblings.index(piece) + 1} of {len(siblings)} in {piece.where}"
