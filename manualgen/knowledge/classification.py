"""The hazards of a chemical at a strength, by the CLP Regulation.

Pure substances and gases carry the classes of the table. A solution is a
mixture with water, which counts as known and not hazardous: each class of the
solute is reached or not by its specific limit, or else by the generic one. What
the store states for a form or a strength goes before all of this.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from manualgen.knowledge.catalogue import find_chemical
from manualgen.knowledge.chemical import Chemical, HazardData
from manualgen.knowledge.hazard_class import HazardClass
from manualgen.knowledge.label import Label, label_of
from manualgen.knowledge.mixture import reached_in
from manualgen.knowledge.part import Part, Reached
from manualgen.knowledge.ph import Advice, ph_advice
from manualgen.knowledge.stated import classes_stated, stated_for
from manualgen.knowledge.store import NO_STORE, Store
from manualgen.knowledge.strength import StrengthError, percent_ww
from manualgen.quantities import Quantity


@dataclass(frozen=True, slots=True)
class Classification:
    """What a label of this solution would say, and why."""

    classes: tuple[HazardClass, ...]
    signal_word: str | None
    pictograms: tuple[str, ...]
    h_statements: tuple[str, ...]
    euh: tuple[str, ...]
    reason: str
    """How each class comes about, for whoever checks it."""
    percent_ww: Decimal | None = None
    """Mass fraction in per cent, where a strength was stated."""
    advice: Advice | None = None
    """What the pH asks for where the calculation asks for nothing."""
    source: str = ""
    sensitisers: tuple[str, ...] = ()
    """What EUH208 names; nothing for what is one of several."""

    def worded(self, texts: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
        """Each H and EUH statement with its text, EUH208 with the sensitiser's name.

        The table has ``(name)`` where the name goes; where none may be told,
        as of an unknown, that sentence is left out.
        """
        return tuple(
            (code, _with_names(texts[code], self.sensitisers))
            for code in (*self.h_statements, *self.euh)
        )

    @property
    def is_classified(self) -> bool:
        """Whether any hazard class is reached."""
        return bool(self.classes or self.euh)


_NAME_GOES_HERE = re.compile(r"\((?:name|nom)\)")


def _with_names(text: str, names: Sequence[str]) -> str:
    gap = _NAME_GOES_HERE.search(text)
    if gap is None:
        return text
    if not names:
        return text[gap.end() :].lstrip(". ")
    return text[: gap.start()] + ", ".join(names) + text[gap.end() :]


def classify(
    chemical: Chemical, strength: Quantity | str | None = None, store: Store = NO_STORE
) -> Classification | None:
    """The classification at a strength; without one, of the chemical as it is.

    The words ``concentrated``, ``glacial`` and ``saturated`` are strengths.
    None where nothing is known of the chemical's hazards. Raises
    `StrengthError` where the strength is none of this chemical's.
    """
    stated = stated_for(chemical, strength)
    if stated is not None:
        classes = classes_stated(stated.statements, stated.signal)
        euh = tuple(s for s in stated.statements if s.startswith("EUH"))
        found = _classification(
            classes, euh, "as the store states", None, stated.source
        )
        return replace(found, sensitisers=(chemical.name,) if "EUH208" in euh else ())
    if chemical.ingredients:
        return _mixture(chemical, strength, store)
    if chemical.hazards is None:
        return None
    percent = percent_ww(chemical, strength)
    if percent is None:
        return _pure(chemical, chemical.hazards)
    return _solution(_as_dissolved(chemical), percent)


def classify_mixture(parts: Sequence[tuple[Chemical, Decimal]]) -> Classification:
    """The classification of chemicals that are in one solution, each at its % w/w."""
    known = [
        Part(c.name, c.hazards, c.basis, percent) for c, percent in parts if c.hazards
    ]
    reached = reached_in(known)
    sources = "; ".join(dict.fromkeys(part.hazards.source for part in known))
    return _of_reached(reached, None, sources)


def united(found: Sequence[Classification]) -> Classification:
    """The label of something that may be any of several."""
    classes = tuple(dict.fromkeys(c for each in found for c in each.classes))
    euh = tuple(dict.fromkeys(e for each in found for e in each.euh))
    sources = "; ".join(dict.fromkeys(each.source for each in found))
    whole = _classification(classes, euh, "any of several", None, sources)
    advice = next((each.advice for each in found if each.advice), None)
    return replace(whole, advice=advice)


def _pure(chemical: Chemical, hazards: HazardData) -> Classification:
    euh = tuple(e.split(" ")[0] for e in hazards.euh)
    reason = "of the substance itself" if hazards.classes else "assessed, none"
    return _classification(hazards.classes, euh, reason, None, hazards.source)


def _solution(chemical: Chemical, percent: Decimal) -> Classification:
    assert chemical.hazards is not None
    part = Part(chemical.name, chemical.hazards, chemical.basis, percent)
    made = _of_reached(reached_in([part]), percent, chemical.hazards.source)
    return replace(made, advice=ph_advice(chemical, percent, made.h_statements))


def _as_dissolved(chemical: Chemical) -> Chemical:
    """The entry by which a solution is classified."""
    other = find_chemical(chemical.dissolved) if chemical.dissolved else None
    return other or chemical


def _mixture(
    chemical: Chemical, strength: Quantity | str | None, store: Store
) -> Classification:
    scale = _scale(chemical, strength, store)
    parts = []
    for ingredient in chemical.ingredients:
        found = find_chemical(ingredient.name, store)
        if found is not None:
            parts.append((_as_dissolved(found), ingredient.percent * scale))
    made = classify_mixture(parts)
    main = parts[0][1] if chemical.strength_of and parts else None
    advice = ph_advice(chemical, Decimal(100), made.h_statements)
    return replace(made, percent_ww=main, advice=advice, source=chemical.source)


def _scale(
    chemical: Chemical, strength: Quantity | str | None, store: Store
) -> Decimal:
    """How much stronger than the usual recipe a stated strength is."""
    if strength is None or isinstance(strength, str):
        return Decimal(1)
    if chemical.strength_of is None:
        raise StrengthError(f"{chemical.name} is a mixture, which has no one strength")
    found = find_chemical(chemical.strength_of, store)
    usual = next(
        i.percent for i in chemical.ingredients if i.name == chemical.strength_of
    )
    percent = percent_ww(found, strength) if found else None
    return percent / usual if percent is not None else Decimal(1)


def _of_reached(
    reached: Sequence[Reached], percent: Decimal | None, source: str
) -> Classification:
    classes = tuple(r.hazard for r in reached if r.hazard.name != "EUH")
    euh = tuple(r.hazard.statement for r in reached if r.hazard.name == "EUH")
    reason = "; ".join(
        f"{r.hazard}: {r.why}" for r in reached if r.hazard.name != "EUH"
    )
    found = _classification(
        classes, euh, reason or "no limit is reached", percent, source
    )
    named = tuple(dict.fromkeys(r.names for r in reached if r.names))
    return replace(found, sensitisers=named)


def _classification(
    classes: Sequence[HazardClass],
    euh: tuple[str, ...],
    reason: str,
    percent: Decimal | None,
    source: str,
) -> Classification:
    label: Label = label_of(classes)
    return Classification(
        tuple(sorted(classes, key=lambda c: (c.statement, c.name))),
        label.signal_word,
        label.pictograms,
        label.h_statements,
        tuple(dict.fromkeys(euh)),
        reason,
        percent,
        source=source,
    )
