"""The materials family: what is listed, and what the Method does with it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from manualgen.checks.agreeing import it, not_on_list, with_verb
from manualgen.checks.apparatus_use import (
    implied_pieces,
    unlisted_pieces,
    unused_pieces,
)
from manualgen.checks.bottle_strengths import misstated_strengths
from manualgen.checks.capacity import made_beyond, overfilled, pipetted_beyond
from manualgen.checks.collecting import gas_overflows
from manualgen.checks.issued import overdrawn, short_of_excess
from manualgen.checks.registry import Report, check
from manualgen.checks.unlisted import known_names, unlisted_chemicals
from manualgen.checks.vague import is_piece, vague_amounts
from manualgen.model.experiment import SectionKind
from manualgen.model.finding import Fault, Severity
from manualgen.model.nearest import nearest
from manualgen.model.place import Place
from manualgen.quantities import Quantity, QuantityError, parse_quantity
from manualgen.quantities.kinds import kind_of
from manualgen.quantities.mend import mended, typed
from manualgen.working.listed import Identity, Resolved
from manualgen.working.materials import entries_named
from manualgen.working.worked import WorkedExperiment

_DILUTED = (
    "dilut",
    "make up",
    "made up",
    "makes",
    "becom",
    "this is",
    "gives",
    "prepare",
)
"""Words of a sentence that makes another strength out of the listed one."""


_QUANTITY_BEHIND = re.compile(
    r"(?P<name>[^\d].*?),?\s+(?P<quantity>\d[\d.,]*\s*(?:%|[A-Za-zµ°])\S*(?:\s\S+)?)"
)
"""A name with a quantity behind it that no comma parts from it."""


@check("unknown-chemical", Severity.ERROR)
def unknown_chemical(work: WorkedExperiment) -> Report:
    """Every listed chemical is one that the store or the built-in table knows.

    Splints and granules may stand among them.
    """
    for n, entry in enumerate(work.materials.lineup.entries):
        if is_piece(work, n):
            continue
        for identity in entry.identities:
            if identity.chemical is None:
                yield _unknown(work, identity)


def _unknown(work: WorkedExperiment, identity: Identity) -> Fault:
    name = identity.name
    known = known_names(work.laboratory)
    found = _QUANTITY_BEHIND.fullmatch(name)
    if found and found["name"].casefold() in {k.casefold() for k in known}:
        apart = f"{found['name']}, {_well_written(found['quantity'])}"
        message = f"{name}: a strength or an amount follows the name after a comma"
        return Fault(identity.place, message, apart)
    message = (
        f"no table knows {name}: name it as a table does, or add it to chemicals.yaml"
    )
    return Fault(identity.place, message, nearest(name, known))


def _well_written(text: str) -> str:
    try:
        return typed(mended(parse_quantity(text)))
    except QuantityError:
        return text


@check("chemical-not-listed", Severity.ERROR)
def chemical_not_listed(work: WorkedExperiment) -> Report:
    """Every chemical that a step uses is on the list."""
    for use in unlisted_chemicals(work):
        yield Fault(
            use.place,
            not_on_list(use.words, "chemicals"),
            f"- {use.name}, with its strength and amount, under chemicals:",
        )


@check("chemical-not-used", Severity.WARNING)
def chemical_not_used(work: WorkedExperiment) -> Report:
    """Every listed chemical is used in the Method, or is for spills or disposal.

    A titration uses its indicator whether it is named or not.
    """
    if work.experiment.section(SectionKind.METHOD) is None:
        return  # That it is missing has been said.
    is_titrated = any("titrat" in p.text.casefold() for p in work.materials.steps)
    for n, entry in enumerate(work.materials.lineup.entries):
        is_known = any(identity.chemical for identity in entry.identities)
        is_indicator = entry.chemical and "indicators" in entry.chemical.kin
        if is_titrated and is_indicator and not _names_indicator(work):
            continue
        if entry.in_use and is_known and n not in work.materials.used:
            name = entry.listed.shown or entry.listed.name
            yield Fault(
                entry.listed.place,
                f"{with_verb(name, 'is listed')}, and no step, box or drawing of the "
                f"Method uses {it(name)}",
                f"use {it(name)} in a step, say for disposal or for spills, or take "
                f"{it(name)} out",
            )


def _names_indicator(work: WorkedExperiment) -> bool:
    """Whether a step says which indicator it takes."""
    return any(
        named.chemical and "indicators" in named.chemical.kin
        for passage in work.materials.steps
        for named in passage.chemicals
    )


@check("apparatus-not-listed", Severity.WARNING)
def apparatus_not_listed(work: WorkedExperiment) -> Report:
    """Every piece of apparatus that the Method uses is on the list."""
    for place, message, piece in unlisted_pieces(work):
        yield Fault(place, message, f"- {piece}, under apparatus:")


@check("apparatus-implied", Severity.NOTE)
def apparatus_implied(work: WorkedExperiment) -> Report:
    """What an operation takes as a rule is listed, where it may not lie to hand."""
    for place, message, piece in implied_pieces(work):
        yield Fault(place, message, f"- {piece}, under apparatus:")


@check("apparatus-not-used", Severity.WARNING)
def apparatus_not_used(work: WorkedExperiment) -> Report:
    """Every listed piece of apparatus is used, by name or by what the steps do."""
    if work.experiment.section(SectionKind.METHOD) is None:
        return  # That it is missing has been said.
    for listed in unused_pieces(work):
        yield Fault(
            listed.place,
            f"{with_verb(listed.name, 'is listed')}, and no step or drawing of the "
            f"Method uses {it(listed.name)}",
            f"use {it(listed.name)} in a step, or take {it(listed.name)} out",
        )


@check("strength-mismatch", Severity.ERROR)
def strength_mismatch(work: WorkedExperiment) -> Report:
    """A strength that the Method gives a chemical is one that the list gives it.

    So is one that a calculation gives a titrant, but for what is diluted first.
    """
    for said, numbers, place in _strengths_in_method(work):
        entries = [work.materials.lineup.entries[n] for n in numbers]
        listed = _listed_strengths(entries, said)
        if listed and all(said.si_value != q.si_value for q in listed):
            given = " and ".join(typed(q) for q in listed)
            name = entries[0].listed.shown or entries[0].listed.name
            yield Fault(
                place,
                f"{with_verb(name, 'is')} {typed(said)} here and {given} on the list",
                typed(listed[0]) if len(listed) == 1 else None,
            )
    yield from misstated_strengths(work)


@check("amount-exceeds-issue", Severity.ERROR)
def amount_exceeds_issue(work: WorkedExperiment) -> Report:
    """The steps use no more of a chemical than the list gives each group."""
    yield from overdrawn(work)


@check("capacity-exceeded", Severity.ERROR)
def capacity_exceeded(work: WorkedExperiment) -> Report:
    """No vessel is given more than it holds, no collector more gas than it takes."""
    yield from overfilled(work)
    yield from made_beyond(work)
    yield from pipetted_beyond(work)
    yield from gas_overflows(work)


@check("not-in-excess", Severity.ERROR)
def not_in_excess(work: WorkedExperiment) -> Report:
    """What is said to be in excess does not run out first."""
    yield from short_of_excess(work)


@check("vague-quantity", Severity.WARNING)
def vague_quantity(work: WorkedExperiment) -> Report:
    """A step says how much of a chemical to use, in a quantity."""
    for place, words in vague_amounts(work):
        yield Fault(
            place,
            f"“{words}” does not say how much",
            "an amount, such as `2 cm3` or `0.5 g`",
        )


@check("hydrate-unsaid", Severity.WARNING)
def hydrate_unsaid(work: WorkedExperiment) -> Report:
    """A mass, g/dm³ or per cent of a salt that the store keeps as a hydrate says which."""
    for entry in work.materials.lineup.entries:
        hydrate = _unsaid_hydrate(entry, work)
        if hydrate is not None:
            yield Fault(
                entry.listed.name_place,
                f"the store keeps {entry.listed.name} as {hydrate}, and nothing says "
                "whether this is of the hydrate or of the anhydrous salt",
                f"{_hydrate_name(entry.listed.name, hydrate)}, or anhydrous "
                f"{entry.listed.name}",
            )


def _strengths_in_method(
    work: WorkedExperiment,
) -> Iterator[tuple[Quantity, tuple[int, ...], Place]]:
    """Each strength that a step or a drawing gives a listed chemical."""
    for said in work.materials.strengths:
        if not any(word in said.sentence.casefold() for word in _DILUTED):
            yield said.strength, said.named.entries, said.place
    for drawing in work.materials.drawings:
        for piece in drawing.pieces:
            for content in piece.contents:
                entries = entries_named(content.name, work.materials.lineup)
                if content.strength is not None:
                    yield content.strength, entries, content.place


def _listed_strengths(entries: Sequence[Resolved], said: Quantity) -> list[Quantity]:
    """The strengths that the list gives, where all can be compared with what is said."""
    stated = [e.listed.strength.value for e in entries if e.listed.strength]
    alike = [
        q
        for q in stated
        if isinstance(q, Quantity) and kind_of(q.unit) == kind_of(said.unit)
    ]
    return alike if len(alike) == len(entries) else []


def _unsaid_hydrate(entry: Resolved, work: WorkedExperiment) -> str | None:
    """The hydrate that the store keeps, where a mass leaves it open."""
    chemical = entry.chemical
    kept = work.laboratory.store.kept.get(chemical.substance) if chemical else None
    formula = kept.supply.formula if kept and kept.supply else None
    if formula is None or not formula.adducts or not _goes_by_mass(entry):
        return None
    words = entry.listed.name.casefold()
    is_said = any(w in words for w in ("hydrate", "anhydrous", "-water", " water"))
    return None if is_said or "·" in words or "." in words else str(formula)


def _goes_by_mass(entry: Resolved) -> bool:
    amount, strength = entry.listed.amount, entry.listed.strength
    if strength and isinstance(strength.value, Quantity):
        kind = kind_of(strength.value.unit)
        return kind in ("mass concentration", "mass fraction", "fraction")
    return amount is not None and kind_of(amount.value.unit) == "mass"


def _hydrate_name(name: str, formula: str) -> str:
    """``magnesium sulfate-7-water`` for MgSO4·7H2O."""
    water = formula.partition("·")[2].removesuffix("H2O") or "1"
    return f"{name}-{water}-water"
