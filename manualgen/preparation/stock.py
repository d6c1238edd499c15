"""The stock list: what the year takes from the shelf, as a table."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from manualgen.knowledge import Chemical, Classification, classify, find_chemical
from manualgen.knowledge.names import key
from manualgen.model.manual import StoredChemical
from manualgen.preparation.needs import Shape, is_at_hand
from manualgen.preparation.plan import Plan
from manualgen.preparation.shelf import Start, StartKind
from manualgen.preparation.spreadsheet import as_csv
from manualgen.preparation.words import Writer
from manualgen.working.listed import Identity
from manualgen.working.worked import Worked

_HEADS = (
    "stock_chemical",
    "stock_formula",
    "stock_cas",
    "stock_supplied",
    "stock_pack",
    "stock_needed",
    "stock_hazards",
    "stock_used_in",
)


@dataclass(slots=True)
class _Stock:
    """A line of the list while it is being added up."""

    name: str
    chemical: Chemical | None
    supplied: str
    found: Classification | None
    unit: Shape
    needed: Fraction = Fraction(0)
    used_in: dict[str, None] = field(default_factory=dict)


def stock_list(worked: Worked, plans: Iterable[Plan], writer: Writer) -> str:
    """The year's stock list as CSV; the notice stands in its last row.

    Shelf, reorder level and whatever else the store says have columns of their own.
    """
    store = {key(stored.name): stored for stored in worked.manual.chemicals}
    more = tuple(dict.fromkeys(k for s in store.values() for k, _ in s.more))
    rows = [[*(writer.say(head) for head in _HEADS), *more]]
    for line in sorted(_lines(plans, writer), key=lambda x: x.name.casefold()):
        stored = _stored(line, store)
        kept = dict(stored.more) if stored else {}
        rows.append([*_row(line, stored, writer), *(kept.get(k, "") for k in more)])
    return as_csv([*rows, [writer.say("stock_deferring")]])


def _stored(line: _Stock, store: Mapping[str, StoredChemical]) -> StoredChemical | None:
    """The store's entry; of a solid it may have the bare name."""
    names = (line.chemical.name, line.name) if line.chemical else ()
    return next((store[k] for k in map(key, names) if k in store), None)


def _row(line: _Stock, stored: StoredChemical | None, writer: Writer) -> list[str]:
    chemical, found = line.chemical, line.found
    supply = chemical.supply if chemical else None
    pack = writer.quantity(supply.pack) if supply and supply.pack else ""
    formula = str(chemical.formula) if chemical and chemical.formula else ""
    codes = " ".join((*found.h_statements, *found.euh)) if found else "?"
    supplied = stored.supplied if stored and stored.supplied else line.supplied
    return [
        writer.rule(line.name),
        formula,
        chemical.cas or "" if chemical else "",
        supplied,
        pack,
        _needed(line, writer),
        codes,
        ", ".join(line.used_in),
    ]


def _needed(line: _Stock, writer: Writer) -> str:
    match line.unit:
        case Shape.SOLID:
            return writer.weight(line.needed)
        case Shape.PIECES:
            return str(round(line.needed))
        case _:
            return writer.about(line.needed)


def _lines(plans: Iterable[Plan], writer: Writer) -> Iterable[_Stock]:
    found: dict[tuple[str, Shape], _Stock] = {}
    for plan in plans:
        number = plan.order.sittings[0].work.number or ""
        for line in _of_plan(plan, writer):
            known = found.setdefault((line.name, line.unit), line)
            known.used_in[number] = None
            if known is not line:
                known.needed += line.needed
    return found.values()


def _of_plan(plan: Plan, writer: Writer) -> Iterator[_Stock]:
    store = plan.order.sittings[0].work.laboratory.store
    for solution in plan.solutions:
        making = solution.making
        if making is None:
            if solution.total:
                yield _bought(solution.identity, solution.total, Shape.LIQUID)
            continue
        if solution.stronger is not None:
            continue
        start = making.start
        is_solid = start.kind is StartKind.SOLID
        shape = Shape.SOLID if is_solid else Shape.LIQUID
        yield _started(start, making.taken, shape, writer)
        for batch in making.batches:
            for added in batch.also:
                chemical = find_chemical(added.name, store)
                unit = Shape.SOLID if added.mass is not None else Shape.LIQUID
                taken = added.mass or added.volume or Fraction(0)
                yield _added(added.name, chemical, taken, unit)
    for supplied in plan.supplied:
        if not is_at_hand(supplied.identity.chemical):
            yield _bought(supplied.identity, supplied.total, supplied.shape)


def _started(start: Start, taken: Fraction, shape: Shape, writer: Writer) -> _Stock:
    details = ", ".join(writer.details(start))
    return _Stock(start.called, start.chemical, details, start.hazards, shape, taken)


def _added(
    name: str, chemical: Chemical | None, taken: Fraction, unit: Shape
) -> _Stock:
    found = classify(chemical) if chemical else None
    return _Stock(name, chemical, "", found, unit, taken)


def _bought(identity: Identity, total: Fraction | None, shape: Shape) -> _Stock:
    chemical, strength = identity.chemical, identity.strength
    name = chemical.name if chemical else identity.name
    if isinstance(strength, str) and not name.startswith(strength):
        name = f"{strength} {name}"
    found = identity.classification
    return _Stock(name, chemical, "", found, shape, total or Fraction(0))
