"""Balancing against textbooks and an independent program.

The entries of balancing.yaml name their sources; the program is the PyPI
package chempy. H3O^+ in an entry is compared as H^+ and water.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml
from chempy import balance_stoichiometry
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import (
    Equation,
    Formula,
    Uneven,
    balance,
    in_lowest_terms,
    is_balanced,
    is_lowest_terms,
    parse_equation,
    parse_formula,
    uneven_elements,
)
from manualgen.chemistry.conservation import scaled
from manualgen.chemistry.medium import Medium

SET = yaml.load(
    Path(__file__).with_name("balancing.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)
ENTRIES = {entry["id"]: entry for entry in SET["entries"]}
FLAGGED = {entry["id"]: entry for entry in SET["flagged"]}
SLIPS = {entry["id"]: entry for entry in SET["printed_slips"]}
BY_CHEMPY = [
    name
    for name, entry in ENTRIES.items()
    if "medium" not in entry["given"] and not entry["category"].startswith("half")
]

WATER = parse_formula("H2O")
HYDROGEN_ION = parse_formula("H^+")
HYDRONIUM = parse_formula("H3O^+")


def net_amounts(equation: Equation) -> dict[Formula, Fraction]:
    """What is used up (positive) and formed (negative), H3O^+ as H^+ and water."""
    net: dict[Formula, Fraction] = {}
    for sign, side in ((1, equation.reactants), (-1, equation.products)):
        for term in side:
            split = [term.formula]
            if term.formula == HYDRONIUM:
                split = [HYDROGEN_ION, WATER]
            for formula in split:
                net[formula] = net.get(formula, Fraction(0)) + sign * term.amount
    return {formula: amount for formula, amount in net.items() if amount}


def medium_of(entry: Mapping[str, Any]) -> Medium | None:
    word = entry["given"].get("medium", "").split()
    return {"acid": "acid", "base": "base"}.get(word[0]) if word else None  # type: ignore[return-value]


@pytest.mark.parametrize("name", ENTRIES)
def test_an_equation_of_the_set_comes_to_its_published_answer(name: str) -> None:
    entry = ENTRIES[name]
    skeleton = parse_equation(entry["given"]["skeleton"])
    is_half = entry["category"].startswith("half")
    found = balance(skeleton, medium_of(entry), half=is_half)
    published = parse_equation(entry["expected"]["equation"])
    assert found.status in ("balanced", "rebalanced")
    assert net_amounts(found.equation) == net_amounts(published)
    assert is_balanced(found.equation)
    assert is_lowest_terms(found.equation)


@pytest.mark.parametrize("name", ENTRIES)
def test_a_published_answer_is_balanced_as_it_stands(name: str) -> None:
    published = parse_equation(ENTRIES[name]["expected"]["equation"])
    assert balance(published).status == "balanced"


@pytest.mark.parametrize("name", BY_CHEMPY)
def test_an_independent_program_agrees(name: str) -> None:
    skeleton = parse_equation(ENTRIES[name]["given"]["skeleton"])
    ours = balance(skeleton).equation
    left, right = balance_stoichiometry(
        {_for_chempy(t.formula) for t in skeleton.reactants},
        {_for_chempy(t.formula) for t in skeleton.products},
    )
    assert left == {_for_chempy(t.formula): t.amount for t in ours.reactants}
    assert right == {_for_chempy(t.formula): t.amount for t in ours.products}


def _for_chempy(formula: Formula) -> str:
    """A formula in that program's own writing: ``Fe+2``, ``CuSO4..5H2O``."""
    text = str(formula).replace("·", "..")
    return re.sub(r"\^(\d*)([+-])$", r"\2\1", text)


def test_the_flagged_are_told_apart_as_impossible_and_ambiguous() -> None:
    statuses = {"cannot be balanced": "impossible", "not unique": "ambiguous"}
    found = {
        name: balance(parse_equation(entry["given"]["skeleton"])).status
        for name, entry in FLAGGED.items()
    }
    assert found == {
        name: statuses[entry["expected"]["status"]] for name, entry in FLAGGED.items()
    }


