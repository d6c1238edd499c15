"""The technician's sheet: a plan set out by action."""

from __future__ import annotations

from fractions import Fraction

from manualgen.editions.catalogue import catalogue
from manualgen.editions.technician import Asked, TechnicianSheet
from manualgen.editions.wording import wording_of
from manualgen.preparation.action import class_called
from manualgen.preparation.authors import notes_of
from manualgen.preparation.filling import fill
from manualgen.preparation.making_actions import (
    dilute,
    handle,
    standardise,
    weigh,
)
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.plan import Plan, plan
from manualgen.preparation.putting_back import put_back
from manualgen.preparation.setting_out import set_out
from manualgen.preparation.words import Writer
from manualgen.working.worked import Worked


def writer_for(worked: Worked) -> Writer:
    """The writer of a manual's language and house style."""
    return Writer(wording_of(worked.manual.settings), catalogue(worked.manual))


def sheet_of(made: Plan, writer: Writer) -> TechnicianSheet:
    """The sheet for an order's plan; actions with nothing to do are left out."""
    actions = (
        handle(made, writer),
        weigh(made, writer),
        dilute(made, writer),
        standardise(made, writer),
        fill(made, writer),
        *set_out(made, writer),
        put_back(made, writer),
    )
    sittings = made.order.sittings
    first = sittings[0].work
    alone = len(sittings) == 1
    return TechnicianSheet(
        first.experiment.id if alone else "day",
        (first.number or "") if alone else "",
        class_called(made.order, 0, writer) if alone else _day(made, writer),
        tuple(_facts(made, writer)),
        tuple(Asked(u.what, u.why.told(writer.wording.say)) for u in made.unclear),
        tuple(each for each in actions if each.rows),
        notes_of(made, writer),
    )


def _day(made: Plan, writer: Writer) -> str:
    return writer.say("one_day", number=len(made.order.sittings))


def _facts(made: Plan, writer: Writer) -> list[str]:
    order = made.order
    spare = writer.say("spare_of", percent=writer.percent(order.spare))
    groups = [writer.groups(s.groups) for s in order.sittings]
    if len(order.sittings) == 1:
        return [*groups, spare]
    named = [
        f"{class_called(order, n, writer)}: {told}" for n, told in enumerate(groups)
    ]
    return [*named, spare]


def plans_of_year(worked: Worked) -> tuple[Plan, ...]:
    """Each experiment that the manual lists, by itself, in the manual's order."""
    settings = worked.manual.settings
    works = {w.experiment.id: w for w in worked.experiments}
    return tuple(
        plan(Order((Sitting(works[e.experiment], settings.groups),), spare_of(worked)))
        for e in worked.manual.entries()
        if e.experiment in works
    )


def spare_of(worked: Worked) -> Fraction:
    """The manual's spare, as a fraction of 1."""
    return worked.manual.settings.spare.si_value
