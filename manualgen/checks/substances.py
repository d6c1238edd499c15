"""The substances of an experiment: formulas, names beside them, states, ionic forms.

What is wrong with an equation's balance is for `chemistry`; a formula that
cannot be is reported here, once, and an equation that holds one waits until it
is mended.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from manualgen.checks.beside import Pair, pairs_in
from manualgen.checks.ionic import ionic_faults
from manualgen.checks.registry import Report, check, manual_check
from manualgen.checks.species import Species, species_in, state_place
from manualgen.chemistry import (
    ChargeFault,
    ChemistryError,
    Formula,
    charge_fault,
    formula_of,
    formulas_of,
    is_name,
    known_ions,
    name_of,
    parse_formula,
    same_substance,
    without_form,
    wrong_states,
)
from manualgen.knowledge import parse_supply
from manualgen.model.finding import Fault, Severity
from manualgen.model.lab import ListedChemical
from manualgen.model.manual import StoredChemical
from manualgen.working.worked import Worked, WorkedExperiment

_NAME_AND_FORMULA = re.compile(r"(?P<name>.+?)\s+\((?P<formula>[^\s()]*[A-Z][^\s]*)\)")
_ROMAN = re.compile(r"[IVX]+")


@check("formula-charge", Severity.ERROR)
def formula_charge(work: WorkedExperiment) -> Report:
    """The ions of a compound add up to no charge.

    Covalent compounds, complexes that the ion table lacks and oxides of a
    metal in two states are not judged.
    """
    for species in species_in(work):
        fault = charge_fault(species.formula)
        if fault:
            yield _charge_fault(species, fault)


@manual_check("formula-charge", Severity.ERROR)
def formula_charge_in_store(worked: Worked) -> Report:
    """The ions of a compound add up to no charge."""
    for stored in worked.manual.chemicals:
        formula = _formula(stored.formula)
        place = stored.formula_place or stored.place
        fault = charge_fault(formula) if formula else None
        if fault and formula:
            typed = stored.formula or str(formula)
            yield _charge_fault(Species(formula, typed, place), fault)


@check("formula-name", Severity.ERROR)
def formula_name(work: WorkedExperiment) -> Report:
    """A name and the formula set beside it are one substance.

    A salt's name may stand beside its ion's formula, and a salt's beside its
    hydrate's, unless the name says how much water it has.
    """
    for pair in (*_listed_pairs(work), *pairs_in(work.experiment)):
        if not _is_same(pair):
            yield _name_fault(pair)


@manual_check("formula-name", Severity.ERROR)
def formula_name_in_store(worked: Worked) -> Report:
    """A name and the formula set beside it are one substance."""
    for stored in worked.manual.chemicals:
        for pair in _stored_pairs(stored):
            if not _is_same(pair):
                yield _name_fault(pair)


@check("state-solubility", Severity.WARNING)
def state_solubility(work: WorkedExperiment) -> Report:
    """States agree with what dissolves in water.

    Crystallising and salting out, salts that dissolve sparingly, and a hydrate
    formed are as they should be.
    """
    possible = (e for e in work.equations if e.balance.status != "impossible")
    for stated in possible:
        for wrong in wrong_states(stated.equation):
            place = state_place(wrong.term, stated)
            mended = f"{wrong.term.formula}({wrong.state})"
            message = f"{wrong.term.species}: {wrong.why}; write {mended}"
            yield Fault(place, message, mended)


@check("ionic-mismatch", Severity.ERROR)
def ionic_mismatch(work: WorkedExperiment) -> Report:
    """An ionic equation is the net ionic form of a full equation above it."""
    yield from ionic_faults(work.equations)


def _charge_fault(species: Species, fault: ChargeFault) -> Fault:
    meant = [str(formula) for formula in fault.suggestions]
    if species.source.isascii() is False:
        meant = [formula.pretty for formula in fault.suggestions]
    message = f"the ions of {species.source} cannot add up to nothing"
    if not meant:
        return Fault(species.place, message)
    mend = " or ".join(meant)
    return Fault(species.place, f"{message}; write {mend}", mend)


def _is_same(pair: Pair) -> bool:
    """Whether a pair is one substance, or cannot be told to be two."""
    if same_substance(pair.name, pair.formula) is not False:
        return not _has_another_charge(pair)
    element = formula_of(without_form(pair.name)[0])
    if element is None or len(element.atoms) != 1 or element.charge:
        return False
    return _is_made_of(element, pair)


def _has_another_charge(pair: Pair) -> bool:
    """*Sulfate ions* beside ``SO4^-``: the ion of these atoms with a charge of no ion."""
    formula = pair.formula
    if not formula.charge or len(formula.atoms) < 2 or name_of(formula) is not None:
        return False
    meant = formulas_of(without_form(pair.name)[0])
    return any(ion.charge for ion in meant) and all(
        ion.atoms == formula.atoms and ion.charge != formula.charge for ion in meant
    )


def _is_made_of(element: Formula, pair: Pair) -> bool:
    """An element's name beside a compound of it, where that is how people speak.

    *Iron (`Fe2O3`)* is common; *chlorine (`HCl`)* is a slip but for *a compound
    of chlorine*.
    """
    symbol = next(iter(element.atoms))
    if symbol not in pair.formula.atoms:
        return False
    is_compound = len(pair.formula.atoms) > 1
    return is_compound and (element.atoms[symbol] == 1 or pair.is_of)


def _name_fault(pair: Pair) -> Fault:
    name = pair.name
    meant = formula_of(without_form(name)[0])
    is_other = f"{pair.formula} is {_called(pair.formula)}"
    if meant is None or (meant.charge and not pair.formula.charge):
        return Fault(pair.place, f"{is_other}, not {_inside(name)}")
    if meant.charge and _has_another_charge(pair):
        message = f"{_called(meant)} is {meant}, and {pair.formula} has another charge"
        return Fault(pair.place, message, str(meant))
    if meant.charge:
        message = f"{_called(meant)} is {meant}; {is_other}"
        return Fault(pair.place, message, str(meant))
    for ion in known_ions(meant) if pair.formula.charge else ():
        if ion.atoms == pair.formula.atoms:
            message = f"the ion of {_inside(name)} is {ion}"
            return Fault(pair.place, message, str(ion))
    return Fault(pair.place, f"{name} is {meant}; {is_other}", str(meant))


def _inside(name: str) -> str:
    """A name as it is written inside a sentence."""
    return name[:1].lower() + name[1:]


def _called(formula: Formula) -> str:
    """A substance's name as a sentence takes it."""
    name = name_of(formula)
    if name is None:
        return "another substance"
    return f"the {name}" if formula.charge else name


def _listed_pairs(work: WorkedExperiment) -> Iterator[Pair]:
    """Entries of the list that give a formula in brackets."""
    for listed in work.experiment.chemicals:
        yield from _listed_pair(listed)


def _listed_pair(listed: ListedChemical) -> Iterator[Pair]:
    found = _NAME_AND_FORMULA.fullmatch(listed.name)
    if found is None or _ROMAN.fullmatch(found["formula"]):
        return
    formula = _formula(found["formula"])
    if formula and is_name(found["name"]):
        place = listed.name_place.within(*found.span("formula"))
        yield Pair(found["name"], formula, place)


def _stored_pairs(stored: StoredChemical) -> Iterator[Pair]:
    if formula := _formula(stored.formula):
        yield Pair(stored.name, formula, stored.formula_place or stored.place)
    supply = parse_supply(stored.supplied).formula if stored.supplied else None
    if supply and stored.supplied_place:
        yield Pair(stored.name, supply, stored.supplied_place)


def _formula(text: str | None) -> Formula | None:
    """The formula, where it is one; what is not was noted when it was read."""
    try:
        return parse_formula(text) if text else None
    except ChemistryError:
        return None
