"""What all actions of a sheet have in common: their words, and what classes are called."""

from __future__ import annotations

from collections.abc import Iterable

from manualgen.editions.technician import Action, ActionRow
from manualgen.knowledge import Classification
from manualgen.preparation.needs import Order
from manualgen.preparation.parts import parts_of
from manualgen.preparation.words import Writer


def action(
    name: str,
    rows: Iterable[ActionRow],
    writer: Writer,
    heading: str = "",
    **put_in: str,
) -> Action:
    """An action of a name, its words taken from the table of that name."""
    say = writer.say
    return Action(
        name,
        heading or say(name),
        say(f"{name}_what"),
        say(f"{name}_amount"),
        say(f"{name}_how"),
        tuple(rows),
        say(f"{name}_words", **put_in),
    )


def labelled(
    writer: Writer, found: Classification | None
) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    """Signal word, pictograms, and what is said of the hazards."""
    pictograms = found.pictograms if found else ()
    said = (*writer.statements(found), *writer.advice(found))
    return writer.signal_word(found), pictograms, said


def class_called(order: Order, n: int, writer: Writer) -> str:
    """What the sheet calls a class: its experiment, the part, and if need be which."""
    sitting = order.sittings[n]
    experiment = sitting.work.experiment
    title = experiment.title
    if sitting.part is not None:
        part = parts_of(experiment)[sitting.part - 1]
        title = f"{title}, {writer.say(part.kind.value)} {part.label}"
    same = [k for k, s in enumerate(order.sittings) if _is_same(s.work, sitting.work)]
    if len(same) == 1:
        return title
    return writer.say("class_number", title=title, number=same.index(n) + 1)


def _is_same(one: object, other: object) -> bool:
    return one is other
