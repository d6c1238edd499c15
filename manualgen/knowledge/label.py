"""Label elements of hazard classes: signal word, pictograms, statements.

CLP Articles 20 and 26: one signal word, no pictogram that another makes
needless, no statement that another covers.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from manualgen.knowledge.hazard_class import HazardClass
from manualgen.knowledge.tables import Row, read_table

_TABLES: Final = {"fr": "statements-fr"}
"""The tables of statements in other languages."""


@dataclass(frozen=True, slots=True)
class Label:
    """What the classes put on a label."""

    signal_word: str | None
    """``Danger``, ``Warning`` or none."""
    pictograms: tuple[str, ...]
    h_statements: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ClassElements:
    """What one class puts on a label by itself."""

    pictogram: str | None
    signal: str | None
    prevention: tuple[str, ...]
    response: tuple[str, ...]
    storage: tuple[str, ...]
    disposal: tuple[str, ...]


def label_of(classes: Iterable[HazardClass]) -> Label:
    """The label of a substance or mixture of these classes.

    >>> from manualgen.knowledge.hazard_class import parse_class
    >>> label_of([parse_class("Skin Corr. 1B H314"), parse_class("STOT SE 3 H335")])
    Label(signal_word='Danger', pictograms=('GHS05', 'GHS07'), h_statements=('H314', 'H335'))
    """
    listed = tuple(classes)
    signals = {elements_of(c).signal for c in listed}
    signal = next((s for s in ("Danger", "Warning") if s in signals), None)
    statements = _printed({c.statement for c in listed})
    return Label(signal, _pictograms(listed), statements)


def elements_of(hazard: HazardClass) -> ClassElements:
    """The label elements of one class.

    Raises KeyError for a class that the table does not have.
    """
    return _elements()[hazard.name, hazard.statement]


def hazard_statements(language: str = "en") -> Mapping[str, str]:
    """The texts of the H and EUH statements, by code; see `statement_texts`."""
    return statement_texts("hazard_statements", language)


@lru_cache(maxsize=8)
def statement_texts(kind: str, language: str) -> Mapping[str, str]:
    """The statements of a kind in a language; in English where it has no table.

    A statement in a language that is not the manual's keeps its code before it,
    so that it can be looked up.
    """
    english = read_table("statements").row(kind)
    texts = {code: english.text(code) for code in english.cells}
    if language in _TABLES:
        translated = read_table(_TABLES[language]).row(kind)
        texts = {code: translated.text(code) for code in texts}
    elif language != "en":
        texts = {code: f"{code}: {text}" for code, text in texts.items()}
    return MappingProxyType(texts)


def classes_with(statement: str) -> tuple[HazardClass, ...]:
    """The classes that a statement can belong to, in the table's order."""
    return tuple(HazardClass(n, s) for n, s in _elements() if s == statement)


def statement_order(code: str) -> tuple[bool, str]:
    """H before EUH, each by number."""
    return code.startswith("EUH"), code


def _printed(statements: set[str]) -> tuple[str, ...]:
    """The statements as they are printed: merged, and none that another covers."""
    printed = set(statements)
    for rule in _table().rows("merged"):
        these = set(rule.texts("these"))
        if these <= printed:
            printed = printed - these | {rule.text("are")}
    for rule in _table().rows("precedence"):
        if rule.text("where") in printed:
            printed.discard(rule.text("hides"))
    return tuple(sorted(printed, key=statement_order))


def _pictograms(classes: Sequence[HazardClass]) -> tuple[str, ...]:
    reasons: dict[str, set[str]] = {}
    for hazard in classes:
        if (pictogram := elements_of(hazard).pictogram) is not None:
            reasons.setdefault(pictogram, set()).add(hazard.statement)
    present = set(reasons) | {c.statement for c in classes}
    needless = {p for p in reasons if _is_needless(p, reasons[p], present)}
    return tuple(sorted(set(reasons) - needless))


def _is_needless(pictogram: str, reasons: set[str], present: set[str]) -> bool:
    left = set(reasons)
    for rule in _table().rows("precedence"):
        if rule.text("hides") == pictogram and rule.text("where") in present:
            left -= set(rule.texts("reasons")) or left
    return not left


@lru_cache(maxsize=1)
def _table() -> Row:
    return read_table("statements")


@lru_cache(maxsize=1)
def _elements() -> dict[tuple[str, str], ClassElements]:
    found: dict[tuple[str, str], ClassElements] = {}
    for row in _table().rows("classes"):
        elements = ClassElements(
            row.text("pictogram") or None,
            row.text("signal") or None,
            row.texts("prevention"),
            row.texts("response"),
            row.texts("storage"),
            row.texts("disposal"),
        )
        for name in row.text("class").split("/"):
            for statement in row.text("statement").split("/"):
                found[name, statement] = elements
    return found
