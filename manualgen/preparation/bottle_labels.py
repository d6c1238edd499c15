"""Labels: one for the stock bottle of each solution, small ones for the class's bottles."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from manualgen.editions.technician import BottleLabel, LabelSheet
from manualgen.knowledge import Classification, label_statements
from manualgen.knowledge.tables import Row, read_table
from manualgen.preparation.action import labelled
from manualgen.preparation.bottles import bottles_for
from manualgen.preparation.filling import label_hazards, shown_name
from manualgen.preparation.needs import Need, Shape, is_at_hand
from manualgen.preparation.plan import Plan
from manualgen.preparation.rules import Keeping
from manualgen.preparation.solutions import Solution
from manualgen.preparation.words import Writer
from manualgen.quantities import Quantity, printed_unit
from manualgen.working.listed import Identity

_POURED = (Shape.SOLUTION, Shape.LIQUID, Shape.SOLID)

_MOST_COPIES = 500
"""A slip of the pen in a list is not to print a million labels."""


def label_sheet(paper: str, *, small: bool) -> LabelSheet:
    """The trade's common sheet of labels for a paper size."""
    row = read_table("preparing").row("label_sheets").row(paper)
    size = row.row("small" if small else "large")
    return _sheet(size)


def _sheet(row: Row) -> LabelSheet:
    lengths = (row.text(key) for key in ("width", "height", "left", "top", "gap"))
    return LabelSheet(int(row.text("across")), int(row.text("down")), *lengths)


def stock_labels(plans: Iterable[Plan], writer: Writer) -> tuple[BottleLabel, ...]:
    """One label for each solution that is made, whoever it is for."""
    found: dict[tuple[str, str], BottleLabel] = {}
    for plan in plans:
        titles = " · ".join(dict.fromkeys(_titles(plan)))
        for solution in plan.solutions:
            label = _stock_label(solution, titles, writer)
            known = found.setdefault((label.name, label.strength), label)
            if known is not label:
                remark = f"{known.remark} · {titles}"
                found[label.name, label.strength] = replace(known, remark=remark)
    return tuple(sorted(found.values(), key=lambda x: (x.name.casefold(), x.strength)))


def class_labels(plan: Plan, writer: Writer) -> tuple[BottleLabel, ...]:
    """One label, with its copies, for each kind of bottle that a class is given."""
    made = [_class_label(n, s, writer) for s in plan.solutions for n in s.needs]
    bought = [
        _class_label(n, None, writer) for s in plan.supplied for n in s.needs if _has(n)
    ]
    return (*made, *bought)


def _titles(plan: Plan) -> Iterator[str]:
    for sitting in plan.order.sittings:
        experiment = sitting.work
        number = f"{experiment.number} " if experiment.number else ""
        yield number + experiment.experiment.title


def _has(need: Need) -> bool:
    """Whether it stands on the bench in a bottle or a pot that needs a label."""
    return need.shape in _POURED and not is_at_hand(need.identity.chemical)


def _stock_label(solution: Solution, titles: str, writer: Writer) -> BottleLabel:
    label = _label(solution.identity, solution.hazards, writer, solution.keeping)
    label = replace(label, remark=titles)
    return _about(label, solution, writer)


def _class_label(need: Need, solution: Solution | None, writer: Writer) -> BottleLabel:
    own = solution.hazards if solution else need.identity.classification
    shown = shown_name(need, writer)
    found = label_hazards(need, own)
    if shown and found:
        found = replace(found, sensitisers=())  # EUH208 would tell what it is
    keeping = solution.keeping if solution else None
    bottles = bottles_for(need) if need.shape is not Shape.SOLID else None
    copies = min(bottles.number if bottles else need.portions, _MOST_COPIES)
    label = replace(_label(need.identity, found, writer, keeping), copies=copies)
    if shown:
        return replace(label, name=shown, formula="", strength="", keeps="")
    return _about(label, solution, writer) if solution else label


def _about(label: BottleLabel, solution: Solution, writer: Writer) -> BottleLabel:
    """With room for the found value, where making it does not fix the strength."""
    strength, making = solution.identity.strength, solution.making
    if making is None or making.standard is None or not isinstance(strength, Quantity):
        return label
    return replace(
        label,
        strength=writer.about_strength(strength),
        found=printed_unit(strength.unit, writer.wording.house),
    )


def _label(
    identity: Identity,
    found: Classification | None,
    writer: Writer,
    keeping: Keeping | None,
) -> BottleLabel:
    chemical, formula = identity.chemical, ""
    if chemical and chemical.formula:
        formula = chemical.formula.anhydrous.pretty
    signal, pictograms, _ = labelled(writer, found)
    texts = writer.wording.precautionary_statements()
    chosen = label_statements(found.classes) if found else ()
    return BottleLabel(
        identity.name,
        formula,
        writer.strength(identity.strength),
        "",
        "",
        signal,
        pictograms,
        writer.statements(found),
        tuple(texts[p.code] for p in chosen),
        writer.advice(found),
        writer.rule(keeping.use_by) if keeping else "",
        1,
    )
