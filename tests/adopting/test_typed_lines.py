"""Lines as people type them: sums for equations, pluses in lists, numbers in words.

The notes are our own: common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.adopting import Draft, adopted, text_document
from manualgen.adopting.draft import Form, Place


def _draft(text: str) -> Draft:
    (draft,) = adopted(text_document("n.txt", f"Old sheet\n\n{text}\n"), "n")
    return draft


@pytest.mark.parametrize(
    ("line", "equation"),
    [
        ("ZnCO3 = ZnO + CO2", "ZnCO3 → ZnO + CO2"),
        ("MgO + 2HCl = MgCl2 + H2O", "MgO + 2HCl → MgCl2 + H2O"),
    ],
)
def test_a_sum_of_formulas_is_an_equation(line: str, equation: str) -> None:
    (block,) = _draft(line).section(Place.THEORY)
    assert (block.form, block.text) == (Form.EQUATION, equation)


@pytest.mark.parametrize("line", ["Total = A + B", "F = m a", "x = C2 + y", "C = N"])
def test_other_sums_are_none(line: str) -> None:
    draft = _draft(line)
    forms = {b.form for _, blocks in draft.blocks for b in blocks}
    assert forms == {Form.PARAGRAPH}


@pytest.mark.parametrize(
    ("needs", "apparatus", "chemicals"),
    [
        ("boiling tube + holder", ["boiling tube", "holder"], []),
        ("balance to 0.01 g", ["balance, reading to 0.01 g"], []),
        (
            "thermometer, reading to 0.5 °C",
            ["thermometer, reading to 0.5 °C"],
            [],
        ),
        ("thermometer 0 to 100 °C", ["thermometer"], []),
        ("tripod + gauze + mat", ["tripod", "gauze", "mat"], []),
        ("beaker, 5 g zinc oxide, zinc oxide", ["beaker"], ["zinc oxide, 5 g"]),
    ],
)
def test_two_pieces_joined_by_a_plus_are_two(
    needs: str, apparatus: list[str], chemicals: list[str]
) -> None:
    draft = _draft(f"You will need: {needs}")
    assert [e.text for e in draft.apparatus] == apparatus
    assert [e.text for e in draft.chemicals] == chemicals


@pytest.mark.parametrize(
    ("said", "steps"),
    [
        (
            "Make it up to the mark with distilled water, stopper and invert several times.",
            [
                "Make it up to the mark with distilled water.",
                "Stopper and invert several times.",
            ],
        ),
        (
            "Rinse the flask, stopper and funnel with water.",
            ["Rinse the flask, stopper and funnel with water."],
        ),
        ("Add naught point five grams of it.", ["Add `0.5 g` of it."]),
        (
            "Add 5 cm3 of the 2 mol dm–3 stuff.",
            ["Add `5 cm3` of the `2 mol dm-3` stuff."],
        ),
    ],
)
def test_steps_are_worded_as_they_are_meant(said: str, steps: list[str]) -> None:
    assert [b.text for b in _draft(said).section(Place.METHOD)] == steps
