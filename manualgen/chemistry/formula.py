"""A formula as its author wrote it: a tree, so that ``CH3COOH`` stays ``CH3COOH``.

Two formulas are equal when they are written alike. What they are made of, the
atoms multiplied out, is `Formula.atoms`; two substances of the same atoms need
not be the same substance.

An unknown number (``MgSO4·xH2O``, ``(C2H4)n``) is a letter in the place of a
count. Atoms under it are kept apart in `Formula.unknown_atoms`, so that every
amount is `atoms` plus the unknown times `unknown_atoms`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

Count: TypeAlias = int | Fraction
"""How many: whole but for the half water of ``CaSO4·½H2O``."""

Part: TypeAlias = "Atom | Group | Bond"

UNKNOWNS = "xyn"
"""The letters that may stand for an unknown number."""

_CLOSING = {"(": ")", "[": "]"}
_SUBSCRIPTS = str.maketrans("0123456789xn", "₀₁₂₃₄₅₆₇₈₉ₓₙ")
_SUPERSCRIPTS = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")


@dataclass(frozen=True, slots=True)
class Atom:
    """An element's symbol and its subscript; ``R`` stands for an organic group."""

    symbol: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class Group:
    """What stands in brackets, and the subscript behind them."""

    opening: Literal["(", "["]
    parts: tuple[Part, ...]
    count: int | str = 1


@dataclass(frozen=True, slots=True)
class Bond:
    """A bond that the author drew, as in ``CH2=CH2``."""

    sign: Literal["-", "=", "≡"]


@dataclass(frozen=True, slots=True)
class Adduct:
    """What stands after a centred dot, most often water of crystallisation."""

    count: int | Fraction | str
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Formula:
    """An element, a compound, an ion, the electron or a stand-in such as ``HIn``."""

    parts: tuple[Part, ...]
    charge: int = 0
    adducts: tuple[Adduct, ...] = ()

    @property
    def atoms(self) -> Mapping[str, Count]:
        """The atoms by symbol, multiplied out; none for the electron.

        >>> dict(Formula((Atom("Mg"), Group("(", (Atom("O"), Atom("H")), 2))).atoms)
        {'Mg': 1, 'O': 2, 'H': 2}
        """
        return self._tally(unknown=False)

    @property
    def unknown_atoms(self) -> Mapping[str, Count]:
        """The atoms that come with each unit of the unknown number."""
        return self._tally(unknown=True)

    @property
    def unknown(self) -> str | None:
        """The letter of the unknown number, where there is one."""
        counts = [a.count for a in self.adducts]
        counts += [p.count for p in self.parts if isinstance(p, Group)]
        return next((c for c in counts if isinstance(c, str)), None)

    def with_unknown(self, number: int) -> Formula:
        """The formula with the unknown number replaced by a known one."""
        parts = tuple(
            replace(p, count=number)
            if isinstance(p, Group) and isinstance(p.count, str)
            else p
            for p in self.parts
        )
        adducts = tuple(
            replace(a, count=number) if isinstance(a.count, str) else a
            for a in self.adducts
            if number or not isinstance(a.count, str)
        )
        return replace(self, parts=parts, adducts=adducts)

    @property
    def anhydrous(self) -> Formula:
        """The formula without what follows a centred dot."""
        return replace(self, adducts=())

    @property
    def is_electron(self) -> bool:
        """Whether this is the electron."""
        return not self.parts and self.charge == -1

    @property
    def is_agent(self) -> bool:
        """Whether this is ``[O]`` or ``[H]``, an oxidising or a reducing agent."""
        is_neutral = not self.charge and not self.adducts
        return is_neutral and self.parts in _AGENTS

    @property
    def is_stand_in(self) -> bool:
        """Whether it stands for any substance of its kind, and so has no molar mass.

        ``R`` in any formula, an indicator ``HIn`` and its ion, an acid ``HA``
        and its ion. ``In^-`` is never indium, whose ions are positive.
        """
        if "R" in self.atoms or "A" in self.atoms:
            return True
        is_indicator = self.parts == (Atom("H"), Atom("In"))
        return is_indicator or (self.parts == (Atom("In"),) and self.charge < 0)

    def __str__(self) -> str:
        """The formula in ASCII but for the centred dot: ``Na2CO3·10H2O``."""
        return self._body(str) + (f"^{_size(self.charge)}" if self.charge else "")

    @property
    def pretty(self) -> str:
        """The formula as the trade prints it, in Unicode: ``SO₄²⁻``."""
        charge = _size(self.charge).translate(_SUPERSCRIPTS) if self.charge else ""
        return self._body(_subscript) + charge

    def _body(self, subscript: Callable[[int | str], str]) -> str:
        body = "".join(_written(part, subscript) for part in self.parts) or "e"
        for adduct in self.adducts:
            inside = "".join(_written(part, subscript) for part in adduct.parts)
            body += f"·{_multiple(adduct.count)}{inside}"
        return body

    def _tally(self, *, unknown: bool) -> dict[str, Count]:
        total: dict[str, Count] = {}
        for symbol, count, is_unknown in _atoms_in((*self.parts, *self.adducts)):
            if is_unknown == unknown:
                total[symbol] = total.get(symbol, 0) + count
        return total


_AGENTS: tuple[tuple[Part, ...], ...] = (
    (Group("[", (Atom("O"),)),),
    (Group("[", (Atom("H"),)),),
)


def _atoms_in(parts: Iterable[Part | Adduct]) -> Iterator[tuple[str, Count, bool]]:
    """Each symbol with its count and whether the unknown number multiplies it."""
    for part in parts:
        if isinstance(part, Atom):
            yield part.symbol, part.count, False
        elif not isinstance(part, Bond):
            unknown = isinstance(part.count, str)
            factor = 1 if isinstance(part.count, str) else part.count
            for symbol, number, already in _atoms_in(part.parts):
                yield symbol, number * factor, unknown or already


def _written(part: Part, subscript: Callable[[int | str], str]) -> str:
    if isinstance(part, Bond):
        return part.sign
    behind = "" if part.count == 1 else subscript(part.count)
    if isinstance(part, Atom):
        return part.symbol + behind
    inside = "".join(_written(p, subscript) for p in part.parts)
    return f"{part.opening}{inside}{_CLOSING[part.opening]}{behind}"


def _subscript(count: int | str) -> str:
    return str(count).translate(_SUBSCRIPTS)


def _multiple(count: Count | str) -> str:
    """The number before what follows a dot; a half in its customary sign."""
    if count == 1:
        return ""
    return "½" if count == Fraction(1, 2) else str(count)


def _size(charge: int) -> str:
    """A charge as it is written behind a formula: ``2+``, ``-``."""
    sign = "-" if charge < 0 else "+"
    return sign if abs(charge) == 1 else f"{abs(charge)}{sign}"
