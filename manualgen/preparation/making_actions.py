"""Weigh, dissolve, dilute, standardise: how the solutions of a plan are made."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from manualgen.editions.technician import Action, ActionRow
from manualgen.knowledge import Classification, classify, find_chemical
from manualgen.preparation.action import action, labelled
from manualgen.preparation.instructions import Instructions
from manualgen.preparation.needs import FROM_THE_BOTTLE, Need, Shape
from manualgen.preparation.plan import Plan, Supplied
from manualgen.preparation.rules import (
    handling_cautions,
    measures,
    strong_cautions,
)
from manualgen.preparation.shelf import Start
from manualgen.preparation.words import Writer
from manualgen.quantities import Quantity


def instructions_of(plan: Plan, writer: Writer) -> tuple[Instructions, ...]:
    """The instructions for every solution that can be made."""
    return tuple(
        Instructions(solution, solution.making, writer)
        for solution in plan.solutions
        if solution.making is not None
    )


def handle(plan: Plan, writer: Writer) -> Action:
    """What is handled as it was supplied, and what it asks for."""
    rows: dict[str, ActionRow] = {}
    strong: set[str] = set()
    for each in instructions_of(plan, writer):
        if each.solution.stronger is not None:
            continue
        start = each.making.start
        if each.cautions:
            strong.add(start.chemical.substance)
        name = writer.start(start)
        rows[name] = _row(writer, name, start.hazards, cautions_of(start))
        for added in each.making.batches[0].also:
            rows.setdefault(added.name, _added(added.name, writer))
    for supplied in plan.supplied:
        chemical = supplied.identity.chemical
        is_strong = supplied.identity.strength in FROM_THE_BOTTLE
        if not (is_strong and chemical and chemical.substance in strong):
            name = writer.solution(supplied.identity)
            rows.setdefault(name, _of_supplied(supplied, name, writer))
    return action("handle", filter(_matters, rows.values()), writer)


def _added(name: str, writer: Writer) -> ActionRow:
    chemical = find_chemical(name)
    found = classify(chemical) if chemical else None
    return _row(writer, writer.rule(name), found, _cautions(found))


def _of_supplied(supplied: Supplied, name: str, writer: Writer) -> ActionRow:
    found, chemical = supplied.identity.classification, supplied.identity.chemical
    percent = found.percent_ww if found else None
    strong = (
        strong_cautions(chemical, Fraction(percent)) if chemical and percent else ()
    )
    return _row(writer, name, found, strong or _cautions(found))


def cautions_of(start: Start) -> tuple[str, ...]:
    """What to wear and watch while a start is weighed or poured."""
    strong = strong_cautions(start.chemical, start.percent) if start.percent else ()
    return strong or _cautions(start.hazards)


def _cautions(found: Classification | None) -> tuple[str, ...]:
    return handling_cautions(found.h_statements) if found else ()


def _row(
    writer: Writer, name: str, found: Classification | None, cautions: tuple[str, ...]
) -> ActionRow:
    signal, pictograms, said = labelled(writer, found)
    return ActionRow(
        name,
        cautions=writer.rules(cautions),
        signal_word=signal,
        hazards=said if found is None or found.is_classified else (),
        pictograms=pictograms,
    )


def _matters(row: ActionRow) -> bool:
    return bool(row.hazards or row.cautions)


def weigh(plan: Plan, writer: Writer) -> Action:
    """Everything that goes on the balance, for solutions and to give out."""
    rows = [
        ActionRow(w.what, w.mass, w.code, (w.into,))
        for each in instructions_of(plan, writer)
        for w in each.weighings()
    ]
    rows += [_lots(writer, plan, need) for need in weighed_out(plan)]
    reads = writer.mass(measures().reads)
    return action("weigh", rows, writer, reads=reads)


def weighed_out(plan: Plan) -> Iterator[Need]:
    """The solids that are given out in weighed portions."""
    for supplied in plan.of_shape(Shape.SOLID):
        for need in supplied.needs:
            if need.entry.listed.weighed_out and need.each is not None:
                yield need


def _lots(writer: Writer, plan: Plan, need: Need) -> ActionRow:
    assert need.each is not None
    mass = writer.mass(need.each)
    own = need.entry.listed.spare
    fraction = own.si_value if own else plan.order.spare
    spare = 0 if need.entry.listed.shared else ceil(need.portions * fraction)
    name = "into_lots" if spare else "into_lots_bare"
    number = need.portions + spare
    into = writer.say(name, number=number, spare=spare, mass=mass)
    return ActionRow(writer.solution(need.identity), mass, how=(into,))


def dilute(plan: Plan, writer: Writer) -> Action:
    """How every solution is made up, first what others are dissolved in."""
    found = instructions_of(plan, writer)
    rows = [row for each in found for row in _made(each)]
    return action("dilute", rows, writer)


def _made(each: Instructions) -> Iterator[ActionRow]:
    writer = each.writer
    is_diluted = each.solution.stronger is not None
    cautions = cautions_of(each.making.start) if is_diluted else each.cautions
    last = len(each.making.batches) - 1
    for n, batch in enumerate(each.making.batches):
        together = each.together() if n == last else ()
        yield ActionRow(
            name_made(each),
            writer.volume(batch.volume),
            each.mark(n),
            (*each.steps(n), *together),
            writer.rules(cautions) if n == 0 else (),
        )


def name_made(each: Instructions) -> str:
    """A solution's name and strength, with *about* where it has to be found."""
    identity = each.solution.identity
    strength = identity.strength
    if each.making.standard is None or not isinstance(strength, Quantity):
        return each.writer.solution(identity)
    return f"{identity.name}, {each.writer.about_strength(strength)}"


def standardise(plan: Plan, writer: Writer) -> Action:
    """Solutions whose strength has to be found."""
    rows = [
        ActionRow(
            each.solution.identity.name,
            writer.strength(each.solution.identity.strength),
            each.solution.code,
            said,
        )
        for each in instructions_of(plan, writer)
        if (said := each.standardised())
    ]
    return action("standardise", rows, writer)
