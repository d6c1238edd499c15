"""Habits from other tools: steps by number, formulas between dollar signs.

*Repeat steps 4 to 9* is wrong as soon as there are six; a reference follows its step.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from manualgen.model.blocks import Step
from manualgen.model.experiment import SectionKind
from manualgen.model.finding import Fault
from manualgen.model.names import names_in
from manualgen.model.text import Words
from manualgen.model.walk import all_blocks, blocks_of, inlines_of, texts
from manualgen.working.prose import prose_of
from manualgen.working.worked import WorkedExperiment

_STEPS = re.compile(
    r"\bsteps? (?P<first>\d{1,2})(?:(?: ?[-–] ?| to | and | or )(?P<last>\d{1,2}))?\b"
    r"(?![.,]\d|[ -]?(?:%|ml|cm|g\b)| of\b| in the\b| on (?:the|your)\b)",
    re.IGNORECASE,
)
"""*Step 3 of the instrument's card* is none of this Method's."""

_DOLLARS = re.compile(
    r"\$(?P<inside>[^$\s][^$\n]*[_^\\][^$\n]*|\\[^$\n]+)(?<!\s)\$(?!\d)"
)
"""A price has neither index nor power."""
_COMMAND = re.compile(r"\\[a-z]+|[{}_]")
_UNLINKED = re.compile(r"(?P<text>\[[^\[\]]*\])?\s?\(#(?P<name>[\w-]+)\)")
_VALUE = re.compile(r"\bvalue of (?P<symbol>[A-Za-z]\w*)")
_MEND: Final = "[Step](#name), with [#name] at the end of the step that is meant"


def stale_steps(work: WorkedExperiment) -> Iterator[Fault]:
    """Each step that the text names by a number which no step of the Method has."""
    if work.experiment.section(SectionKind.METHOD) is None:
        return
    steps = sum(1 for _ in blocks_of(work.experiment, Step))
    for words in inlines_of(work.experiment, Words):
        for found in _STEPS.finditer(words.text):
            named = found["last"] or found["first"]
            if steps < int(named):
                message = f"there is no step {named}; the Method has {steps}"
                yield Fault(words.place.within(*found.span()), message, _MEND)


def foreign_mathematics(work: WorkedExperiment) -> Iterator[Fault]:
    """Each formula between dollar signs, which would print as it was typed."""
    if not any("$" in words.text for words in inlines_of(work.experiment, Words)):
        return
    for block in all_blocks(work.experiment):
        for content in texts(block):
            prose = prose_of(content)
            for found in _DOLLARS.finditer(prose.text):
                bare = _COMMAND.sub("", found["inside"]).strip()
                mend = (
                    f"`{bare}`" if bare[:1].isalpha() else "backticks, or a calculation"
                )
                message = "what stands between $ signs is not read, and prints as it is"
                yield Fault(prose.place(*found.span()), message, mend)


def unread_marks(work: WorkedExperiment) -> Iterator[Fault]:
    """Each cross-reference and each value that reads as plain words, and was meant as more."""
    for words in inlines_of(work.experiment, Words):
        for found in _UNLINKED.finditer(words.text) if "(#" in words.text else ():
            if found["name"] in names_in(work.experiment):
                message = "this cross-reference is read as words"
                mend = f"{found['text'] or '[Step]'}(#{found['name']})"
                yield Fault(words.place.within(*found.span()), message, mend)
        for found in _VALUE.finditer(words.text) if "value of" in words.text else ():
            # A symbol with an index is no word of a sentence.
            if "_" in found["symbol"] and found["symbol"] in work.numbers.names:
                message = "this value is read as words"
                yield Fault(words.place.within(*found.span()), message, f"`{found[0]}`")
