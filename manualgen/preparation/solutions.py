"""The solutions of a plan: which there are, how much of each, and how it is made.

The same solution for two classes, or shown under two names, is made once. What
something is dissolved in, or diluted from, is a solution of its own, made before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import permutations
from string import ascii_uppercase
from typing import TypeAlias

from manualgen.knowledge import Classification, united
from manualgen.knowledge.names import key
from manualgen.preparation.concentration import moles_per_dm3
from manualgen.preparation.making import Making
from manualgen.preparation.needs import Need, Shape, total_of
from manualgen.preparation.reason import CannotMakeError, Reason
from manualgen.preparation.rules import Keeping, keeping_of
from manualgen.preparation.stronger import made_from
from manualgen.preparation.volumes import making_for
from manualgen.quantities import Quantity
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Identity

_Key: TypeAlias = "tuple[str, object, str, object]"


@dataclass(frozen=True, slots=True)
class Solution:
    """A solution to make."""

    identity: Identity
    solvent: Identity | None
    """None for water."""
    needs: tuple[Need, ...]
    """None where it serves only to make another."""
    total: Fraction | None
    """All that is needed, in cm³; None where nobody says how much."""
    making: Making | None
    problem: Reason | None = None
    """Why there is no making."""
    code: str = ""
    """``A``, by which the sheet speaks of it."""
    solvent_code: str = ""
    """The solution that it is dissolved in."""
    stronger: Solution | None = None
    """The solution that it is diluted from; None where it is made from the shelf."""

    @property
    def hazards(self) -> Classification | None:
        """What the label of its bottle says, the solvent counted."""
        own = self.identity.classification
        other = self.solvent.classification if self.solvent else None
        if own is None or other is None:
            return own
        return replace(united([own, other]), percent_ww=own.percent_ww)

    @property
    def keeping(self) -> Keeping:
        """How it keeps."""
        return keeping_of(self.identity.chemical)


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A solution that is wanted, by whom, and how much more by other solutions."""

    identity: Identity
    solvent: Identity | None
    needs: tuple[Need, ...] = ()
    extra: Fraction = Fraction(0)

    @property
    def total(self) -> Fraction | None:
        """All that is wanted, in cm³."""
        found = total_of(self.needs)
        if found is None and not self.extra:
            return None
        return (found or Fraction(0)) + self.extra


def solutions_of(needs: Sequence[Need], laboratory: Laboratory) -> tuple[Solution, ...]:
    """Every solution with its code, those that others are made with first."""
    wanted = _wanted(needs, laboratory)
    sources = _from_stronger(wanted, laboratory)
    bases = {_base_of(each) for each in wanted.values()}
    bases |= {strong for strong, _ in sources.values()}
    in_order = sorted(wanted, key=lambda k: k not in bases)
    made = {
        k: replace(_solution(wanted[k], laboratory), code=_code(n))
        for n, k in enumerate(in_order)
    }
    for k, each in wanted.items():
        base = _base_of(each)
        if base in made:
            made[k] = replace(made[k], solvent_code=made[base].code)
    for weak, (strong, making) in sources.items():
        made[weak] = replace(made[weak], making=making, stronger=made[strong])
    return tuple(made.values())


def _wanted(needs: Sequence[Need], laboratory: Laboratory) -> dict[_Key, _Wanted]:
    """What the classes want, and what others are dissolved in as well."""
    wanted: dict[_Key, _Wanted] = {}
    for need in needs:
        if need.shape is Shape.SOLUTION:
            own = _key(need.identity, need.entry.solvent)
            known = wanted.get(own) or _Wanted(need.identity, need.entry.solvent)
            wanted[own] = replace(known, needs=(*known.needs, need))
    for first in list(wanted.values()):
        base, making = _base_of(first), _solution(first, laboratory).making
        if base is not None and making is not None and first.solvent is not None:
            known = wanted.get(base) or _Wanted(first.solvent, None)
            wanted[base] = replace(known, extra=known.extra + making.volume)
    return wanted


def _from_stronger(
    wanted: dict[_Key, _Wanted], laboratory: Laboratory
) -> dict[_Key, tuple[_Key, Making]]:
    """What is diluted from a stronger solution, which has to be made for it as well."""
    bases = {_base_of(each) for each in wanted.values()}
    found: dict[_Key, tuple[_Key, Making]] = {}
    for weak, strong in permutations(wanted, 2):
        if weak[0] != strong[0] or weak in bases or weak in found:
            continue
        making = _made_from(wanted[weak], wanted[strong], laboratory)
        if making is not None:
            extra = wanted[strong].extra + making.taken
            grown = replace(wanted[strong], extra=extra)
            if _solution(grown, laboratory).making is not None:
                wanted[strong] = grown
                found[weak] = (strong, making)
    return found


def _made_from(weak: _Wanted, strong: _Wanted, laboratory: Laboratory) -> Making | None:
    one, other = _solution(weak, laboratory), _solution(strong, laboratory)
    strengths = one.identity.strength, other.identity.strength
    if weak.solvent or strong.solvent or not (one.making and other.making):
        return None
    match strengths:
        case Quantity() as low, Quantity() as high:
            return made_from(one.making, low, other.making, high)
        case _:
            return None


def _base_of(wanted: _Wanted) -> _Key | None:
    """The solution that another is dissolved in, where it has to be made."""
    solvent = wanted.solvent
    if solvent is None or not isinstance(solvent.strength, Quantity):
        return None
    return _key(solvent, None)


def _solution(wanted: _Wanted, laboratory: Laboratory) -> Solution:
    identity, solvent = _most_exact(wanted), wanted.solvent
    draft = Solution(identity, solvent, wanted.needs, wanted.total, None)
    if wanted.total is None:
        return draft
    try:
        making = making_for(identity, wanted.total, laboratory.store)
    except CannotMakeError as error:
        return replace(draft, problem=error.reason)
    return replace(draft, making=making.unaided() if solvent else making)


def _most_exact(wanted: _Wanted) -> Identity:
    """Of 0.1 and 0.100 mol/dm³ the one that asks for more care."""

    def figures(identity: Identity) -> int:
        strength = identity.strength
        return strength.significant_figures if isinstance(strength, Quantity) else 0

    return max((wanted.identity, *(n.identity for n in wanted.needs)), key=figures)


def _key(identity: Identity, solvent: Identity | None) -> _Key:
    """Two solutions of one key are one solution."""
    in_what = (_substance(solvent), _strength(solvent)) if solvent else ("", None)
    return (_substance(identity), _strength(identity), *in_what)


def _substance(identity: Identity) -> str:
    chemical = identity.chemical
    return key(identity.name) if chemical is None else chemical.substance


def _strength(identity: Identity) -> object:
    chemical, strength = identity.chemical, identity.strength
    if not isinstance(strength, Quantity):
        return strength or (chemical and chemical.name)
    try:
        moles = moles_per_dm3(chemical, strength) if chemical else None
    except CannotMakeError:
        moles = None
    upper = strength.si_upper or strength.si_value
    return moles or (str(strength.dimension), upper)


def _code(n: int) -> str:
    """``A`` to ``Z``, then ``AA``."""
    first, last = divmod(n, len(ascii_uppercase))
    return (ascii_uppercase[first - 1] if first else "") + ascii_uppercase[last]
