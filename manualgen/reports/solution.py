"""How one solution is made and labelled, as text and as JSON.

The JSON report's schema is data/schemas/solution.json.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator

from manualgen.preparation.one_solution import WRITER, OneSolution
from manualgen.preparation.shelf import StartKind
from manualgen.quantities import Quantity
from manualgen.reports.amounts import hazards, measure, plain

_WIDTH = 88


def solution_as_text(one: OneSolution, volume: Quantity) -> str:
    """What to wear, what to do, how it keeps, what the label says."""
    name = f"{one.identity.name}, {plain(one.strength)}: {plain(volume)}"
    found = one.identity.classification
    label = [
        WRITER.signal_word(found),
        *WRITER.statements(found),
        *WRITER.advice(found),
    ]
    precautions = [f"{p.code} {p.text}" for p in one.precautions()]
    parts = (
        (WRITER.say("handle"), one.cautions()),
        (WRITER.say("dilute"), one.steps()),
        (WRITER.say("fill"), (*one.keeping(), *filter(None, label), *precautions)),
    )
    lines = [name, *textwrap.wrap(WRITER.say("deferring"), _WIDTH)]
    for heading, sentences in parts:
        if sentences:
            lines += ["", heading]
            lines += [line for s in sentences for line in _item(s)]
    return "\n".join(line.replace("\u00a0", " ") for line in lines) + "\n"


def _item(sentence: str) -> Iterator[str]:
    yield from textwrap.wrap(
        sentence, _WIDTH, initial_indent="  - ", subsequent_indent="    "
    )


def solution_as_json(one: OneSolution, volume: Quantity) -> str:
    """The report of ``manualgen solution --format json``."""
    making, chemical = one.making, one.chemical
    found = one.identity.classification
    percent = found.percent_ww if found else None
    is_solid = making.start.kind is StartKind.SOLID
    report = {
        "version": 1,
        "name": one.identity.name,
        "formula": str(chemical.formula) if chemical.formula else None,
        "strength": plain(one.strength),
        "volume": plain(volume),
        "from": "solid" if is_solid else "stock",
        "supplied": WRITER.start(making.start).replace("\u00a0", " "),
        "mass": measure(making.mass, "g"),
        "stock_volume": measure(making.stock, "cm3"),
        "percent_ww": None if percent is None else round(float(percent), 4),
        "hazards": hazards(found),
        "precautions": [p.code for p in one.precautions()],
        "standardise": making.standard is not None,
        "cautions": list(one.cautions()),
        "instructions": [s.replace("\u00a0", " ") for s in one.steps()],
        "keeping": list(one.keeping()),
        "notice": WRITER.say("deferring"),
    }
    return json.dumps(report, ensure_ascii=False, indent=2) + "\n"
