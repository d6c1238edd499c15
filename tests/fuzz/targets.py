"""What is fuzzed: each reader of text, with texts to try and what must hold of them.

A target's `run` takes any text at all.  It may refuse in the way that the reader
promises; any other exception is a fault.  `texts` makes texts that get further
than noise does: pieces of sound sources, cut and put together wrongly.
"""

from __future__ import annotations

import datetime
import string
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from hypothesis import strategies as st

from manualgen.adopting import AdoptError, adopted, text_document
from manualgen.adopting.proof import proved
from manualgen.build.edition import EditionName, files_of, lay_out_edition
from manualgen.build.stages import check, work_source
from manualgen.chemistry import (
    ChemistryError,
    formulas_of,
    is_equation_like,
    names_of,
    parse_formula,
    same_substance,
)
from manualgen.chemistry.equation_answer import equation_answer, equation_lines
from manualgen.chemistry.formula_answer import formula_answer, formula_lines
from manualgen.quantities import QuantityError, parse_quantity, parse_unit
from manualgen.quantities.answer import quantity_answer, quantity_lines
from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.expression import ExpressionError, written
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.refusals import DimensionError, UndefinedError
from manualgen.quantities.value import datum
from manualgen.reading import read_manual
from manualgen.reports.json_report import findings_as_json
from manualgen.reports.sarif import findings_as_sarif
from manualgen.reports.text import findings_as_text
from tests.closed.inspection import reaching_out
from tests.reading.shelf import Shelf

TODAY = datetime.date(2026, 9, 1)
CONTENT = Path(__file__).parents[2] / "content"
MANUAL = "title: T\nparts:\n  - title: P\n    experiments: [x]\n"


@dataclass(frozen=True, slots=True)
class Target:
    """A reader of text."""

    run: Callable[[str], object]
    texts: st.SearchStrategy[str]


def _pieces(*pieces: str, size: int = 30) -> st.SearchStrategy[str]:
    """Texts put together of these, of printable signs and of any at all."""
    piece = st.one_of(
        st.sampled_from(pieces),
        st.sampled_from(pieces),
        st.text(string.printable, max_size=4),
        st.text(max_size=3),
        st.sampled_from(pieces).flatmap(_repeated),
    )
    return st.lists(piece, max_size=size).map("".join)


def _repeated(piece: str) -> st.SearchStrategy[str]:
    return st.integers(2, 400).map(lambda times: piece * times)


def _lines(pattern: str) -> tuple[str, ...]:
    texts = (p.read_text(encoding="utf-8") for p in sorted(CONTENT.rglob(pattern)))
    return tuple(dict.fromkeys(chain.from_iterable(t.splitlines() for t in texts)))


def _documents(pattern: str, *more: str) -> st.SearchStrategy[str]:
    """Lines of the demonstration, in any order and cut anywhere."""
    line = st.sampled_from(_lines(pattern))
    cut = st.tuples(line, st.integers(0, 60)).map(lambda cut: cut[0][: cut[1]])
    either = st.one_of(line, line, line, cut, _pieces(*more, size=4))
    return st.lists(either, max_size=40).map("\n".join)


def read_any(text: str) -> None:
    """Reading alone, as an experiment and as each of the department's files."""
    names = ("x.md", "manual.yaml", "chemicals.yaml", "apparatus.yaml", "labels.yaml")
    read_manual(Shelf(dict.fromkeys(names, text)))


def whole(text: str) -> None:
    """All that a build does to a text, up to the pages, which stay closed."""
    source = Shelf({"manual.yaml": MANUAL, "x.md": text})
    worked = work_source(source, None, TODAY)
    findings = check(worked)
    findings_as_text(worked, findings)
    findings_as_json(worked, findings)
    findings_as_sarif(findings)
    for name in EditionName:
        edition = lay_out_edition(worked, name, pdf=False)
        for path, make in files_of(edition, lambda _: b"").items():
            if path.endswith(".html"):
                assert reaching_out(make().decode()) == []


def department(text: str) -> None:
    """A text as every one of the department's files, around a sound experiment."""
    sound = (CONTENT / "volumetric" / "vinegar.md").read_text(encoding="utf-8")
    names = ("chemicals.yaml", "apparatus.yaml", "labels.yaml")
    files = {"x.md": sound, **dict.fromkeys(names, text)}
    for manual in (MANUAL, MANUAL + text):
        worked = work_source(Shelf({**files, "manual.yaml": manual}), None, TODAY)
        findings_as_text(worked, check(worked))


