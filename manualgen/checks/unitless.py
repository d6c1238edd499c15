"""Values that a sentence states of a quantity without their unit.

Judged is only the plainest sentence, *the activation energy is 52.*: the name
of a quantity that has a unit, a verb, and a number after which nothing comes. A
relative mass, a ratio of volumes and the logarithm of a concentration are plain
numbers, and so is a value that is supposed (*if the concentration is 1*).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from manualgen.checks.agreeing import with_article
from manualgen.checks.registry import Report, check
from manualgen.knowledge.stems import any_of
from manualgen.knowledge.tables import read_table
from manualgen.model.finding import Fault, Severity
from manualgen.model.walk import runs_of_text
from manualgen.working.prose import Prose, prose_of
from manualgen.working.worked import WorkedExperiment

_PLAIN_NUMBER = re.compile(
    r"\b(?:relative|ratios?|number|factor|logarithm|log|ln|powers?|order|times|per cent|"
    r"percentage|if|let|suppose|unless|where|in [a-zµ°/³\d ]+)\b",
    re.IGNORECASE,
)


_NUMBER = re.compile(r"\s[-−–]?\d+(?:[.,]\d+)?\s*(?:[.;,:!?)]|$)")
"""What every statement ends in, and most texts do not have."""


@dataclass(frozen=True, slots=True)
class Unitless:
    """A number without its unit, where it stands, and a unit that it could have."""

    start: int
    end: int
    number: str
    quantity: str
    unit: str


@check("unit-missing", Severity.WARNING)
def unit_missing(work: WorkedExperiment) -> Report:
    """A quantity that is stated in a sentence is stated with its unit."""
    for content, words in runs_of_text(work.experiment):
        if not _NUMBER.search(words) or not _statement().search(words):
            continue
        prose = prose_of(content, with_blanks=True)
        for found in unitless_in(prose):
            yield Fault(
                prose.place(found.start, found.end),
                f"{found.number} is {with_article(found.quantity)} without its unit",
                f"`{found.number} {found.unit}`, or the unit that it has",
            )


def unitless_in(prose: Prose) -> Iterator[Unitless]:
    """Every value in a text that lacks its unit; nought needs none."""
    for start, end in prose.sentences:
        for found in _statement().finditer(prose.text, start, end):
            before = prose.text[start : found.start("verb")]
            if not _PLAIN_NUMBER.search(before) and found["number"].strip("0.,"):
                name = " ".join(found["name"].casefold().replace("-", " ").split())
                unit = _units()[name]
                yield Unitless(*found.span("number"), found["number"], name, unit)


@cache
def _units() -> dict[str, str]:
    """The usual unit of each quantity, by its name."""
    rows = read_table("quantity_names").rows("names")
    return {row.text("name").replace("-", " "): row.text("unit") for row in rows}


@cache
def _statement() -> re.Pattern[str]:
    """A quantity, a verb and a number at the end of what is said."""
    return re.compile(
        rf"\b(?P<name>{any_of(_units())})(?:\s+(?:of|for)\s+[^.;,:!?()\d]{{1,60}}?)?"
        r"\s+(?P<verb>is|was|came to|comes to|equals|=)"
        r"(?:\s+(?:about|roughly|nearly|only|exactly|therefore|thus|then))?"
        r"\s+[-−–]?(?P<number>\d+(?:[.,]\d+)?)(?=\s*(?:[.;,:!?)](?:\s|$)|$))",
        re.IGNORECASE,
    )
