"""An ``equation`` fence: one equation a line."""

from __future__ import annotations

from manualgen.chemistry import ChemistryError, parse_equation
from manualgen.model.fences import EquationBlock, EquationLine
from manualgen.reading.faults import Faults
from manualgen.reading.fences.head import Fence
from manualgen.reading.span import chemistry_refusal, note_refusal
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings

WORDS = ("answer", "to-balance", "with-ionic", "per-mole", "ionic", "half")


def read_equations(fence: Fence, around: Surroundings) -> EquationBlock:
    """The equations that could be read; the others are noted."""
    faults = around.faults
    said = _words(fence, faults)
    sources = list(fence.lines(faults))
    if not sources:
        faults.syntax(fence.place, "there is no equation in this block")
    lines = [line for source in sources if (line := _line(source, faults))]
    return EquationBlock(
        tuple(lines),
        fence.name,
        answer="answer" in said,
        to_balance="to-balance" in said,
        with_ionic="with-ionic" in said,
        per_mole="per-mole" in said,
        ionic="ionic" in said,
        half="half" in said,
        place=fence.place,
    )


def _words(fence: Fence, faults: Faults) -> set[str]:
    for word in fence.words:
        if word.text not in WORDS:
            faults.unknown(word.place(), "word after equation", word.text, WORDS)
    return {word.text for word in fence.words}


def _line(source: Stretch, faults: Faults) -> EquationLine | None:
    try:
        equation = parse_equation(source.text)
    except ChemistryError as error:
        refusal = chemistry_refusal(error, source.text, "source-syntax")
        note_refusal(refusal, source, faults)
        return None
    return EquationLine(equation, source.text, source.place())
