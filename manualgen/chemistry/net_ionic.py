"""Net ionic equations: what dissolves taken apart, what does not react left out.

The states of a full equation say what is dissolved. An equation of which
nothing is left describes no reaction; nor does a displacement that the
activity series forbids.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from manualgen.chemistry.activity import displaces
from manualgen.chemistry.balance import balance
from manualgen.chemistry.conservation import in_lowest_terms
from manualgen.chemistry.dissociation import dissociated
from manualgen.chemistry.elements import elements
from manualgen.chemistry.equation import Equation, Term
from manualgen.chemistry.solubility import solubility_of
from manualgen.chemistry.splitting import known_ions

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from manualgen.chemistry.equation import State
    from manualgen.chemistry.formula import Formula

Species: TypeAlias = "tuple[Formula, State | None]"


@dataclass(frozen=True, slots=True)
class NetIonic:
    """The ionic forms of a full equation."""

    complete: Equation | None
    """With every strong electrolyte as its ions; None where states are missing."""
    net: Equation | None
    """Without spectators, in lowest terms; None where nothing reacts."""
    spectators: tuple[Term, ...] = ()
    """Ions that stand on both sides, with their numbers in the full equation."""
    message: str | None = None
    """Why there is no net equation."""

    @property
    def is_reaction(self) -> bool:
        """Whether anything happens."""
        return self.net is not None


def net_ionic(equation: Equation) -> NetIonic:
    """The complete and the net ionic form of a full equation.

    An equation that does not balance is balanced first; one that cannot be, or
    that lacks a state, has none.

    >>> from manualgen.chemistry.equation_text import parse_equation
    >>> text = "2 KI(aq) + Pb(NO3)2(aq) -> PbI2(s) + 2 KNO3(aq)"
    >>> str(net_ionic(parse_equation(text)).net)
    'Pb^2+(aq) + 2 I^-(aq) -> PbI2(s)'
    """
    balanced = balance(equation)
    if balanced.status not in ("balanced", "rebalanced") or equation.unknown:
        return NetIonic(None, None, message="it has no balance to start from")
    if lacking := _without_state(equation):
        message = f"states are needed to see what is dissolved: {', '.join(lacking)}"
        return NetIonic(None, None, message=message)
    complete = _complete(balanced.equation)
    net, spectators = _parted(complete)
    if not net.reactants or not net.products:
        message = "no reaction: every ion is a spectator"
        return NetIonic(complete, None, spectators, message)
    if refusal := _refused(net):
        return NetIonic(complete, None, spectators, f"no reaction: {refusal}")
    return NetIonic(complete, in_lowest_terms(net), spectators)


def _without_state(equation: Equation) -> tuple[str, ...]:
    return tuple(
        str(term.formula)
        for term in equation.terms
        if term.state is None
        and not (
            term.formula.is_electron or term.formula.is_agent or term.formula.charge
        )
    )


def _complete(equation: Equation) -> Equation:
    return replace(
        equation,
        reactants=_gathered(equation.reactants),
        products=_gathered(equation.products),
    )


def _gathered(terms: Iterable[Term]) -> tuple[Term, ...]:
    """One side dissociated, each species once."""
    amounts: dict[Species, Fraction] = {}
    for term in terms:
        for part in dissociated(_with_state(term)):
            key = (part.formula, part.state)
            amounts[key] = amounts.get(key, Fraction(0)) + part.amount
    return tuple(Term(None, f, s).times(n) for (f, s), n in amounts.items())


def _with_state(term: Term) -> Term:
    """An ion whose state is left out is in solution."""
    if term.state is None and term.formula.charge and not term.formula.is_electron:
        return replace(term, state="aq")
    return term


def _parted(complete: Equation) -> tuple[Equation, tuple[Term, ...]]:
    """What reacts, and the spectators."""
    left = {(t.formula, t.state): t.amount for t in complete.reactants}
    right = {(t.formula, t.state): t.amount for t in complete.products}
    common = {key: min(n, right[key]) for key, n in left.items() if key in right}
    net = replace(
        complete,
        reactants=_cation_first(_remaining(left, common)),
        products=_remaining(right, common),
    )
    spectators = tuple(
        Term(None, formula, state).times(n)
        for (formula, state), n in common.items()
        if formula.charge
    )
    return net, spectators


def _remaining(
    side: Mapping[Species, Fraction], common: Mapping[Species, Fraction]
) -> tuple[Term, ...]:
    rest = {key: n - common.get(key, Fraction(0)) for key, n in side.items()}
    return tuple(Term(None, f, s).times(n) for (f, s), n in rest.items() if n)


def _cation_first(terms: tuple[Term, ...]) -> tuple[Term, ...]:
    """Two ions that meet in the order of a formula: Ag^+ and then Cl^-."""
    if len(terms) == 2 and all(term.formula.charge for term in terms):
        return tuple(sorted(terms, key=lambda term: term.formula.charge < 0))
    return terms


def _refused(net: Equation) -> str | None:
    """Why what the equation claims does not happen, where the tables forbid it."""
    return _displacement_refused(net) or _dissolving_refused(net)


def _displacement_refused(net: Equation) -> str | None:
    free, freed = _free_element(net.reactants), _free_element(net.products)
    if len(net.reactants) != 2 or len(net.products) != 2 or not free or not freed:
        return None
    bound = [next(iter(t.formula.atoms)) for t in net.reactants if t.formula.charge]
    if bound == [freed] and displaces(free, freed) is False:
        below, above = elements()[free].name, elements()[freed].name
        return f"{below} stands below {above} in the activity series"
    return None


def _dissolving_refused(net: Equation) -> str | None:
    """An insoluble salt does not fall apart; that some dissolves wants ``<=>``."""
    if len(net.reactants) != 1 or net.arrow == "<=>":
        return None
    solid = net.reactants[0].formula
    found = solubility_of(solid)
    if found is None or found.state == "aq" or found.borderline:
        return None
    if {term.formula for term in net.products} == set(known_ions(solid)):
        return f"{solid} does not dissolve in water"
    return None


def _free_element(terms: Iterable[Term]) -> str | None:
    found = [t.formula for t in terms if not t.formula.charge]
    if len(found) == 1 and len(found[0].atoms) == 1:
        return next(iter(found[0].atoms))
    return None
