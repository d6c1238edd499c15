"""What the equations of an experiment make of what is listed, and how much.

An equation counts where everything left of its arrow is on the list, is water
or the oxygen of the air, or is made by another equation that counts; one that
only explains something, or only says what an enthalpy belongs to, is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from manualgen.chemistry import Equation, Formula, Outcome, Term, outcome
from manualgen.knowledge import Chemical, find_by_formula
from manualgen.model.place import Place
from manualgen.working.amounts import issued_moles, used_moles
from manualgen.working.laboratory import Laboratory
from manualgen.working.materials import Materials

if TYPE_CHECKING:
    from manualgen.working.worked import WorkedEquation

_DRIVEN = re.compile(
    r"\b(?:heat|burn|ignit|light|flame|strongly|roast|boil|electrolys)\w*",
    re.IGNORECASE,
)
"""Words of a step that sets going what needs no second chemical."""

_AT_HAND: Final = frozenset({"water", "oxygen", "air"})


@dataclass(frozen=True, slots=True)
class Made:
    """A product of an equation that counts."""

    term: Term
    chemical: Chemical | None
    """None where the tables do not know it."""
    moles: Fraction | None
    """At most; None where the amounts put in are not known."""
    place: Place
    """Of the equation."""
    from_entries: tuple[int, ...]
    """The listed chemicals that it is made from."""

    @property
    def is_gas(self) -> bool:
        """Whether the equation says that it is a gas."""
        return self.term.state == "g"


@dataclass(frozen=True, slots=True)
class Reaction:
    """An equation that counts, balanced, with the listed chemicals in it."""

    equation: Equation
    place: Place
    entries: tuple[tuple[Term, tuple[int, ...]], ...]
    """Each reactant with the entries of the list that are it."""

    def amounts(
        self, materials: Materials, *, largest: bool = False
    ) -> dict[Formula, Fraction] | None:
        """What is put in of each reactant, in mol; None where a needed one is unknown.

        A reactant in excess, and one that is at hand or made, is there in plenty.
        """
        found: dict[Formula, Fraction] = {}
        for term, entries in self.entries:
            listed = [materials.lineup.entries[n] for n in entries]
            known = [
                n
                for e in entries
                if (n := used_moles(materials, e, largest=largest)) is not None
            ]
            if len(known) == len(entries) == 1:
                found[term.formula] = known[0]
            elif entries and not all(e.listed.excess for e in listed):
                return None
        return found or None

    def at_most(self, materials: Materials) -> Outcome | None:
        """What comes of all that each group is given, or of more where steps use more."""
        found: dict[Formula, Fraction] = {}
        for term, entries in self.entries:
            if not entries:
                continue
            most = [_most(materials, n) for n in entries]
            if any(n is None for n in most):
                if all(materials.lineup.entries[n].listed.excess for n in entries):
                    continue
                return None
            found[term.formula] = sum((n for n in most if n is not None), Fraction(0))
        return outcome(self.equation, found) if found else None

    def outcome(self, materials: Materials, *, largest: bool = False) -> Outcome | None:
        """What comes of the amounts put in; None where they are not known."""
        amounts = self.amounts(materials, largest=largest)
        return None if amounts is None else outcome(self.equation, amounts)


def reactions_of(
    equations: Sequence[WorkedEquation], materials: Materials, laboratory: Laboratory
) -> tuple[Reaction, ...]:
    """The equations that count, in source order."""
    usable = [e for e in equations if _is_whole(e)]
    made: set[str] = set()
    counted: dict[int, Reaction] = {}
    for _ in usable:
        before = len(counted)
        for n, each in enumerate(usable):
            reaction = _reaction(each, materials, laboratory, made)
            if n not in counted and reaction is not None:
                counted[n] = reaction
                made |= set(_products(reaction.equation, laboratory))
        if len(counted) == before:
            break
    return tuple(counted[n] for n in sorted(counted))


def made_in(
    reactions: Sequence[Reaction], materials: Materials, laboratory: Laboratory
) -> tuple[Made, ...]:
    """The products of the equations that count, each equation's in its order."""
    return tuple(_made(reactions, materials, laboratory))


def _made(
    reactions: Sequence[Reaction], materials: Materials, laboratory: Laboratory
) -> Iterator[Made]:
    for reaction in reactions:
        result = reaction.at_most(materials)
        entries = tuple(n for _, found in reaction.entries for n in found)
        for term in reaction.equation.products:
            chemical = find_by_formula(term.formula, term.state, laboratory.store)
            moles = result.yield_of(term.formula) if result else None
            yield Made(term, chemical, moles, reaction.place, entries)


def _most(materials: Materials, entry: int) -> Fraction | None:
    """The most that a group can put in of a listed chemical, in mol."""
    known = (
        issued_moles(materials.lineup.entries[entry]),
        used_moles(materials, entry),
    )
    return max((n for n in known if n is not None), default=None)


def _is_whole(worked: WorkedEquation) -> bool:
    """Whether it is a whole, balanced equation of substances."""
    block = worked.block
    if block is not None and (block.half or block.ionic):
        return False
    if worked.balance.status not in ("balanced", "rebalanced"):
        return False
    terms = (*worked.balance.equation.reactants, *worked.balance.equation.products)
    return not any(t.formula.charge for t in terms)


def _reaction(
    worked: WorkedEquation, materials: Materials, laboratory: Laboratory, made: set[str]
) -> Reaction | None:
    equation = worked.balance.equation
    entries = []
    for term in equation.reactants:
        chemical = find_by_formula(term.formula, term.state, laboratory.store)
        if chemical is None:
            return None
        of_list = tuple(
            n
            for n in materials.lineup.of_substance(chemical.substance)
            if materials.lineup.entries[n].in_use
        )
        if not of_list and chemical.substance not in _AT_HAND | made:
            return None
        entries.append((term, of_list))
    block = worked.block
    is_stated = block is not None and (block.per_mole or block.to_balance)
    if is_stated and not _is_done(entries, materials):
        return None
    return Reaction(equation, worked.place, tuple(entries))


def _is_done(
    entries: Sequence[tuple[Term, tuple[int, ...]]], materials: Materials
) -> bool:
    """Whether a change that is stated for a mole, or asked about, is carried out as well.

    Two listed chemicals react when they are put together; one by itself has to
    be heated or lit.
    """
    if sum(bool(of_list) for _, of_list in entries) > 1:
        return True
    return any(_DRIVEN.search(step.text) for step in materials.steps)


def _products(equation: Equation, laboratory: Laboratory) -> Iterator[str]:
    for term in equation.products:
        chemical = find_by_formula(term.formula, term.state, laboratory.store)
        if chemical is not None:
            yield chemical.substance
