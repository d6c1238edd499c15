"""What to prepare, as a person reads it on a terminal and as programs do.

The JSON report's schema is data/schemas/prepare.json.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator

from manualgen.editions.technician import Action, ActionRow, TechnicianSheet
from manualgen.preparation.apparatus import Pieces, together
from manualgen.preparation.making import Making
from manualgen.preparation.needs import Shape
from manualgen.preparation.parts import parts_of
from manualgen.preparation.plan import Plan, Supplied
from manualgen.preparation.solutions import Solution
from manualgen.preparation.spreadsheet import as_csv
from manualgen.preparation.words import Writer
from manualgen.quantities.mend import typed
from manualgen.reports.amounts import Measure, hazards, measure, number, plain_strength

WIDTH = 88
_INDENT = "      "


def sheet_as_text(sheet: TechnicianSheet, writer: Writer) -> str:
    """The sheet by action, each with a box to tick."""
    say = writer.say
    head = " ".join(filter(None, (sheet.number, sheet.title)))
    lines = [head, " · ".join(sheet.facts), "", *_wrapped(say("deferring"), "")]
    if sheet.ask:
        lines += ["", say("ask").upper(), *_wrapped(say("ask_words"), "")]
        lines += [line for a in sheet.ask for line in _item("", f"{a.what}: {a.why}")]
    for note in sheet.notes:
        lines += ["", f"{say('notes_of_authors').upper()}: {note.title}"]
        lines += [line for text in note.lines for line in _wrapped(text, "  ")]
    for action in sheet.actions:
        lines += ["", *_action(action)]
    return "\n".join(line.replace("\u00a0", " ") for line in lines) + "\n"


def _action(action: Action) -> Iterator[str]:
    yield action.heading.upper()
    yield from _wrapped(action.words, "")
    for row in action.rows:
        amount = f": {row.amount}" if row.amount else ""
        yield from _item(row.code, f"{row.what}{amount}")
        said = _label(row)
        for text in (said, " ".join(row.how), " ".join(row.cautions)):
            yield from _wrapped(text, _INDENT)


def _item(code: str, text: str) -> list[str]:
    first = f"  [ ] {code} " if code else "  [ ] "
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=_INDENT)


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def sheet_as_csv(sheet: TechnicianSheet, writer: Writer) -> str:
    """One row for each thing to do; the notice stands in the last row."""
    say = writer.say
    heads = ("csv_action", "csv_code", "csv_what", "csv_amount", "csv_how")
    rows = [[say(head) for head in heads]]
    rows += [[say("ask"), "", asked.what, "", asked.why] for asked in sheet.ask]
    rows += [
        [action.heading, row.code, row.what, row.amount, _how(row)]
        for action in sheet.actions
        for row in action.rows
    ]
    return as_csv([*rows, ["", "", "", "", say("deferring")]])


def _how(row: ActionRow) -> str:
    return " ".join(filter(None, (_label(row), *row.how, *row.cautions)))


def _label(row: ActionRow) -> str:
    signal = f"{row.signal_word}:" if row.signal_word else ""
    return " ".join(filter(None, (signal, *row.hazards)))


def plan_as_json(plan: Plan, sheet: TechnicianSheet, writer: Writer) -> str:
    """The report of ``manualgen prepare --format json``."""
    sittings = plan.order.sittings
    report: dict[str, object] = {
        "version": 1,
        "groups": sum(s.groups for s in sittings),
        "spare_percent": number(plan.order.spare * 100),
        "experiments": list(dict.fromkeys(s.work.experiment.id for s in sittings)),
        "classes": list(_classes(plan)),
        "solutions": [_solution(s) for s in plan.solutions],
        "solids": [_supplied(s, "g") for s in plan.of_shape(Shape.SOLID)],
        "liquids": [_supplied(s, "cm3") for s in plan.of_shape(Shape.LIQUID)],
        "pieces": [_supplied(s, "1") for s in plan.of_shape(Shape.PIECES)],
        "apparatus": [_pieces(p) for p in together(plan.apparatus)],
        "ask": [{"what": a.what, "why": a.why} for a in sheet.ask],
        "actions": [_told(action) for action in sheet.actions],
        "notice": writer.say("deferring"),
    }
    return json.dumps(report, ensure_ascii=False, indent=2) + "\n"


def _classes(plan: Plan) -> Iterator[dict[str, object]]:
    for sitting in plan.order.sittings:
        experiment, part = sitting.work.experiment, None
        if sitting.part is not None:
            heading = parts_of(experiment)[sitting.part - 1]
            part = f"{heading.kind.value} {heading.label}"
        yield {"experiment": experiment.id, "groups": sitting.groups, "part": part}


def _solution(solution: Solution) -> dict[str, object]:
    identity, making = solution.identity, solution.making
    chemical = identity.chemical
    return {
        "code": solution.code,
        "name": identity.name,
        "formula": str(chemical.formula) if chemical and chemical.formula else None,
        "strength": plain_strength(identity.strength),
        "total_volume": measure(solution.total, "cm3"),
        "make_volume": _made(making),
        "mass": measure(making.mass, "g") if making else None,
        "stock_volume": _of_stock(solution),
        "makings": [measure(b.volume, "cm3") for b in making.batches] if making else [],
        "standardise": bool(making and making.standard),
        "diluted_from": _diluted_from(solution),
        "in": solution.solvent.name if solution.solvent else None,
        "shown": sorted({n.entry.listed.shown or "" for n in solution.needs} - {""}),
        "use_by": solution.keeping.use_by,
        "hazards": hazards(solution.hazards),
        "problem": str(solution.problem) if solution.problem else None,
    }


def _of_stock(solution: Solution) -> Measure | None:
    if solution.making is None or solution.stronger is not None:
        return None
    return measure(solution.making.stock, "cm3")


def _diluted_from(solution: Solution) -> dict[str, object] | None:
    if solution.making is None or solution.stronger is None:
        return None
    volume = measure(solution.making.stock, "cm3")
    return {"code": solution.stronger.code, "volume": volume}


def _made(making: Making | None) -> Measure | None:
    if making is None:
        return None
    in_litres = making.volume >= 1000
    volume = making.volume / 1000 if in_litres else making.volume
    return measure(volume, "dm3" if in_litres else "cm3")


def _supplied(supplied: Supplied, unit: str) -> dict[str, object]:
    identity = supplied.identity
    return {
        "name": identity.name,
        "strength": plain_strength(identity.strength),
        "total": measure(supplied.total, unit),
        "hazards": hazards(identity.classification),
    }


def _pieces(pieces: Pieces) -> dict[str, object]:
    listed = pieces.listed
    return {
        "name": listed.name,
        "capacity": typed(listed.capacity) if listed.capacity else None,
        "class": listed.glass_class.value if listed.glass_class else None,
        "count": pieces.count,
        "spare": pieces.spare,
        "shared": pieces.shared,
        "consumable": pieces.consumable,
    }


def _told(action: Action) -> dict[str, object]:
    return {
        "action": action.name,
        "heading": action.heading,
        "rows": [
            {
                "code": row.code,
                "what": row.what,
                "amount": row.amount,
                "how": list(row.how),
                "cautions": list(row.cautions),
            }
            for row in action.rows
        ],
    }