@pytest.mark.parametrize("name", ["BAL-N07", "BAL-N08"])
def test_an_ambiguous_equation_names_its_independent_reactions(name: str) -> None:
    entry = FLAGGED[name]
    found = balance(parse_equation(entry["given"]["skeleton"]))
    listed = [parse_equation(r) for r in entry["expected"]["independent_reactions"]]
    assert sorted(map(_sides, found.independent)) == sorted(map(_sides, listed))
    assert all(str(reaction) in str(found.message) for reaction in found.independent)


def _sides(equation: Equation) -> tuple[list[str], list[str]]:
    return sorted(map(str, equation.reactants)), sorted(map(str, equation.products))


def test_half_equations_settle_manganate_with_peroxide() -> None:
    entry = FLAGGED["BAL-N08"]
    answer = parse_equation(entry["expected"]["answer_with_half_equations"])
    skeleton = parse_equation(entry["given"]["skeleton"])
    suggestion = balance(skeleton).suggestion
    assert suggestion is not None
    assert net_amounts(suggestion) == net_amounts(answer)
    assert balance(answer).status == "balanced"


def test_a_species_on_both_sides_is_cancelled_in_the_suggestion() -> None:
    entry = FLAGGED["BAL-N10"]
    found = balance(parse_equation(entry["given"]["skeleton"]))
    cancelled = parse_equation(entry["expected"]["after_cancelling"])
    assert found.suggestion is not None
    assert net_amounts(found.suggestion) == net_amounts(cancelled)
    assert "H2O" in str(found.message)


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_of_a_printed_book_is_caught_where_it_is(name: str) -> None:
    entry = SLIPS[name]
    printed = parse_equation(entry["given"]["equation_as_printed"])
    assert not is_balanced(printed)
    assert balance(printed).status != "balanced"
    expected = dict(entry["expected"]["imbalance"])
    expected.pop("charge", None)
    off = {u.symbol: abs(u.left - u.right) for u in uneven_elements(printed)}
    assert off == {symbol: Fraction(n) for symbol, n in expected.items()}


@pytest.mark.parametrize("name", ["BAL-P01", "BAL-P02", "BAL-P05"])
def test_a_slip_in_a_coefficient_is_mended_as_the_book_meant_it(name: str) -> None:
    entry = SLIPS[name]
    mended = balance(parse_equation(entry["given"]["equation_as_printed"]))
    meant = parse_equation(entry["expected"]["corrected"])
    assert mended.status == "rebalanced"
    assert net_amounts(mended.equation) == net_amounts(meant)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        # Worked out by hand; the reasons are those a chemist would give.
        ("Mg + HCl -> MgCl2", "H stands only left of the arrow"),
        (
            "CaCl2 + NaF -> CaF2 + KCl",
            "Na stands only left of the arrow; K stands only",
        ),
        ("KClO3 -> KCl + O3 + MnO2", "Mn stands only right of the arrow"),
        ("CO2 -> CO + C", "only with C on the other side: CO2 + C -> 2 CO"),
        ("Cl2 -> Cl^-", "its charge is 0 on the left and 2- on the right"),
        ("H2 + O2 + H2O2 -> H2O + O3 + Ne", "Ne stands only right"),
        ("NaCl + KBr + KCl -> NaBr + KBr + NaCl", "can take no part"),
        ("FeS2 + HNO3 -> Fe2(SO4)3 + NO + H2SO4", "no coefficients make H even"),
        ("MnO4^- + Zn^+ -> Mn^2+ + Zn^2+", "O stands only left of the arrow"),
        ("MgO·xH2O -> MgO + H2", "no coefficients balance it for every x"),
    ],
)
def test_an_impossible_equation_is_explained(text: str, words: str) -> None:
    found = balance(parse_equation(text))
    assert found.status == "impossible"
    assert words in str(found.message)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        # What a reader would add: common practice, no source.
        ("CrO4^2- + H^+ -> Cr2O7^2-", "2 CrO4^2- + 2 H^+ -> Cr2O7^2- + H2O"),
        (
            "MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+",
            "MnO4^- + 5 Fe^2+ + 8 H^+ -> Mn^2+ + 5 Fe^3+ + 4 H2O",
        ),
        ("Fe^2+ -> Fe^3+", "Fe^2+ -> Fe^3+ + e^-"),
        ("H^+ + CO3^- -> CO2 + H2O", "2 H^+ + CO3^2- -> CO2 + H2O"),
        ("Ba^2+(aq) + SO4^-(aq) -> BaSO4(s)", "Ba^2+(aq) + SO4^2-(aq) -> BaSO4(s)"),
        (
            "Cu^2+(aq) + 2 OH^-(aq) -> Cu(OH)2^-(aq)",
            "Cu^2+(aq) + 2 OH^-(aq) -> Cu(OH)2(s)",
        ),
        ("Ag + Cl^- -> AgCl", "Ag^+ + Cl^- -> AgCl"),
        (
            "NaOH(aq) + H2SO4(aq) -> Na2SO4(aq)",
            "2 NaOH(aq) + H2SO4(aq) -> Na2SO4(aq) + 2 H2O(l)",
        ),
    ],
)
def test_what_was_left_out_is_suggested_with_its_state(text: str, meant: str) -> None:
    assert str(balance(parse_equation(text)).suggestion) == meant


