"""Precautionary statements: the *Response* line and the choice for a label."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from manualgen.knowledge.hazard_class import HazardClass
from manualgen.knowledge.label import elements_of, statement_texts
from manualgen.knowledge.tables import Row, read_table


@dataclass(frozen=True, slots=True)
class Precaution:
    """A precautionary statement, by its code, with the standard's words."""

    code: str
    text: str


def response_statements(classes: Iterable[HazardClass]) -> tuple[Precaution, ...]:
    """What to do when something has gone wrong, in the standard's number order.

    Statements of the classes present, without those that a stronger one covers.
    """
    codes = {code for c in classes for code in elements_of(c).response}
    return _in_order(codes - _covered(codes))


def label_statements(
    classes: Iterable[HazardClass], at_most: int = 6
) -> tuple[Precaution, ...]:
    """The statements for a label, the weightiest of all kinds (Article 28(3): six)."""
    codes: set[str] = set()
    for hazard in classes:
        e = elements_of(hazard)
        codes.update((*e.prevention, *e.response, *e.storage, *e.disposal))
    rank = _table().texts("label_rank")
    by_weight = sorted(
        codes - _covered(codes),
        key=lambda code: (rank.index(code) if code in rank else len(rank), code),
    )
    return _in_order(by_weight[:at_most])


def precautionary_statements(language: str = "en") -> Mapping[str, str]:
    """The texts of the P statements, by code; see `statement_texts`."""
    return statement_texts("precautionary_statements", language)


def _covered(codes: set[str]) -> set[str]:
    covers = _table().row("covers")
    return {less for code in codes if code in covers for less in covers.texts(code)}


def _in_order(codes: Iterable[str]) -> tuple[Precaution, ...]:
    texts = precautionary_statements()
    return tuple(Precaution(code, texts[code]) for code in sorted(codes, key=_number))


def _number(code: str) -> tuple[int, ...]:
    return tuple(int(n) for n in re.findall(r"\d+", code))


@lru_cache(maxsize=1)
def _table() -> Row:
    return read_table("statements")
