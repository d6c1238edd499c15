"""Fill: every bottle and pot, what its label says, and how it keeps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from manualgen.editions.technician import Action, ActionRow
from manualgen.knowledge import Classification, united
from manualgen.preparation.action import action, class_called, labelled
from manualgen.preparation.bottles import bottles_for
from manualgen.preparation.instructions import Instructions
from manualgen.preparation.making_actions import name_made
from manualgen.preparation.needs import Need, Shape, is_at_hand
from manualgen.preparation.plan import Plan, Supplied
from manualgen.preparation.rules import Keeping
from manualgen.preparation.solutions import Solution
from manualgen.preparation.words import Writer


def fill(plan: Plan, writer: Writer) -> Action:
    """What is filled from the solutions made, and from suppliers' bottles."""
    rows = [row for s in plan.solutions for row in _of_solution(plan, s, writer)]
    rows += [row for s in plan.supplied for row in _of_supplied(plan, s, writer)]
    return action("fill", rows, writer)


def shown_name(need: Need, writer: Writer) -> str:
    """What students read on the bottle of an unknown; empty for anything else."""
    shown = need.entry.listed.shown
    if shown is None or need.groups is None:
        return shown or ""
    first, last = need.groups
    if first == last:
        return writer.say("shown_group", shown=shown, first=first)
    return writer.say("shown_groups", shown=shown, first=first, last=last)


def label_hazards(need: Need, own: Classification | None) -> Classification | None:
    """What the label may say: of an unknown, all that it may be."""
    if need.groups is None:
        return own
    found = [i.classification for i in need.entry.identities]
    known = [f for f in found if f is not None]
    return united(known) if len(known) == len(found) else None


def true_name(plan: Plan, solution: Solution, writer: Writer) -> str:
    """A solution's name and strength, as far as making it fixes that."""
    if solution.making is None:
        return writer.solution(solution.identity)
    return name_made(Instructions(solution, solution.making, writer))


def keeping_words(keeping: Keeping, writer: Writer) -> Iterator[str]:
    """In what bottle a solution keeps, and how long."""
    if keeping.bottle:
        yield writer.say("kept_in", bottle=writer.rule(keeping.bottle))
    why, until = writer.rule(keeping.why), writer.rule(keeping.use_by)
    if keeping.on_the_day:
        yield writer.say("made_and_used", time=until, why=why)
    elif keeping.why:
        yield writer.say("use_within_why", time=until, why=why)
    elif keeping.use_by:
        yield writer.say("use_within", time=until)


def _of_solution(plan: Plan, solution: Solution, writer: Writer) -> Iterator[ActionRow]:
    name = true_name(plan, solution, writer)
    by_label = sorted(solution.needs, key=lambda n: shown_name(n, writer))
    for shown, group in groupby(by_label, key=lambda n: shown_name(n, writer)):
        needs = list(group)
        hazards = label_hazards(needs[0], solution.hazards)
        signal, pictograms, said = labelled(writer, hazards)
        how = [*_unknown(shown, needs[0], name, writer)]
        how += _bottled(plan, needs, writer)
        is_whole = needs[0].groups is None
        if is_whole:
            last = (*_rest(solution, writer), *keeping_words(solution.keeping, writer))
            how += [" ".join(last)]
        amount = writer.about(solution.making.volume) if solution.making else ""
        yield ActionRow(
            shown or name,
            amount if is_whole else "",
            solution.code,
            tuple(how),
            signal_word=signal,
            hazards=said,
            pictograms=pictograms,
        )


def _unknown(shown: str, need: Need, truth: str, writer: Writer) -> Iterator[str]:
    if shown:
        listed = need.entry.listed.shown
        yield writer.say("shown_as", shown=listed, truth=truth)


def _bottled(plan: Plan, needs: Sequence[Need], writer: Writer) -> Iterator[str]:
    for need in needs:
        bottles = bottles_for(need)
        if bottles is None:
            continue
        kind = "dropper" if need.dropping else "bottle"
        plural = "" if bottles.number == 1 else "s"
        filled = writer.say(
            f"{kind}{plural}_of",
            number=bottles.number,
            capacity=writer.volume(bottles.capacity),
            volume=writer.about(bottles.each),
        )
        yield _of_class(plan, need, filled, writer)


def _of_class(plan: Plan, need: Need, what: str, writer: Writer) -> str:
    """With the class named before it, where several come."""
    if len(plan.order.sittings) == 1:
        return what
    title = class_called(plan.order, need.sitting, writer)
    return writer.say("of_class", title=title, what=what)


def _rest(solution: Solution, writer: Writer) -> Iterator[str]:
    """What stays in the stock bottle when the class's bottles are filled."""
    making = solution.making
    if making is None:
        if solution.total is not None and solution.problem is not None:
            volume = writer.about(solution.total)
            why = solution.problem.told(writer.wording.say)
            yield writer.say("not_made", volume=volume, why=why)
        return
    filled = sum((n.portions * n.each for n in solution.needs if n.each), Fraction(0))
    served = (solution.total or filled) - _wanted(solution)
    rest = making.volume - filled - max(Fraction(0), served)
    if rest >= 1:
        yield writer.say("whole_rest", rest=writer.volume(Fraction(int(rest))))


def _wanted(solution: Solution) -> Fraction:
    """What the classes need of it, apart from what other solutions do."""
    return sum((n.total for n in solution.needs if n.total), Fraction(0))


def _of_supplied(plan: Plan, supplied: Supplied, writer: Writer) -> Iterator[ActionRow]:
    for need in supplied.needs:
        if not _is_filled(need):
            continue
        shown = shown_name(need, writer)
        name = writer.solution(supplied.identity)
        signal, pictograms, said = labelled(
            writer, label_hazards(need, supplied.identity.classification)
        )
        how = (*_unknown(shown, need, name, writer), *_given(plan, need, writer))
        amount = _amount(need, writer)
        yield ActionRow(
            shown or name,
            amount,
            how=how,
            signal_word=signal,
            hazards=said,
            pictograms=pictograms,
        )


def _is_filled(need: Need) -> bool:
    given_otherwise = need.entry.listed.weighed_out or need.shape is Shape.PIECES
    return not (given_otherwise or is_at_hand(need.identity.chemical))


def _amount(need: Need, writer: Writer) -> str:
    if need.total is None:
        return ""
    match need.shape:
        case Shape.SOLID:
            return writer.weight(need.total)
        case _:
            return writer.about(need.total)


def _given(plan: Plan, need: Need, writer: Writer) -> Iterator[str]:
    if need.shape is Shape.SOLID:
        yield _of_class(plan, need, _pots(need, writer), writer)
    else:
        yield from _bottled(plan, [need], writer)


def _pots(need: Need, writer: Writer) -> str:
    if need.each is None:
        return writer.say("pots_bare", number=need.portions)
    each = writer.weight(need.each)
    return writer.say("pots_each", number=need.portions, each=each)
