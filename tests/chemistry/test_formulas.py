"""Formulas: every writing of the format, and the refusals with their mends.

The writings are those that the format documents; the atoms were counted by
hand. The ambiguous charges are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from manualgen.chemistry import (
    Adduct,
    Atom,
    Bond,
    Formula,
    FormulaError,
    Group,
    elements,
    parse_formula,
)

SYMBOLS = tuple(elements())


@pytest.mark.parametrize(
    ("text", "canonical", "atoms", "charge"),
    [
        ("H2SO4", "H2SO4", {"H": 2, "S": 1, "O": 4}, 0),
        ("H₂SO₄", "H2SO4", {"H": 2, "S": 1, "O": 4}, 0),
        ("Na2CO3.10H2O", "Na2CO3·10H2O", {"Na": 2, "C": 1, "O": 13, "H": 20}, 0),
        ("Na₂CO₃·10H₂O", "Na2CO3·10H2O", {"Na": 2, "C": 1, "O": 13, "H": 20}, 0),
        ("CuSO4 · 5H2O", "CuSO4·5H2O", {"Cu": 1, "S": 1, "O": 9, "H": 10}, 0),
        ("CuCO3·Cu(OH)2", "CuCO3·Cu(OH)2", {"Cu": 2, "C": 1, "O": 5, "H": 2}, 0),
        ("CaSO4·½H2O", "CaSO4·½H2O", {"Ca": 1, "S": 1, "O": Fraction(9, 2), "H": 1}, 0),
        ("CaSO4.0.5H2O", "CaSO4·½H2O", {"Ca": 1, "S": 1, "O": 4.5, "H": 1}, 0),
        ("Fe4[Fe(CN)6]3", "Fe4[Fe(CN)6]3", {"Fe": 7, "C": 18, "N": 18}, 0),
        ("[Cu(NH3)4]^2+", "[Cu(NH3)4]^2+", {"Cu": 1, "N": 4, "H": 12}, 2),
        ("SO4^2-", "SO4^2-", {"S": 1, "O": 4}, -2),
        ("SO₄²⁻", "SO4^2-", {"S": 1, "O": 4}, -2),
        ("SO₄2−", "SO4^2-", {"S": 1, "O": 4}, -2),
        ("Fe²⁺", "Fe^2+", {"Fe": 1}, 2),
        ("Fe^{3+}", "Fe^3+", {"Fe": 1}, 3),
        ("Fe^+3", "Fe^3+", {"Fe": 1}, 3),
        ("Fe++", "Fe^2+", {"Fe": 1}, 2),
        ("Na+", "Na^+", {"Na": 1}, 1),
        ("Na^+", "Na^+", {"Na": 1}, 1),
        ("NH4+", "NH4^+", {"N": 1, "H": 4}, 1),
        ("NO3-", "NO3^-", {"N": 1, "O": 3}, -1),
        ("NO2+", "NO2^+", {"N": 1, "O": 2}, 1),
        ("Cl−", "Cl^-", {"Cl": 1}, -1),
        ("C60-", "C60^-", {"C": 60}, -1),
        ("e-", "e^-", {}, -1),
        ("e⁻", "e^-", {}, -1),
        ("CH2=CH2", "CH2=CH2", {"C": 2, "H": 4}, 0),
        ("HC≡CH", "HC≡CH", {"C": 2, "H": 2}, 0),
        ("CH3-CH3", "CH3-CH3", {"C": 2, "H": 6}, 0),
        ("[O]", "[O]", {"O": 1}, 0),
        ("HIn", "HIn", {"H": 1, "In": 1}, 0),
        ("In-", "In^-", {"In": 1}, -1),
        ("HA", "HA", {"H": 1, "A": 1}, 0),
        ("ROH", "ROH", {"R": 1, "O": 1, "H": 1}, 0),
    ],
)
def test_a_formula_is_read_in_each_of_its_writings(
    text: str, canonical: str, atoms: dict[str, int], charge: int
) -> None:
    formula = parse_formula(text)
    assert str(formula) == canonical
    assert dict(formula.atoms) == atoms
    assert formula.charge == charge


@pytest.mark.parametrize(
    ("text", "pretty"),
    [
        ("SO4^2-", "SO₄²⁻"),
        ("Na2CO3.10H2O", "Na₂CO₃·10H₂O"),
        ("[Fe(CN)6]^4-", "[Fe(CN)₆]⁴⁻"),
        ("MgSO4.xH2O", "MgSO₄·xH₂O"),
        ("CaSO4.0.5H2O", "CaSO₄·½H₂O"),
        ("(C2H4)n", "(C₂H₄)ₙ"),
        ("e-", "e⁻"),
        ("In-", "In⁻"),
    ],
)
def test_a_formula_is_printed_as_the_trade_prints_it(text: str, pretty: str) -> None:
    assert parse_formula(text).pretty == pretty
    assert parse_formula(pretty) == parse_formula(text)


@pytest.mark.parametrize(
    ("text", "likely", "other"),
    [
        ("Fe2+", "Fe^2+", "Fe2^+"),
        ("SO42-", "SO4^2-", "SO42^-"),
        ("O2-", "O^2-", "O2^-"),
        ("Cr2O72-", "Cr2O7^2-", "Cr2O72^-"),
        ("Hg22+", "Hg2^2+", "Hg22^+"),
        ("I3-", "I3^-", "I^3-"),
        ("N3-", "N^3-", "N3^-"),
        ("VO2+", "VO2^+", "VO^2+"),
        ("[Cu(NH3)4]2+", "[Cu(NH3)4]^2+", "[Cu(NH3)4]2^+"),
        ("C17H35-", "C17H35^-", "C17H3^5-"),
    ],
)
def test_a_charge_that_reads_two_ways_is_refused_with_both_readings(
    text: str, likely: str, other: str
) -> None:
    with pytest.raises(FormulaError) as caught:
        parse_formula(text)
    assert caught.value.suggestion == likely
    assert likely in caught.value.message
    assert other in caught.value.message


@pytest.mark.parametrize(
    ("text", "offending", "suggestion"),
    [
        ("Xx2O3", "Xx", None),
        ("Mg(OH", "(", None),
        ("Na2(CO3.10H2O", "(", None),
        ("Mg(OH))2", ")", None),
        ("Mg(OH]2", "]", None),
        ("naoh", "n", None),
        ("Na Cl", " ", None),
        ("Na*Cl", "*", None),
        ("H2SO4·", "·", None),
        ("Fe^2", "^2", None),
        ("Fe+2", "+2", "Fe^2+"),
        ("Na^25+", "^25+", None),
        ("Na+-", "+-", None),
        ("C02", "0", "CO2"),
        ("CuS04·5H2O", "0", "CuSO4·5H2O"),
        ("H20", "H20", "H2O"),
        ("CuSO4·5H20", "CuSO4·5H20", "CuSO4·5H2O"),
        ("CaSO4·0.7H2O", "0.7", None),
        ("CaSO4·1/0H2O", "1/0", None),
        ("C1234567", "1234567", None),
        ("A2O3", "A", None),
        ("e", "e", None),
    ],
)
def test_what_is_no_formula_is_refused_at_the_very_letters(
    text: str, offending: str, suggestion: str | None
) -> None:
    with pytest.raises(FormulaError) as caught:
        parse_formula(text)
    assert text[caught.value.start : caught.value.end] == offending
    assert caught.value.suggestion == suggestion


def test_offsets_count_from_the_start_of_the_text_with_its_blanks() -> None:
    with pytest.raises(FormulaError) as caught:
        parse_formula("  NaXx ")
    assert (caught.value.start, caught.value.end) == (4, 6)


@pytest.mark.parametrize("text", ["", "   ", "H" * 301, "(" * 50 + "H" + ")" * 50])
def test_nothing_the_endless_and_the_bottomless_are_refused(text: str) -> None:
    with pytest.raises(FormulaError):
        parse_formula(text)


def test_an_unknown_number_is_kept_as_its_letter_and_can_be_found_out() -> None:
    formula = parse_formula("MgSO4·xH2O")
    assert formula.unknown == "x"
    assert dict(formula.atoms) == {"Mg": 1, "S": 1, "O": 4}
    assert dict(formula.unknown_atoms) == {"H": 2, "O": 1}
    assert formula.with_unknown(7) == parse_formula("MgSO4·7H2O")
    assert formula.with_unknown(0) == parse_formula("MgSO4")


def test_a_polymer_repeats_its_unit_an_unknown_number_of_times() -> None:
    formula = parse_formula("(C2H4)n")
    assert formula.unknown == "n"
    assert dict(formula.with_unknown(3).atoms) == {"C": 6, "H": 12}


def test_a_hydrate_knows_its_anhydrous_salt() -> None:
    assert parse_formula("CuSO4·5H2O").anhydrous == parse_formula("CuSO4")


def test_stand_ins_agents_and_the_electron_are_told_from_substances() -> None:
    stand_ins = {"HIn", "In^-", "HA", "A^-", "ROH", "RCOOH"}
    agents = {"[O]", "[H]"}
    substances = {"In^3+", "InCl3", "In(SO4)2^-", "O", "[O]2", "H2O"}
    everything = stand_ins | agents | substances | {"e^-"}
    read = {text: parse_formula(text) for text in everything}
    assert {t for t, f in read.items() if f.is_stand_in} == stand_ins
    assert {t for t, f in read.items() if f.is_agent} == agents
    assert {t for t, f in read.items() if f.is_electron} == {"e^-"}


counts = st.integers(1, 400)
atoms = st.builds(Atom, st.sampled_from(SYMBOLS), counts)
bonds = st.builds(Bond, st.sampled_from(("-", "=", "≡")))


def _groups(parts: st.SearchStrategy[Group | Atom]) -> st.SearchStrategy[Group]:
    return st.builds(
        Group,
        st.sampled_from(("(", "[")),
        st.lists(parts, min_size=1, max_size=3).map(tuple),
        counts,
    )


parts = st.recursive(atoms, _groups, max_leaves=6)
bodies = st.lists(parts, min_size=1, max_size=4).map(tuple)
adducts = st.builds(
    Adduct,
    st.one_of(st.integers(1, 24), st.just(Fraction(1, 2)), st.just("x")),
    st.lists(atoms, min_size=1, max_size=3).map(tuple),
)
formulas = st.builds(
    Formula, bodies, st.integers(-8, 8), st.lists(adducts, max_size=2).map(tuple)
)


@given(formulas)
@example(Formula((Atom("In"),), -1))
@example(Formula((Atom("N"), Atom("H", 4)), 1))
def test_print_then_parse_is_the_identity(formula: Formula) -> None:
    mistyped_water = Atom("H", 20)
    if mistyped_water in (
        *formula.parts,
        *(p for a in formula.adducts for p in a.parts),
    ):
        return
    assert parse_formula(str(formula)) == formula
    assert parse_formula(formula.pretty) == formula


@given(st.dictionaries(st.sampled_from(SYMBOLS), counts, min_size=1), st.integers(2, 9))
def test_a_bracket_is_its_contents_repeated(
    contents: dict[str, int], times: int
) -> None:
    inside = "".join(f"{symbol}{count}" for symbol, count in contents.items())
    if inside == "H20":
        return
    once, repeated = parse_formula(inside), parse_formula(f"({inside}){times}")
    assert {s: n * times for s, n in once.atoms.items()} == repeated.atoms


@given(st.text(alphabet="HOeCuNa()[]{}0123456789+-−^·.=½xn ₂²⁺⁻", max_size=40))
@example("9" * 40)
def test_any_text_is_a_formula_or_refused_with_a_place_in_it(text: str) -> None:
    fault = _fault_in(text)
    assert fault is None or 0 <= fault.start <= fault.end <= len(text)


def _fault_in(text: str) -> FormulaError | None:
    try:
        parse_formula(text)
    except FormulaError as error:
        return error
    return None
