"""``chemicals.yaml`` and ``apparatus.yaml``: what the department keeps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from manualgen.model.manual import StoredApparatus, StoredChemical, StoredForm
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import STRENGTHS
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.span import note_bad_formula
from manualgen.reading.stretch import Stretch
from manualgen.reading.values import read_quantity
from manualgen.reading.yaml_tree import Mapping, Node, Scalar, Sequence

_CHEMICAL_KEYS = (
    "formula",
    "supplied",
    "also",
    "hazards",
    "signal",
    "source",
    "disposal",
)
_STOCK_KEYS = ("cas", "pack", "shelf", "reorder", "supplier", "note")
_APPARATUS_KEYS = ("also", "capacity", "resolution", "consumable")
_HAZARD = re.compile(r"(?:EUH|H)\d{3}[A-Za-z]{0,3}(?:\+H\d{3}[A-Za-z]{0,3})*")
_SIGNALS = ("Danger", "Warning")
_UP_TO = "up to "


def read_stored_chemicals(
    root: Node | None, faults: Faults
) -> Iterator[StoredChemical]:
    """The entries of chemicals.yaml."""
    for name, node in _entries(root, "sodium hydroxide:", faults):
        known = (*_CHEMICAL_KEYS, *_STOCK_KEYS)
        fields = Fields(node, known, faults, "of a stored chemical")
        yield _chemical(name, fields, faults)


def read_stored_apparatus(
    root: Node | None, faults: Faults
) -> Iterator[StoredApparatus]:
    """The entries of apparatus.yaml."""
    for name, node in _entries(root, "potometer:", faults):
        fields = Fields(node, _APPARATUS_KEYS, faults, "of a piece of apparatus")
        finest = fields.text("resolution")
        yield StoredApparatus(
            name.text,
            name.place(),
            tuple(text.text for text in fields.texts("also")),
            tuple(_capacities(fields, faults)),
            read_quantity(finest, faults) if finest else None,
            fields.flag("consumable"),
        )


def _entries(
    root: Node | None, sample: str, faults: Faults
) -> Iterator[tuple[Stretch, Mapping]]:
    """Each name with its keys; a name stands once."""
    if root is None:
        return
    if not isinstance(root, Mapping):
        faults.syntax(root.place, f"this file has names with keys, as in {sample}")
        return
    seen: set[str] = set()
    for key, value in root.pairs:
        if key.text.casefold() in seen:
            faults.note("duplicate-id", key.place, f"{key.text} stands here twice")
        seen.add(key.text.casefold())
        if isinstance(value, Mapping):
            yield key.stretch, value
        elif isinstance(value, Scalar) and not value.text:
            yield key.stretch, Mapping((), key.place)
        else:
            faults.syntax(value.place, f"{key.text} has keys of its own")


def _capacities(fields: Fields, faults: Faults) -> Iterator[Quantity]:
    for text in fields.texts("capacity"):
        if quantity := read_quantity(text, faults):
            yield quantity


def _chemical(name: Stretch, fields: Fields, faults: Faults) -> StoredChemical:
    formula, supplied = fields.text("formula"), fields.text("supplied")
    hazards = fields.node("hazards")
    chemical = StoredChemical(
        name.text,
        name.place(),
        formula.text if formula else None,
        formula.place() if formula else None,
        supplied.text if supplied else None,
        supplied.place() if supplied else None,
        tuple(text.text for text in fields.texts("also")),
        signal=fields.string("signal"),
        source=fields.string("source"),
        disposal=_disposal(fields.node("disposal"), faults),
        more=_stock(fields),
    )
    signal = fields.text("signal")
    if signal and signal.text not in _SIGNALS:
        faults.unknown(signal.place(), "signal word", signal.text, _SIGNALS)
    if formula:
        note_bad_formula(formula, faults)
    if hazards is None:
        return chemical
    if not chemical.source:
        message = "hazards of the department's own name their source"
        faults.syntax(
            hazards.place, message, "source: the supplier's safety data sheet"
        )
    return replace(chemical, hazards=tuple(_forms(hazards, faults)))


def _stock(fields: Fields) -> tuple[tuple[str, str], ...]:
    found = ((key, fields.string(key)) for key in _STOCK_KEYS)
    return tuple((key, value) for key, value in found if value)


_ROUTES = ("sink", "return", "bin", "neutralise, then sink")
_COLLECT = "collect:"


def _disposal(node: Node | None, faults: Faults) -> str | None:
    """A route; ``collect: WORDS`` may be typed as a mapping too."""
    match node:
        case None:
            return None
        case Mapping(pairs=((Scalar(text="collect"), Scalar(text=words)),)) if words:
            return f"{_COLLECT} {words}"
        case Scalar(text=route) if route in _ROUTES:
            return route
        case Scalar(text=route) if route.startswith(_COLLECT):
            return f"{_COLLECT} {route.removeprefix(_COLLECT).strip()}"
        case Scalar(text=route):
            known = (*_ROUTES, "collect: lead residues")
            faults.unknown(node.place, "disposal route", route, known)
        case _:
            faults.syntax(node.place, f"disposal is one of {', '.join(_ROUTES)}")
    return None


def _forms(node: Node, faults: Faults) -> Iterator[StoredForm]:
    """The hazards of the form supplied, or of each form that is named."""
    if not isinstance(node, Mapping):
        yield StoredForm("", None, tuple(_codes(node, faults)))
        return
    for key, value in node.pairs:
        upper = None
        if key.text.startswith(_UP_TO):
            limit = key.stretch.cut(len(_UP_TO), len(key.text)).strip()
            upper = read_quantity(limit, faults, STRENGTHS, "a strength")
        yield StoredForm(key.text, upper, tuple(_codes(value, faults)))


def _codes(node: Node, faults: Faults) -> Iterator[str]:
    for item in node.items if isinstance(node, Sequence) else (node,):
        if isinstance(item, Scalar) and _HAZARD.fullmatch(item.text):
            yield item.text
        elif not isinstance(item, Scalar) or item.text:
            message = "a hazard is an H-statement's code, such as H314"
            faults.syntax(item.place, message)