def formula(text: str) -> None:
    """What a formula or a name stands for, and whether two are one."""
    formula_answer(text)
    formula_lines(text)
    try:
        read = parse_formula(text)
    except ChemistryError:
        return
    assert parse_formula(str(read)) == read
    names_of(read)


def name(text: str) -> None:
    """A name of a substance."""
    with suppress(ChemistryError):
        formulas_of(text)
    same_substance(text, parse_formula("NaCl"))
    formula_answer(text)


def equation(text: str) -> None:
    """An equation, in water, acid and alkali."""
    is_equation_like(text)
    for medium in (None, "acid", "base"):
        equation_answer(text, medium)
        equation_lines(text, medium)


def quantity(text: str) -> None:
    """A quantity, and a unit."""
    quantity_answer(text)
    quantity_lines(text)
    for parse in (parse_quantity, parse_unit):
        with suppress(QuantityError):
            parse(text)


VALUES = {
    symbol: datum(symbol, parse_quantity(value))
    for symbol, value in {
        "c": "0.1000 ± 0.0002 mol/dm3",
        "V": "25.00 ± 0.06 cm3",
        "m": "1.50 g",
        "T": "20 °C",
        "x": "3",
    }.items()
}


def expression(text: str) -> None:
    """An expression of a calculation: read, written again, and worked out."""
    with suppress(ExpressionError, UndefinedError, DimensionError):
        read = parse_expression(text)
        assert written(parse_expression(written(read))) == written(read)
        evaluate(read, Scope(VALUES))


def adopt(text: str) -> None:
    """Old notes, typed, marked and spoken, to drafts that can be read."""
    for file in ("notes.txt", "notes.md"):
        try:
            drafts = adopted(text_document(file, text), "notes")
        except AdoptError:
            continue
        for draft in drafts:
            proved(draft, "draft")


FORMULA = "H2O Na Cl ( ) [ ] ^2+ ^- ²⁻ · . *x x n 2 12 ½ (aq) (s) e- ₂ Uuo D [O] R R' "
WORDS = (
    "sodium iron (III) (II) copper sulfate sulphate per hydrogen carbonate di tri tetra "
    "hydrate hepta oxide acid -ic -ous ethanoic methyl prop an ol ene 1,2- water hypo"
)
QUANTITY = (
    "25.0 0.100 1e -5 e9999 × 10^ ± 0.05 (k=1) to - / . cm3 dm-3 dm^ mol µ m k g % °C K "
    "J w/v ppm vol ² ⁻¹ · 1:10 (pipette) = 000000 , ; ½ Ω"
)
EXPRESSION = (
    "c V m T x + - * / ^ ( ) sqrt( ln( log10( exp( abs( mean(t.V) M(NaCl) 9 99 1e99 0 "
    "(4.18 J/g/K) R F N_A . , − × ÷ 0.5 ^99 ^-99 a_b"
)
NOTES = (
    "Method Apparatus: 1. - * # > [00:10] 25cm3 H2SO4 acid and then add 5g | <b> ``` "
    "--- \n \n\n \t [_x_] **Answer:** Q1 (a) "
)
TARGETS = {
    "reader": Target(read_any, _documents("*.*", "[_", "_]", "&a", "!!x", "{", "\t")),
    "whole": Target(whole, _documents("*.md", "```", "`", "[_", "> **Note:**", "<b>")),
    "department": Target(department, _documents("*.yaml", "{", "[", "&a ", "? ")),
    "formula": Target(formula, _pieces(*FORMULA.split(" "))),
    "name": Target(name, _pieces(*WORDS.split(" "), " ")),
    "equation": Target(
        equation, _pieces(*FORMULA.split(" "), " + ", " -> ", " <=> ", "→", "3 ")
    ),
    "quantity": Target(quantity, _pieces(*QUANTITY.split(" "), " ")),
    "expression": Target(expression, _pieces(*EXPRESSION.split(" "), " ")),
    "adopt": Target(adopt, _pieces(*NOTES.split(" "), " ")),
}


def starting_texts(target: str) -> Iterator[str]:
    """Sound texts of a target's kind, from which a long run may begin."""
    if target in ("reader", "whole", "adopt"):
        for path in sorted(CONTENT.rglob("*.md")):
            yield path.read_text(encoding="utf-8")
    elif target == "department":
        for path in sorted(CONTENT.rglob("*.yaml")):
            yield path.read_text(encoding="utf-8")
    else:
        yield from _spans()


def _spans() -> Iterator[str]:
    for line in _lines("*.md"):
        yield from (span.strip() for span in line.split("`")[1::2])
