"""The ions that a formula can be read as, piece by piece as it is written.

``KHSO4`` is K and HSO4, or K, H and SO4; ``TiO2`` is Ti and two O, though Ti and
one O2 add up as well. All readings are offered, those of the largest pieces
first; whoever asks (`splitting`, `charge_fault`) tries which add up. A formula
with anything in it that is no known ion, water or ammonia has no reading: what
is not understood is not judged.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import islice
from typing import TYPE_CHECKING, Final

from manualgen.chemistry.formula import Atom, Group
from manualgen.chemistry.formula_text import parse_formula
from manualgen.chemistry.ions import Ion, anions, cations

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.formula import Part
    from manualgen.chemistry.ions import Body

HALOGENS: Final = frozenset({"F", "Cl", "Br", "I"})
"""What follows the oxygen of an oxide halide (BiOCl)."""

MOST_READINGS: Final = 64
"""Readings tried of one formula, and so a bound on the work."""

_FEW: Final = frozenset("23456789")
"""Numbers that can have run together with a subscript."""

MOST_PARTS: Final = 24
"""Parts of a formula that is still taken for a salt's."""

MOST_STEPS: Final = 2000
"""Pieces tried in all."""

MOST_KINDS: Final = 6
"""Kinds of ion in one salt; each may have several charges."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Some ions of one kind in a formula: what they may be, and how many."""

    options: tuple[Ion, ...]
    """Ions of one body and different charges, as Fe^2+ and Fe^3+; none for a
    complex in square brackets that the table lacks."""
    count: int
    body: Body = ()
    """What such a complex is made of."""

    @property
    def sign(self) -> int:
        """1, −1 or, for such a complex, 0."""
        charges = [ion.charge for ion in self.options]
        return 0 if not charges else 1 if charges[0] > 0 else -1


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to take a formula apart."""

    pieces: tuple[Piece, ...]
    is_mended: bool = False
    """A bracket was supplied: the OH2 of MgOH2 read as (OH)2."""

    def and_then(self, piece: Piece) -> Reading:
        """The reading with a further piece behind."""
        return Reading((*self.pieces, piece), self.is_mended)

    @property
    def is_salt(self) -> bool:
        """Whether there is something of each charge."""
        signs = [piece.sign for piece in self.pieces]
        if signs.count(0):
            return signs.count(0) == 1 and len(signs) > 1
        return 1 in signs and -1 in signs


def readings(parts: Body, *, mend: bool = False) -> tuple[Reading, ...]:
    """The ways to read ``parts`` as ions, the largest pieces first.

    With ``mend`` also those in which the brackets of a polyatomic ion were
    left out.
    """
    if len(parts) > MOST_PARTS:
        return ()
    found = (reading for reading in _read(parts, mend=mend) if reading.is_salt)
    few = (reading for reading in found if len(reading.pieces) <= MOST_KINDS)
    return tuple(islice(few, MOST_READINGS))


def _read(parts: Body, *, mend: bool) -> Iterator[Reading]:
    """Depth first, so that the largest pieces come first, and with a bound."""
    unfinished: list[tuple[int, Reading]] = [(0, Reading(()))]
    for _ in range(MOST_STEPS):
        if not unfinished:
            return
        at, reading = unfinished.pop()
        if at == len(parts):
            yield Reading(_gathered(reading.pieces), reading.is_mended)
            continue
        following = _next(parts[at:], reading, mend=mend)
        unfinished += reversed([(at + length, more) for length, more in following])


def _next(
    parts: Body, reading: Reading, *, mend: bool
) -> Iterator[tuple[int, Reading]]:
    """The reading with one piece more, and how many parts that takes."""
    for piece, length in _polyatomic(parts):
        yield length, reading.and_then(piece)
    for piece in _first(parts, reading.pieces):
        yield 1, reading.and_then(piece)
    if isinstance(parts[0], Group) and parts[0].parts in _ligands():
        yield 1, reading
    if mend:
        for piece, length in _unbracketed(parts):
            yield length, Reading((*reading.pieces, piece), is_mended=True)


def _gathered(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Each kind of ion once, with its number in all."""
    counts: dict[tuple[tuple[Ion, ...], Body], int] = {}
    for piece in pieces:
        kind = (piece.options, piece.body)
        counts[kind] = counts.get(kind, 0) + piece.count
    return tuple(Piece(options, n, body) for (options, body), n in counts.items())


def _first(parts: Body, before: tuple[Piece, ...]) -> Iterator[Piece]:
    """The ions that the first part alone may be."""
    if isinstance(parts[0], Group):
        yield from _bracketed(parts[0])
    elif piece := _monatomic(parts, before):
        yield piece


def _polyatomic(parts: Body) -> Iterator[tuple[Piece, int]]:
    """Ions of several atoms that ``parts`` begin with, the longest first."""
    for body, options in _bodies().get(_key(parts[0]), ()):
        if parts[: len(body)] == body:
            yield Piece(options, 1), len(body)