@pytest.mark.parametrize(
    ("text", "medium", "answer"),
    [
        # Common practice, no source: standard electrode tables and titrations.
        ("Zn -> Zn^2+", "acid", "Zn -> Zn^2+ + 2 e^-"),
        (
            "MnO4^- + H2O2 -> Mn^2+ + O2",
            "acid",
            "2 MnO4^- + 5 H2O2 + 6 H^+ -> 2 Mn^2+ + 5 O2 + 8 H2O",
        ),
        (
            "MnO4^- + H2O2 -> MnO2 + O2",
            "base",
            "2 MnO4^- + 3 H2O2 -> 2 MnO2 + 3 O2 + 2 OH^- + 2 H2O",
        ),
        (
            "MnO4^-(aq) + C2O4^2-(aq) -> Mn^2+(aq) + CO2(g)",
            "acid",
            "2 MnO4^-(aq) + 5 C2O4^2-(aq) + 16 H^+(aq) -> "
            "2 Mn^2+(aq) + 10 CO2(g) + 8 H2O(l)",
        ),
        (
            "Al + OH^- -> [Al(OH)4]^- + H2",
            "base",
            "2 Al + 2 OH^- + 6 H2O -> 2 [Al(OH)4]^- + 3 H2",
        ),
    ],
)
def test_a_solution_supplies_its_ions_and_water(
    text: str, medium: Medium, answer: str
) -> None:
    found = balance(parse_equation(text), medium)
    assert found.status == "rebalanced"
    assert str(found.equation) == answer


def test_chlorine_in_alkali_stays_ambiguous_between_its_two_oxoanions() -> None:
    """Chlorate(I) forms in the cold, chlorate(V) when hot: common practice, no source."""
    text = "Cl2 + OH^- -> Cl^- + ClO^- + ClO3^-"
    found = balance(parse_equation(text), "base")
    assert found.status == "ambiguous"
    assert {str(reaction) for reaction in found.independent} == {
        "Cl2 + 2 OH^- -> Cl^- + ClO^- + H2O",
        "3 Cl2 + 6 OH^- -> 5 Cl^- + ClO3^- + 3 H2O",
    }


@pytest.mark.parametrize(
    ("text", "status", "answer"),
    [
        ("MgSO4·xH2O -> MgSO4 + x H2O", "balanced", None),
        ("MgSO4·xH2O -> MgSO4 + H2O", "rebalanced", "MgSO4·xH2O -> MgSO4 + x H2O"),
        (
            "Na2CO3·xH2O + HCl -> NaCl + CO2 + H2O",
            "rebalanced",
            "Na2CO3·xH2O + 2 HCl -> 2 NaCl + CO2 + (x+1) H2O",
        ),
        ("C2H4 -> (C2H4)n", "rebalanced", "n C2H4 -> (C2H4)n"),
        ("n C2H4 -> (C2H4)n", "balanced", None),
        (
            "2 MgSO4·xH2O -> 2 MgSO4 + 2x H2O",
            "rebalanced",
            "MgSO4·xH2O -> MgSO4 + x H2O",
        ),
        ("MgSO4·xH2O -> MgO + H2O", "impossible", None),
        ("MgSO4·xH2O + C -> MgSO4 + H2O + CO + CO2", "impossible", None),
    ],
)
def test_an_unknown_number_is_balanced_whatever_it_is(
    text: str, status: str, answer: str | None
) -> None:
    found = balance(parse_equation(text))
    assert found.status == status
    assert str(found.equation) == (answer or text)


