"""The lines of ``apparatus:``.

- 3 conical flasks, 250 cm3
- burette, 50 cm3, class B
- balance, reading to 0.01 g, 2 per class
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from manualgen.model.lab import GlassClass, ListedApparatus
from manualgen.model.nearest import nearest
from manualgen.quantities import QuantityError, parse_unit
from manualgen.quantities.kinds import kind_of
from manualgen.reading.entries import bounded, sharing_of
from manualgen.reading.faults import Faults
from manualgen.reading.stretch import Stretch
from manualgen.reading.values import read_quantity
from manualgen.reading.yaml_tree import Node, Scalar

WORDS = ("class A", "class B", "reading to", "per class", "per station")
_READING_TO = "reading to "
_COUNT = re.compile(r"(\d{1,3})\s+(?=\S)")
_NUMBER_FIRST = re.compile(r"[-−]?\.?\d")
_UNIT_FIRST = re.compile(r"(\S+)\s+(\S.*)")
_GLASS = {"class A": GlassClass.A, "class B": GlassClass.B}


def read_apparatus(
    nodes: tuple[Node, ...], faults: Faults
) -> tuple[ListedApparatus, ...]:
    """The entries that could be read; the others are noted."""
    found = []
    for node in bounded(nodes, faults):
        if not isinstance(node, Scalar):
            message = "a piece of apparatus is a line such as: beaker, 100 cm3"
            faults.syntax(node.place, message)
        elif node.text:
            found.append(_piece(node.stretch, faults))
    return tuple(found)


def _piece(text: Stretch, faults: Faults) -> ListedApparatus:
    name, *parts = text.split(", ")
    found = _COUNT.match(name.text)
    if not found:
        piece = ListedApparatus(name.text, text.place(), name.place())
        return _with_parts(piece, parts, faults)
    if capacity := _leading_capacity(name, found.end()):
        return _with_capacity_first(text, name, capacity, parts, faults)
    name = name.cut(found.end(), len(name.text))
    piece = ListedApparatus(name.text, text.place(), name.place(), int(found[1]))
    return _with_parts(piece, parts, faults)


def _leading_capacity(name: Stretch, start: int) -> Stretch | None:
    """``25 cm3`` of ``25 cm3 pipette``, where 25 would be read as a count."""
    found = _UNIT_FIRST.match(name.text, start)
    return name.cut(0, found.end(1)) if found and _is_unit(found[1]) else None


def _with_capacity_first(
    text: Stretch,
    name: Stretch,
    capacity: Stretch,
    parts: Iterable[Stretch],
    faults: Faults,
) -> ListedApparatus:
    """The piece as it was meant, though its capacity stands before its name."""
    called = name.cut(len(capacity.text), len(name.text)).strip()
    message = f"the capacity {capacity.text} stands behind the name"
    faults.syntax(name.place(), message, f"{called.text}, {capacity.text}")
    piece = ListedApparatus(called.text, text.place(), called.place())
    return _with_parts(piece, (capacity, *parts), faults)


@lru_cache(maxsize=512)
def _is_unit(word: str) -> bool:
    """Whether a word is a unit; a single letter might be anything, ``strips`` count."""
    try:
        unit = parse_unit(word)
    except QuantityError:
        return False
    return len(word) > 1 and kind_of(unit) != "count"


def _with_parts(
    piece: ListedApparatus, parts: Iterable[Stretch], faults: Faults
) -> ListedApparatus:
    for part in parts:
        piece = _with_part(piece, part, faults)
    return piece


def _with_part(
    piece: ListedApparatus, part: Stretch, faults: Faults
) -> ListedApparatus:
    """What the list says with one more part: a quantity, or words."""
    text = part.text
    if text in _GLASS:
        return replace(piece, glass_class=_GLASS[text])
    if text.startswith(_READING_TO):
        finest = part.cut(len(_READING_TO), len(text)).strip()
        return replace(piece, resolution=read_quantity(finest, faults))
    if shared := sharing_of(text):
        return replace(piece, shared=shared)
    if _NUMBER_FIRST.match(text):
        if piece.capacity:
            faults.syntax(part.place(), "a second capacity stands here")
        return replace(piece, capacity=read_quantity(part, faults))
    if near := nearest(text, WORDS):
        faults.unknown(part.place(), "word of an apparatus line", text, (near,))
        return piece
    return replace(piece, words=(*piece.words, text)) if text else piece
