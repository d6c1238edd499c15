"""Names and formulas both ways.

The pairs of names.yaml name their sources; the law that every salt of two ions
of the table is read again from its name needs none.
"""

from __future__ import annotations

from importlib.resources import files
from itertools import product
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import (
    formula_of,
    formulas_of,
    is_name,
    known_ions,
    name_of,
    names_of,
    parse_formula,
)
from manualgen.chemistry.compounds import composition
from manualgen.chemistry.ions import Ion, anions, cations
from manualgen.chemistry.salts import salt

SET = yaml.load(
    Path(__file__).with_name("names.yaml").read_text(encoding="utf-8"),
    Loader=yaml.CBaseLoader,
)
BOTH = [(f, n) for row in SET["both"] for f, n in row.items() if f != "source"]
READS = [(n, f) for row in SET["reads"] for n, f in row.items() if n != "source"]
IN_WATER = [ion for ion in cations() if ion.in_water and str(ion.formula) != "H^+"]
PAIRS = [(c, a) for c, a in product(IN_WATER, anions()) if salt(c, a)]
READ_TWO_WAYS = ("NH4OH", "[Fe(CN)6]")
"""A weak base, and cyanides whose two metals can share the charges in two ways."""


@pytest.mark.parametrize(("formula", "name"), BOTH)
def test_a_substance_has_its_name_and_the_name_its_formula(
    formula: str, name: str
) -> None:
    assert name_of(parse_formula(formula)) == name
    assert str(formula_of(name)) == formula


@pytest.mark.parametrize(("name", "formula"), READS)
def test_older_and_other_names_are_read(name: str, formula: str) -> None:
    assert str(formula_of(name)) == formula


def test_every_salt_of_the_table_is_read_again_from_its_name() -> None:
    lost = []
    for cation, anion in PAIRS:
        formula = salt(cation, anion)
        assert formula is not None
        name = name_of(formula)
        if name is None or formula_of(name) != formula:
            lost.append((str(formula), name, str(formula_of(name or ""))))
    assert lost == []


@given(st.sampled_from(PAIRS), st.sampled_from([1, 2, 5, 6, 7, 9, 10, 12]))
def test_a_hydrate_is_read_again_from_its_name(
    pair: tuple[Ion, Ion], water: int
) -> None:
    made = salt(*pair)
    hydrate = parse_formula(f"{made}·{water}H2O")
    name = name_of(hydrate)
    assert name is not None
    assert formula_of(name) == hydrate


@given(pair=st.sampled_from(PAIRS))
def test_a_salt_is_neutral_and_splits_into_the_ions_it_was_made_of(
    pair: tuple[Ion, Ion],
) -> None:
    made = salt(*pair)
    assert made is not None
    if any(text in str(made) for text in READ_TWO_WAYS):
        return
    assert made.charge == 0
    assert set(known_ions(made)) == {pair[0].formula, pair[1].formula}


@given(st.text(max_size=200))
def test_any_text_is_looked_up_without_harm(text: str) -> None:
    assert is_name(text) in (True, False)
    assert all(isinstance(name, str) for f in formulas_of(text) for name in names_of(f))


def test_a_metal_of_several_charges_needs_its_stock_number() -> None:
    # OpenStax Chemistry 2e, section 2.7: the simple name "is ambiguous".
    assert formula_of("iron chloride") is None
    assert set(map(str, formulas_of("iron chloride"))) == {"FeCl2", "FeCl3"}


def test_the_form_that_everybody_means_goes_first() -> None:
    # Common practice, no source.
    assert str(formula_of("chlorine")) == "Cl2"
    assert str(formula_of("copper oxide")) == "CuO"
    assert str(formula_of("ammonia")) == "NH3"
    assert formula_of("tin chloride") is None
    assert formula_of("hydrogen arsenide") is None
    assert name_of(parse_formula("Fe")) == "iron"


def test_the_writing_of_a_formula_does_not_change_its_name() -> None:
    # Common practice, no source.
    for writing in ("NaC2H3O2", "NaCH3COO", "CH3CO2Na"):
        assert name_of(parse_formula(writing)) == "sodium ethanoate"
    assert name_of(parse_formula("HOCl")) == name_of(parse_formula("HClO"))


def test_isomers_are_not_named_from_their_atoms_alone() -> None:
    assert name_of(parse_formula("C2H6O")) is None
    assert name_of(parse_formula("CH3OCH3")) == "methoxymethane"
    assert name_of(parse_formula("CH3CH2OH")) == "ethanol"


def test_water_of_crystallisation_has_its_word_where_there_is_one() -> None:
    # IUPAC 2005, table IV (multiplicative prefixes), from memory.
    names = names_of(parse_formula("CaSO4·½H2O"))
    assert names[0] == "calcium sulfate hemihydrate"
    assert "copper(II) sulfate-5-water" in names_of(parse_formula("CuSO4·5H2O"))
    assert name_of(parse_formula("Al2(SO4)3·18H2O")) == (
        "aluminium sulfate octadecahydrate"
    )
    assert name_of(parse_formula("NaCl·30H2O")) is None
    assert name_of(parse_formula("MgSO4·xH2O")) is None
    assert name_of(parse_formula("CaCl2·6NH3")) is None
    assert formula_of("copper(II) sulfate manyhydrate") is None
    assert str(formula_of("sodium carbonate sesquihydrate")) == "Na2CO3·3/2H2O"
    assert formula_of("sulfate ion pentahydrate") is None


def test_ions_are_named_as_ions() -> None:
    assert name_of(parse_formula("SO4^2-")) == "sulfate ion"
    assert name_of(parse_formula("Fe^3+")) == "iron(III) ion"
    assert name_of(parse_formula("Fe^7+")) is None
    assert str(formula_of("ammonium")) == "NH4^+"
    assert str(formula_of("nitrate")) == "NO3^-"


def test_numbers_in_a_salts_name_must_be_those_of_its_formula() -> None:
    # Common practice, no source.
    assert formula_of("sodium dichloride") is None
    assert formula_of("disodium chloride") is None
    assert str(formula_of("iron trichloride")) == "FeCl3"
    assert str(formula_of("lead monoxide")) == "PbO"


def test_molecules_of_two_elements_have_number_prefixes() -> None:
    assert name_of(parse_formula("ICl3")) == "iodine trichloride"
    assert name_of(parse_formula("S4N4")) == "tetrasulfur tetranitride"
    assert name_of(parse_formula("C50H2")) is None
    assert name_of(parse_formula("ClBr3")) == "chlorine tribromide"
    assert name_of(parse_formula("XeHe")) is None


def test_a_name_of_any_length_is_answered() -> None:
    assert formula_of("sodium " * 100 + "chloride") is None


def test_what_is_unknown_has_neither_name_nor_formula() -> None:
    assert formula_of("unobtainium chloride") is None
    assert formula_of("a clear liquid") is None
    assert name_of(parse_formula("C7H3O9N2")) is None


def test_the_rows_of_the_tables_name_their_sources() -> None:
    for table in ("ions", "compounds", "solubility", "activity"):
        text = (files("manualgen") / "data" / f"{table}.yaml").read_text("utf-8")
        data = yaml.load(text, Loader=yaml.CBaseLoader)
        rows = [r for s in data.values() if isinstance(s, list) for r in s]
        assert rows
        assert {row["source"] for row in rows} <= data["sources"].keys()


def test_no_two_ions_share_a_name_or_a_formula() -> None:
    for table in (cations(), anions()):
        names = [name for ion in table for name in ion.names]
        assert len(names) == len(set(names))
        assert len({composition(ion.formula) for ion in table}) == len(table)
