"""Oxidation numbers, after IUPAC's recommendations of 2016.

A salt is taken apart into its ions, a complex into metal and ligands, so that
the two nitrogens of NH4NO3 keep their two numbers. Within an ion or a molecule
every element but one takes its usual number and the last one what the charge
leaves to it; where that would be more than it can give, some of the oxygen is
peroxide. What a formula alone cannot tell (a nitrosyl complex, two metals in
one oxide) gets no number at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from manualgen.chemistry.formula import Atom, Formula, Group
from manualgen.chemistry.ions import anions
from manualgen.chemistry.oxidation_table import (
    bare_ligands,
    fixed,
    highest,
    hydridic,
    known_sites,
    negative,
    neutral_ligands,
    non_innocent,
    nonmetals,
    positive_by_school,
)
from manualgen.chemistry.splitting import split_ions

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from manualgen.chemistry.formula import Count
    from manualgen.chemistry.oxidation_table import Body

PEROXIDE: Final = Fraction(-1)


@dataclass(frozen=True, slots=True)
class Site:
    """Atoms of one element with one oxidation number."""

    symbol: str
    count: Count
    number: Fraction


@dataclass(frozen=True, slots=True)
class OxidationNumbers:
    """The oxidation numbers in a species."""

    sites: tuple[Site, ...] = ()
    """Atom by atom as far as the formula tells; empty where it does not."""
    remark: str | None = None
    """Why there are none, or where conventions differ."""

    @property
    def averages(self) -> Mapping[str, Fraction]:
        """The mean number of each element, over all its atoms."""
        sums: dict[str, Fraction] = {}
        counts: dict[str, Count] = {}
        for site in self.sites:
            sums[site.symbol] = (
                sums.get(site.symbol, Fraction(0)) + site.number * site.count
            )
            counts[site.symbol] = counts.get(site.symbol, 0) + site.count
        return {symbol: total / counts[symbol] for symbol, total in sums.items()}


class _UntoldError(Exception):
    """A formula does not tell; the reason is said in its words."""


@lru_cache(maxsize=4096)
def oxidation_numbers(formula: Formula) -> OxidationNumbers:
    """The oxidation numbers of the elements in a species.

    >>> from manualgen.chemistry.formula_text import parse_formula
    >>> dict(oxidation_numbers(parse_formula("Cr2O7^2-")).averages)
    {'Cr': Fraction(6, 1), 'O': Fraction(-2, 1)}
    """
    if formula.is_electron:
        return OxidationNumbers()
    if formula.is_stand_in:
        return OxidationNumbers(remark="it stands for many substances")
    try:
        sites = tuple(_sites(formula))
    except _UntoldError as reason:
        return OxidationNumbers(remark=str(reason))
    return OxidationNumbers(sites, _remark(formula))


def signed(number: Fraction) -> str:
    """An oxidation number as it is written: ``+8/3``, ``-2``, ``0``."""
    return f"+{number}" if number > 0 else str(number)


def _remark(formula: Formula) -> str | None:
    atoms = set(formula.atoms)
    if atoms - {"H"} and atoms <= positive_by_school() | {"H"} and "H" in atoms:
        return "by school convention; by the Allen scale hydrogen is the negative one"
    return None


def _sites(formula: Formula) -> Iterator[Site]:
    if formula in known_sites():
        for symbol, number in known_sites()[formula]:
            yield Site(symbol, 1, number)
        return
    main = formula.anhydrous
    ions = split_ions(main)
    if len(ions) > 1:
        for ion, count in ions:
            yield from _times(_sites(ion.formula), count)
    else:
        yield from _by_rule(main)
    for adduct in formula.adducts:
        known: Count = 1 if isinstance(adduct.count, str) else adduct.count
        yield from _times(_sites(Formula(adduct.parts)), known)


def _times(sites: Iterator[Site], count: Count) -> Iterator[Site]:
    for site in sites:
        yield Site(site.symbol, site.count * count, site.number)


def _by_rule(formula: Formula) -> Iterator[Site]:
    """The sites of one ion or molecule, its ligands and groups set apart."""
    atoms: dict[str, Count] = {}
    charge = formula.charge
    for unit, times in _units(formula.parts):
        if isinstance(unit, Atom):
            atoms[unit.symbol] = atoms.get(unit.symbol, 0) + unit.count * times
        else:
            charge -= unit.charge * times
            yield from _times(_sites(unit), times)
    yield from _shared(atoms, charge)


def _units(parts: Body) -> Iterator[tuple[Atom | Formula, int]]:
    """Known ligands and groups whole, everything else atom by atom."""
    at = 0
    while at < len(parts):
        part = parts[at]
        run = _bare_ligand(parts, at) if at else None
        if run:
            yield run, 1
            at += len(run.parts)
            continue
        if isinstance(part, Atom):
            yield part, 1
        elif isinstance(part, Group):
            times = part.count if isinstance(part.count, int) else 1
            whole = _ligand(part.parts) if part.opening == "(" else None
            units = [(whole, 1)] if whole else _units(part.parts)
            yield from ((unit, n * times) for unit, n in units)
        at += 1


def _ligand(body: Body) -> Formula | None:
    """What stands in round brackets, where it is a known molecule or anion."""
    if body in non_innocent():
        raise _UntoldError(f"the charge of its {Formula(body)} ligand cannot be told")
    if body in neutral_ligands():
        return Formula(body)
    return next((ion.formula for ion in anions() if body in ion.writings), None)


def _bare_ligand(parts: Body, at: int) -> Formula | None:
    """A ligand that stands at a place behind a metal, without brackets."""
    first = parts[0]
    if not isinstance(first, Atom) or first.symbol in nonmetals():
        return None
    for body in non_innocent():
        if parts[at : at + len(body)] == body:
            raise _UntoldError(
                f"the charge of its {Formula(body)} ligand cannot be told"
            )
    found = (
        f for body, f in bare_ligands().items() if parts[at : at + len(body)] == body
    )
    return next(found, None)


def _shared(atoms: Mapping[str, Count], charge: int) -> tuple[Site, ...]:
    """A charge shared out among elements by their usual numbers."""
    left, waiting = Fraction(charge), _order(atoms)
    if len(atoms) > 1:
        _refuse_the_untold(atoms)
    sites: list[Site] = []
    while len(waiting) > 1:
        symbol = waiting.pop(0)
        number = _usual(symbol, atoms)
        sites.append(Site(symbol, atoms[symbol], number))
        left -= number * atoms[symbol]
    if waiting:
        last = Site(waiting[0], atoms[waiting[0]], left / atoms[waiting[0]])
        sites = _with_peroxide(sites, last)
    elif left:
        raise _UntoldError("its groups do not add up to its charge")
    written = list(atoms)
    return tuple(sorted(sites, key=lambda site: written.index(site.symbol)))


def _order(atoms: Mapping[str, Count]) -> list[str]:
    """The elements in the order in which they take their numbers, the last what is left."""
    given = list(negative())
    if "N" in atoms and "O" not in atoms and len(atoms) - ("H" in atoms) == 2:
        given.remove("N")
        given.insert(0, "N")
    order = [*fixed(), "H", *given]
    return sorted(atoms, key=lambda s: order.index(s) if s in order else len(order))


def _usual(symbol: str, atoms: Mapping[str, Count]) -> Fraction:
    if symbol == "H":
        partners = set(atoms) - {"H"}
        is_hydride = all(p not in nonmetals() or p in hydridic() for p in partners)
        return Fraction(-1 if is_hydride else 1)
    if symbol in fixed():
        return fixed()[symbol]
    if symbol in negative():
        return negative()[symbol]
    raise _UntoldError("it holds two elements whose numbers the formula does not tell")


def _refuse_the_untold(atoms: Mapping[str, Count]) -> None:
    """Refuse organic nitrogen, sulfur and phosphorus compounds with oxygen.

    Whether nitrogen is bound to oxygen (nitro) or to hydrogen (amino) is a
    matter of structure.
    """
    if {"C", "H", "O"} <= set(atoms) and {"N", "S", "P"} & set(atoms):
        raise _UntoldError("the numbers depend on its structure")


def _with_peroxide(sites: list[Site], last: Site) -> list[Site]:
    """The last element brought down to what it can give; oxygen takes up the rest.

    Each atom of peroxide, at -1 in place of -2, takes up one.
    """
    most = fixed().get(last.symbol, highest().get(last.symbol))
    if most is None or last.number <= most:
        return [*sites, last]
    excess = (last.number - most) * last.count
    oxygen = next((s for s in sites if s.symbol == "O"), None)
    if oxygen is None or excess > oxygen.count:
        raise _UntoldError(f"{last.symbol} cannot be {signed(last.number)}")
    others = [site for site in sites if site is not oxygen]
    peroxide = Site("O", excess, PEROXIDE)
    oxide = Site("O", oxygen.count - excess, oxygen.number)
    settled = Site(last.symbol, last.count, most)
    return [*others, peroxide, *([oxide] if oxide.count else []), settled]
