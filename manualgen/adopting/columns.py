"""Tables of what is needed and of what may go wrong, told by the heads of their columns."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TypeAlias

from manualgen.adopting.needs import things_in
from manualgen.adopting.qualities import qualities_in
from manualgen.adopting.spans import quantities_in, right_quantity
from manualgen.adopting.thing import (
    is_detail,
    known_thing,
    name_in,
    needed,
    quantities_of,
)
from manualgen.adopting.vocabulary import Part
from manualgen.knowledge import Form, find_apparatus, find_chemical
from manualgen.knowledge.tables import read_table

Rows: TypeAlias = tuple[tuple[str, ...], ...]
_ITEMS = ("item", "apparatus", "chemicals")
_DANGERS = ("hazard", "risk", "control")
_BLANK = re.compile(r"[\s–—−-]*|n/?a|none", re.IGNORECASE)
_MEMBERS = re.compile(r"\s*(?:/|,|&|\band\b|\bor\b)\s*", re.IGNORECASE)
_METAL = re.compile(r"^[A-Z][a-z]+(?=\([IV]+\)\s|-[a-z])")
"""*Copper(II)* and *Anti-bumping*, with the capital that begins a cell."""
_ENOUGH = 2
"""Rows that make a table without heads one of what is needed."""


@dataclass(frozen=True, slots=True)
class Column:
    """What stands in a column, and the unit that its head gives its figures."""

    kind: str
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """What a row of a table asks for: its words, its entries, and what is left."""

    words: str
    entries: tuple[tuple[Part, str], ...] = ()
    left: str = ""
    danger: str = ""
    """The hazard that stands beside it."""


@cache
def _heads() -> dict[str, str]:
    table = read_table("document_tables")
    kinds = (*_ITEMS, "detail", *_DANGERS)
    return {words: kind for kind in kinds for words in table.texts(kind)}


@cache
def _share() -> re.Pattern[str]:
    shares = "|".join(read_table("document_tables").texts("shares"))
    return re.compile(rf"\s*\(?\b(?:{shares})\)?$", re.IGNORECASE)


def column(head: str) -> Column | None:
    """What a column holds by its head, or None: *Volume / cm3* is a detail in cm3."""
    bare = " ".join(head.casefold().replace("’", "'").split()).strip(" :.")
    if bare in _heads():
        return Column(_heads()[bare])
    said = re.search(r"(?:/|\(|\bin\b)\s*([^/()]+?)\)?$", head)
    unit = said[1].strip() if said and right_quantity(f"1 {said[1].strip()}") else ""
    bare = bare[: said.start()] if said and unit else re.sub(r"\([^()]*\)", "", bare)
    bare = _share().sub("", bare.strip()) or bare.strip()
    kinds = {_heads().get(member.strip(" :.")) for member in _MEMBERS.split(bare)}
    if len(kinds) > 1 and kinds <= set(_ITEMS):
        kinds = {"item"}
    kind = kinds.pop() if len(kinds) == 1 else None
    return Column(kind, unit) if kind else None


def dangers_in(rows: Rows) -> tuple[str, ...]:
    """The rows of a table of risks in its own words, or nothing where it is none."""
    head, *below = rows or ((),)
    columns = [column(cell) for cell in head]
    kinds = {c.kind for c in columns if c}
    if "control" not in kinds or not kinds & {"hazard", "risk", *_ITEMS}:
        return ()
    return tuple(said for row in below if (said := _told(head, row)))


def _told(head: Sequence[str], row: Sequence[str]) -> str:
    cells = [
        f"{name.strip(' :.')}: {cell.rstrip(' .')}" if name.strip() else cell
        for name, cell in zip(head, row, strict=False)
        if not _BLANK.fullmatch(cell)
    ]
    return ". ".join(cells)


def steps_in_rows(rows: Rows) -> tuple[tuple[str, str], ...]:
    """The steps of a method set out in rows; with the first, the words of the heads.

    Beside them stand their numbers and boxes to be ticked alone; a table with
    other cells to be filled in stays a table.
    """
    head, *below = rows or ((),)
    table = read_table("document_tables")
    bare = [" ".join(cell.casefold().split()).strip(" :") for cell in head]
    doing = [n for n, cell in enumerate(bare) if cell in table.texts("doing")]
    beside = {*table.texts("number"), *table.texts("ticked")}
    is_beside = all(cell in beside for n, cell in enumerate(bare) if n not in doing)
    if len(doing) != 1 or len(bare) < 2 or not is_beside:
        return ()
    told = [row[doing[0]] for row in below if len(row) > doing[0] and row[doing[0]]]
    said = f"{' | '.join(head)}; {told[0]}" if told else ""
    return tuple((text, "" if n else said) for n, text in enumerate(told))


def lines_of_needs(rows: Rows, here: Part | None) -> tuple[Line, ...]:
    """The rows of a table of what is needed, or nothing where it is none.

    Its heads name an item and how much of it; or it stands ``here``, under a
    heading of needs, and has no heads but known things and what is told of them.
    """
    head, *below = rows or ((),)
    columns = [column(cell) for cell in head]
    kinds = {c.kind for c in columns if c}
    if kinds & set(_ITEMS) and "detail" in kinds and _is_filled(columns, below):
        lines = [_line(row, columns, here) for row in below if any(row)]
        said = " | ".join(head)
        first = [replace(line, words=f"{said}; {line.words}") for line in lines[:1]]
        return (*first, *lines[1:])
    if here and _is_bare(rows):
        bare = [Column("item"), *[Column("detail") for _ in rows[0][1:]]]
        return tuple(_line(row, bare, here) for row in rows if any(row))
    return ()


def _is_filled(
    columns: Sequence[Column | None], below: Sequence[Sequence[str]]
) -> bool:
    """Whether most rows tell how much: cells to be filled in are of results."""
    told = [
        any(
            c and c.kind == "detail" and cell
            for c, cell in zip(columns, row, strict=False)
        )
        for row in below
    ]
    return 2 * sum(told) > len(told)


def _is_bare(rows: Rows) -> bool:
    if len(rows) < _ENOUGH or max(map(len, rows)) < 2:
        return False
    known = sum(bool(row and known_thing(row[0])) for row in rows)
    cells = [cell for row in rows for cell in row[1:] if not _BLANK.fullmatch(cell)]
    return known == len(rows) and all(_is_told(cell) for cell in cells)


def _is_told(cell: str) -> bool:
    bare = _share().sub("", cell)
    return bool(re.fullmatch(r"\d{1,2}", bare)) or is_detail(bare)


def _line(
    row: Sequence[str], columns: Sequence[Column | None], here: Part | None
) -> Line:
    """A row as entries; two things beside each other are two groups of columns."""
    words = " | ".join(row)
    entries: list[tuple[Part, str]] = []
    left: list[str] = []
    dangers = [
        cell
        for cell, c in zip(row, columns, strict=False)
        if c and c.kind in _DANGERS and not _BLANK.fullmatch(cell)
    ]
    for item, part, details, others in _groups(row, columns, here):
        found, rest = _entries(item, part, details)
        entries += found
        if rest or others:
            left.append(", ".join([item, *rest, *others]) if item else others[0])
    danger = f"{row[0]}: {'. '.join(dangers)}" if dangers else ""
    return Line(words, tuple(entries), "; ".join(left), danger)


def _groups(
    row: Sequence[str], columns: Sequence[Column | None], here: Part | None
) -> Iterator[tuple[str, Part | None, list[str], list[str]]]:
    """Each thing of a row, its list, what is told of it and what else stands by."""
    pairs = list(zip(row, columns, strict=False))
    starts = [n for n, (_, c) in enumerate(pairs) if c and c.kind in _ITEMS]
    if len(starts) == 1:
        starts = [0]
    for begin, end in zip(starts, [*starts[1:], len(pairs)], strict=True):
        group = [(t, c) for t, c in pairs[begin:end] if not _BLANK.fullmatch(t)]
        kinds = {c.kind for _, c in pairs[begin:end] if c and c.kind in _ITEMS}
        item = " ".join(t for t, c in group if c and c.kind in _ITEMS)
        item = _METAL.sub(lambda m: m.group().lower(), item)
        details = [_with_unit(t, c) for t, c in group if c and c.kind == "detail"]
        others = [t for t, c in group if c is None]
        part = {"chemicals": Part.CHEMICALS, "apparatus": Part.APPARATUS}.get(
            kinds.pop() if len(kinds) == 1 else "", here
        )
        if group:
            yield item, part, details, others


def _with_unit(cell: str, head: Column) -> str:
    is_bare = head.unit and re.fullmatch(r"\d+(?:\.\d+)?", cell)
    return f"{cell} {head.unit}" if is_bare else cell


def _entries(
    item: str, part: Part | None, details: list[str]
) -> tuple[list[tuple[Part, str]], list[str]]:
    """The entries of a thing, and what is told of it that no entry can hold."""
    things = things_in(item) if item else ()
    told = [_share().sub("", cell) for cell in details]
    count = next((t for t in told if re.fullmatch(r"\d{1,2}", t)), "")
    kept = [t for t in told if t != count and (_is_kept(t) or _is_strength(item, t))]
    left = {count, *kept, *_known_form(item)}
    rest = [d for d, t in zip(details, told, strict=True) if t and t not in left]
    if len(things) > 1:
        return _of_several(things, part, kept, count, rest)
    lead = f"{count} " if count not in ("", "1") else ""
    found = [needed(", ".join([lead + t, *kept]), part) for t in things]
    if any(t.part is None for t in found) or (
        kept and not _is_held(found[0].entry, kept)
    ):
        return [], details or ([""] if things else [])
    return [(t.part, t.entry) for t in found if t.part], rest


def _known_form(item: str) -> tuple[str, ...]:
    """*Solid*, of what the tables know as a solid."""
    chemical = find_chemical(name_in(item))
    return ("solid",) if chemical and chemical.form is Form.SOLID else ()


def _is_kept(cell: str) -> bool:
    """Whether an entry of a list can hold a cell: quantities, or a word of strength."""
    strengths, amounts, rest = quantities_of(cell)
    return bool((strengths or amounts) and not rest) or qualities_in(cell)[1] == ""


def _is_strength(item: str, cell: str) -> bool:
    """Whether a cell is a short form of how strong a thing is: *conc.*."""
    before, _, said = needed(f"{item}, {cell}", Part.CHEMICALS).entry.rpartition(", ")
    return bool(before) and said != cell and qualities_in(said)[1] == ""


def _is_held(entry: str, kept: list[str]) -> bool:
    """Whether an entry has all the quantities of its cells."""
    wanted = sum(len(list(quantities_in(cell))) for cell in kept)
    return len(list(quantities_in(entry))) >= wanted


def _of_several(
    things: tuple[str, ...],
    part: Part | None,
    kept: list[str],
    count: str,
    rest: list[str],
) -> tuple[list[tuple[Part, str]], list[str]]:
    """*Pipette and filler, 25 cm3*: the size is that of the one that holds something."""
    holding = [t for t in things if (p := find_apparatus(name_in(t))) and p.holds]
    if kept and len(holding) != 1:
        return [], [*kept, *([count] if count else []), *rest]
    lead = f"{count} " if count not in ("", "1") else ""
    found = [
        needed(", ".join([lead + t, *(kept if t in holding else ())]), part)
        for t in things
    ]
    if any(t.part is None for t in found):
        return [], [*kept, *rest]
    return [(t.part, t.entry) for t in found if t.part], rest