def _unbracketed(parts: Body) -> Iterator[tuple[Piece, int]]:
    """The same with the number of ions run together with the last subscript.

    ``NO32`` is NO3 and 2, ``OH2`` is OH and 2.
    """
    for body, options in _bodies().get(_key(parts[0]), ()):
        size = len(body)
        last, meant = parts[size - 1 : size], body[-1]
        if size < 2 or parts[: size - 1] != body[:-1] or not last:
            continue
        match last[0], meant:
            case Atom(symbol, count), Atom(wanted, subscript) if symbol == wanted:
                stem = "" if subscript == 1 else str(subscript)
                times = str(count).removeprefix(stem)
                if str(count).startswith(stem) and times in _FEW:
                    yield Piece(options, int(times)), size


def _bracketed(group: Group) -> Iterator[Piece]:
    """Ions in brackets, ``(OH)2`` or ``[Fe(CN)6]3``, with their number."""
    if not isinstance(group.count, int):
        return
    inside: Body = group.parts
    if group.opening == "[":
        inside = (Group("[", group.parts),)
    known = False
    for body, options in _bodies().get(_key(inside[0]), ()):
        if body == inside:
            known = True
            yield Piece(options, group.count)
    match inside:
        case (Atom(symbol, 1),) if symbol in _single():
            yield Piece(_single()[symbol], group.count)
        case (Group("["),) if not known:
            yield Piece((), group.count, inside)


def _monatomic(parts: Body, before: tuple[Piece, ...]) -> Piece | None:
    """The atoms that ``parts`` begin with as single ions, where they can be."""
    match parts[0]:
        case Atom("H", count):
            return _hydrogen(parts, before, count)
        case Atom(symbol, count):
            options = _single().get(symbol, ())
        case _:
            return None
    if not options or _is_out_of_order(parts, options[0], before):
        return None
    return Piece(options, count)


def _hydrogen(parts: Body, before: tuple[Piece, ...], count: int) -> Piece | None:
    """Protons before an anion or behind a carboxylate; hydride at the end."""
    negative = [piece for piece in before if piece.sign < 0]
    if not negative:
        return Piece(_protons() if len(parts) > 1 else _single()["H"], count)
    is_last_of_acid = len(parts) == 1 and negative[-1].options[0].leads
    return Piece(_protons(), count) if is_last_of_acid else None


def _is_out_of_order(parts: Body, ion: Ion, before: tuple[Piece, ...]) -> bool:
    """Whether no salt is written so: ``ClTi``, ``Ag2O4S``, an unknown oxoanion."""
    if ion.charge > 0:
        return any(p.sign < 0 and p.options[0].is_monatomic for p in before)
    match parts[1:2]:
        case (Atom(symbol),):
            follows = _single().get(symbol, ())
        case _:
            return False
    if ion.symbol == "O":
        return bool(follows) and follows[0].charge < 0 and symbol not in HALOGENS
    return symbol == "O"


@cache
def _single() -> dict[str, tuple[Ion, ...]]:
    """The monatomic ions by symbol; for hydrogen the hydride ion."""
    found: dict[str, tuple[Ion, ...]] = {}
    for ion in (*cations(), *anions()):
        if ion.is_monatomic and str(ion.formula) != "H^+":
            found[ion.symbol] = (*found.get(ion.symbol, ()), ion)
    return found


@cache
def _protons() -> tuple[Ion, ...]:
    return tuple(ion for ion in cations() if str(ion.formula) == "H^+")


@cache
def _bodies() -> dict[str, tuple[tuple[Body, tuple[Ion, ...]], ...]]:
    """The ions of several atoms by their first part, the longest body first.

    NO2 stands twice: nitrite and nitryl have their charges on different sides.
    """
    options: dict[tuple[Body, bool], tuple[Ion, ...]] = {}
    for ion in (*cations(), *anions()):
        for body in ion.writings:
            if not ion.is_monatomic and str(ion.formula) != "H3O^+":
                at = (body, ion.charge > 0)
                options[at] = (*options.get(at, ()), ion)
    found: dict[str, tuple[tuple[Body, tuple[Ion, ...]], ...]] = {}
    for body, positive in sorted(options, key=lambda at: len(at[0]), reverse=True):
        key = _key(body[0])
        row = (body, options[body, positive])
        found[key] = (*found.get(key, ()), row)
    return found


def _key(part: Part) -> str:
    """By what an ion's body is looked up: its first symbol, bracket or bond."""
    if isinstance(part, Atom):
        return part.symbol
    return part.opening if isinstance(part, Group) else part.sign


@cache
def _ligands() -> frozenset[Body]:
    """Neutral molecules that stand in brackets beside ions."""
    return frozenset(parse_formula(text).parts for text in ("H2O", "NH3", "CO"))