def test_more_than_the_lowest_whole_numbers_are_brought_down() -> None:
    found = balance(parse_equation("4 H2(g) + 2 O2(g) -> 4 H2O(l)"))
    assert found.status == "rebalanced"
    assert str(found.equation) == "2 H2(g) + O2(g) -> 2 H2O(l)"
    assert "lowest whole numbers" in str(found.message)


def test_uneven_elements_are_counted_on_both_sides() -> None:
    """MgSO4·xH2O is counted at x = 1, the first number tried."""
    assert uneven_elements(parse_equation("Mg + HCl -> MgCl2 + H2")) == (
        Uneven("H", Fraction(1), Fraction(2)),
        Uneven("Cl", Fraction(1), Fraction(2)),
    )
    assert str(Uneven("H", Fraction(1), Fraction(2))) == "H 1 to 2"
    assert uneven_elements(parse_equation("MgSO4·xH2O -> MgSO4 + 2 H2O"))


answers = st.sampled_from(
    [parse_equation(entry["expected"]["equation"]) for entry in ENTRIES.values()]
)


@given(answers, st.fractions(Fraction(1, 12), 12, max_denominator=12))
def test_multiplying_an_equation_does_not_change_its_balance(
    equation: Equation, factor: Fraction
) -> None:
    multiplied = scaled(equation, factor)
    assert is_balanced(multiplied)
    assert in_lowest_terms(multiplied) == equation
    assert balance(multiplied).equation == equation


@given(answers, st.randoms(use_true_random=False))
def test_permuting_an_equation_does_not_change_its_balance(
    equation: Equation, random: Any
) -> None:
    left, right = list(equation.reactants), list(equation.products)
    random.shuffle(left)
    random.shuffle(right)
    bare = Equation(
        tuple(t.times(Fraction(1)) for t in left),
        tuple(t.times(Fraction(1)) for t in right),
    )
    turned = Equation(bare.products, bare.reactants)
    assert set(balance(bare).equation.terms) == set(equation.terms)
    assert set(balance(turned).equation.terms) == set(equation.terms)


SPECIES = parse_equation(
    "H2 + O2 + H2O + H2O2 + OH^- + H^+ + C + CO + CO2 + CH4 + N2 + NH3 -> "
    "NO + HNO3 + Fe + Fe^2+ + Fe^3+ + Fe2O3 + Fe3O4 + Cl2 + Cl^- + ClO^- + e^-"
).terms
species = st.sampled_from(SPECIES)
sides = st.lists(species, min_size=1, max_size=4, unique=True).map(tuple)


@given(answers, st.lists(st.integers(1, 20), min_size=12, max_size=12))
def test_coefficients_written_wrong_do_not_sway_the_answer(
    equation: Equation, wrong: list[int]
) -> None:
    numbers = iter(wrong)
    miswritten = Equation(
        tuple(t.times(Fraction(next(numbers))) for t in equation.reactants),
        tuple(t.times(Fraction(next(numbers))) for t in equation.products),
    )
    assert balance(miswritten).equation == equation


@given(sides, sides, st.sampled_from((None, "acid", "base")), st.booleans())
def test_balancing_always_answers_and_explains_what_it_cannot_do(
    left: tuple[Any, ...], right: tuple[Any, ...], medium: Medium | None, half: bool
) -> None:
    found = balance(Equation(left, right), medium, half=half)
    if found.status in ("balanced", "rebalanced"):
        assert is_balanced(found.equation)
    else:
        assert found.message
    for reaction in (*found.independent, *filter(None, [found.suggestion])):
        assert is_balanced(reaction)
