"""Tables of what is needed, told by the heads of their columns."""

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
ITEMS = ("item", "apparatus", "chemicals")
_DANGERS = ("hazard", "risk", "control")
BLANK = re.compile(r"[\s–—−-]*|n/?a|none", re.IGNORECASE)
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
    kinds = (*ITEMS, "detail", *_DANGERS)
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
    if len(kinds) > 1 and kinds <= set(ITEMS):
        kinds = {"item"}
    kind = kinds.pop() if len(kinds) == 1 else None
    return Column(kind, unit) if kind else None


def says_whose(head: str) -> bool:
    """Whether a head says only who gets what stands below it: *Per class*."""
    return head.casefold().strip(" :.") in read_table("document_tables").texts("whose")


def _of_whom(whose: str, cell: str, here: Part) -> Line:
    """A cell of what each group gets; what a class shares, only the author can put down."""
    said = f"{whose.strip(' :')}: {cell}"
    found = [needed(thing, here) for thing in things_in(cell)]
    is_own = _share().fullmatch(whose.strip(" :."))
    if not is_own or any(thing.part is None for thing in found):
        return Line(said, (), said)
    return Line(said, tuple((t.part, t.entry) for t in found if t.part))


def parted_title(rows: Rows) -> tuple[str, Rows]:
    """A row of one cell above a table's heads, and the table below it."""
    title = [cell for cell in rows[0] if cell] if len(rows) > 2 else []
    is_title = len(title) == 1 and sum(map(bool, rows[1])) > 1
    return (title[0], rows[1:]) if is_title else ("", rows)


def lines_of_needs(rows: Rows, here: Part | None) -> tuple[Line, ...]:
    """The rows of a table of what is needed, or nothing where it is none.

    Its heads name an item and how much of it; or it stands ``here``, under a
    heading of needs, and has no heads but known things and what is told of them.
    """
    title, rows = parted_title(rows)
    head, *below = rows or ((),)
    columns = [column(cell) for cell in head]
    kinds = {c.kind for c in columns if c}
    if kinds & set(ITEMS) and "detail" in kinds and _is_filled(columns, below):
        lines = [_line(row, columns, here) for row in below if any(row)]
        said = " | ".join((title, *head) if title else head)
        first = [replace(line, words=f"{said}; {line.words}") for line in lines[:1]]
        return (*first, *lines[1:])
    if here and all(map(says_whose, head)):
        cells = [
            (head[n], row[n]) for n in range(len(head)) for row in below if row[n:]
        ]
        return tuple(_of_whom(whose, cell, here) for whose, cell in cells if cell)
    if here and not title and _is_bare(rows):
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
    cells = [cell for row in rows for cell in row[1:] if not BLANK.fullmatch(cell)]
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
        if c and c.kind in _DANGERS and not BLANK.fullmatch(cell)
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
    starts = [n for n, (_, c) in enumerate(pairs) if c and c.kind in ITEMS]
    if len(starts) == 1:
        starts = [0]
    for begin, end in zip(starts, [*starts[1:], len(pairs)], strict=True):
        group = [(t, c) for t, c in pairs[begin:end] if not BLANK.fullmatch(t)]
        kinds = {c.kind for _, c in pairs[begin:end] if c and c.kind in ITEMS}
        item = " ".join(t for t, c in group if c and c.kind in ITEMS)
        item = _METAL.sub(lambda m: m.group().lower(), item)
        details = [_with_unit(t, c) for t, c in group if c and c.kind == "detail"]
        beside = [t for t, c in group if c is None]
        details += [t for t in beside if _is_kept(t)]
        others = [t for t in beside if not _is_kept(t)]
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
