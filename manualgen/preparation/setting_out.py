"""Set out: what each class finds in the room, chemicals first, then apparatus."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from manualgen.editions.technician import Action, ActionRow
from manualgen.model.lab import ListedChemical, ShareBy, Sharing
from manualgen.preparation.action import action, class_called
from manualgen.preparation.apparatus import Pieces
from manualgen.preparation.authors import author_collects
from manualgen.preparation.bottles import bottles_for
from manualgen.preparation.filling import shown_name, true_name
from manualgen.preparation.needs import Need, Shape, is_at_hand
from manualgen.preparation.plan import Plan
from manualgen.preparation.putting_back import waste_bottles
from manualgen.preparation.words import Writer
from manualgen.quantities import printed


def set_out(plan: Plan, writer: Writer) -> Iterator[Action]:
    """One action for each class."""
    for n, sitting in enumerate(plan.order.sittings):
        heading = writer.say("set_out")
        if len(plan.order.sittings) > 1:
            called = class_called(plan.order, n, writer)
            heading = f"{heading}: {called}, {writer.groups(sitting.groups)}"
        rows = (*_chemicals(plan, n, writer), *_apparatus(plan, n, writer))
        yield action("set_out", rows, writer, heading)


def _chemicals(plan: Plan, n: int, writer: Writer) -> Iterator[ActionRow]:
    for solution in plan.solutions:
        for need in solution.needs:
            if need.sitting == n:
                name = shown_name(need, writer) or true_name(plan, solution, writer)
                yield _chemical(name, solution.code, need, writer)
    for supplied in plan.supplied:
        for need in supplied.needs:
            if need.sitting == n:
                name = shown_name(need, writer) or writer.solution(need.identity)
                yield _chemical(name, "", need, writer)
    yield from _waste(plan, n, writer)


def _waste(plan: Plan, n: int, writer: Writer) -> Iterator[ActionRow]:
    """The bottles that the manual names; where it names none, those of the routes."""
    words = waste_bottles(plan, n)
    if words and author_collects(plan.order.sittings[n], writer):
        what, how = writer.say("waste_bottles"), writer.say("waste_as_manual_says")
        yield ActionRow(what, how=(how,))
        return
    for each in words:
        what = writer.say("waste_bottle", words=writer.rule(each))
        yield ActionRow(what, "1", how=(writer.say("by_class", number=1),))


def _chemical(name: str, code: str, need: Need, writer: Writer) -> ActionRow:
    if is_at_hand(need.identity.chemical):
        return ActionRow(name, how=(writer.say("from_wash_bottles"),))
    listed = need.entry.listed
    if need.shape is Shape.PIECES:
        return _pieces(name, need, writer)
    bottles = bottles_for(need) if need.shape in _POURED else None
    number = bottles.number if bottles else need.portions
    return ActionRow(
        name,
        str(number),
        code,
        (
            ", ".join((_share(need, writer), *_each(need, writer))),
            *_purpose(listed, writer),
        ),
    )


_POURED = (Shape.SOLUTION, Shape.LIQUID)


def _each(need: Need, writer: Writer) -> Iterator[str]:
    if need.each is None:
        return
    match need.shape:
        case Shape.SOLID if need.entry.listed.weighed_out:
            yield writer.mass(need.each)
        case Shape.SOLID:
            yield writer.weight(need.each)
        case _:
            yield writer.about(need.each)


def _pieces(name: str, need: Need, writer: Writer) -> ActionRow:
    """Counted, or cut to a length: so many, and some to spare."""
    each = _whole(need)
    number, spare = need.portions * each, need.spare_portions * each
    counted = writer.say("and_spare", number=number, spare=spare)
    how = _share(need, writer)
    if need.amount is not None and need.entry.listed.shared is None:
        amount = writer.quantity(need.amount)
        how = writer.say("amount_each_group", amount=amount)
    purpose = _purpose(need.entry.listed, writer)
    return ActionRow(name, counted if spare else str(number), how=(how, *purpose))


def _whole(need: Need) -> int:
    return max(1, ceil(need.each)) if need.each else 1


def _share(need: Need, writer: Writer) -> str:
    shared = need.entry.listed.shared
    return _shared(shared, writer) if shared else writer.say("each_group", number=1)


def _shared(shared: Sharing, writer: Writer) -> str:
    name = "by_class" if shared.by is ShareBy.CLASS else "by_station"
    return writer.say(name, number=shared.number)


def _purpose(listed: ListedChemical, writer: Writer) -> Iterator[str]:
    if listed.for_disposal:
        yield writer.say("kept_for_disposal")
    if listed.for_spills:
        yield writer.say("kept_for_spills")
    if listed.weighed_out:
        yield writer.say("weighed_above")
    yield from listed.words


def _apparatus(plan: Plan, n: int, writer: Writer) -> Iterator[ActionRow]:
    for pieces in plan.apparatus:
        if pieces.sitting == n:
            yield ActionRow(
                ", ".join(_called(pieces, writer)),
                _counted(pieces, writer),
                how=(_for_each(pieces, writer), *pieces.listed.words),
            )


def _called(pieces: Pieces, writer: Writer) -> Iterator[str]:
    listed, house = pieces.listed, writer.wording.house
    yield listed.name
    if listed.capacity:
        yield printed(listed.capacity, house)
    if listed.glass_class:
        yield writer.say("glass_class", letter=listed.glass_class.value)
    if listed.resolution:
        graduation = printed(listed.resolution, house)
        yield writer.say("reading_to", graduation=graduation)


def _counted(pieces: Pieces, writer: Writer) -> str:
    if not pieces.spare:
        return str(pieces.count)
    return writer.say("and_spare", number=pieces.count, spare=pieces.spare)


def _for_each(pieces: Pieces, writer: Writer) -> str:
    listed = pieces.listed
    if listed.shared is None:
        return writer.say("each_group", number=listed.count)
    number = listed.count * listed.shared.number
    name = "by_class" if listed.shared.by is ShareBy.CLASS else "by_station"
    return writer.say(name, number=number)
