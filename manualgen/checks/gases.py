"""Toxic gases that come of what the Method does, where no equation makes them.

The Method says itself that a gas is given off, or it brings two chemicals
together that give one off. Of two that must not meet at all this speaks where
they are meant to, and where somebody has accepted that they do.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.checks.meeting import Meeting, kin_in_use, meetings
from manualgen.knowledge import (
    Chemical,
    Form,
    find_by_formula,
    find_chemical,
    gas_from,
    gases,
    incompatibility,
    is_said_to_form,
)
from manualgen.knowledge.names import key
from manualgen.model.place import Place
from manualgen.working.method import Voice
from manualgen.working.naming import Named
from manualgen.working.worked import WorkedExperiment


@dataclass(frozen=True, slots=True)
class GasSaid:
    """A gas that a sentence says is made."""

    gas: Chemical
    place: Place


def gases_said(work: WorkedExperiment) -> Iterator[GasSaid]:
    """Each gas that a step or a Safety box of the Method says is given off."""
    for passage in work.materials.passages:
        if passage.passage.voice is Voice.OTHER:
            continue
        for start, end in passage.passage.prose.sentences:
            sentence = passage.text[start:end]
            for named in passage.chemicals:
                if not start <= named.start < end:
                    continue
                gas = _gas(named, passage.text)
                at = named.start - start, named.end - start
                if gas is not None and is_said_to_form(sentence, *at):
                    place = passage.passage.prose.place(named.start, named.end)
                    yield GasSaid(gas, place)


def gases_met(work: WorkedExperiment) -> Iterator[tuple[Meeting, Chemical]]:
    """Each two chemicals that may meet with the gas that they give off."""
    is_accepted = any(a.check == "incompatible-chemicals" for a in work.accepts)
    for met in meetings(work, incompatibility):
        if met.meant or is_accepted:
            yield from _with_gas(met)
    found = tuple(meetings(work, gas_from))
    kin = kin_in_use(work) if found else set()
    for met in found:
        if not met.pair.unless & kin:
            yield from _with_gas(met)


def _with_gas(met: Meeting) -> Iterator[tuple[Meeting, Chemical]]:
    gas = find_chemical(met.pair.gas) if met.pair.gas else None
    if gas is not None:
        yield met, gas


def _gas(named: Named, text: str) -> Chemical | None:
    """The gas that words or a formula may mean."""
    words = " ".join(text[named.start : named.end].split())
    if (gas := gases().get(key(words))) is not None:
        return gas
    chemical = named.chemical
    if chemical is None or chemical.formula is None or "(aq)" in words:
        return None
    if not words.removesuffix("(g)").isalnum() or words.islower() or words.istitle():
        return None
    found = find_by_formula(chemical.formula, "g")
    return found if found and found.form is Form.GAS else None
