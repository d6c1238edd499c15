"""Chemicals by their names: those that teachers write are common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry import formula_of, molar_mass, parse_formula
from manualgen.knowledge import (
    StatedHazards,
    StoreEntry,
    chemicals,
    classify,
    find_by_formula,
    find_chemical,
    parse_supply,
    store_of,
)
from manualgen.quantities import parse_quantity


@pytest.mark.parametrize(
    ("written", "substance"),
    [
        ("Sulphuric acid", "sulfuric acid"),
        ("sulphur dioxide", "sulfur dioxide"),
        ("copper sulphate", "copper(II) sulfate"),
        ("Copper (II) sulfate solution", "copper(II) sulfate"),
        ("copper(II) sulfate-5-water", "copper(II) sulfate"),
        ("copper(II) sulfate pentahydrate", "copper(II) sulfate"),
        ("hydrated iron(II) sulfate", "iron(II) sulfate"),
        ("anhydrous copper(II) sulfate", "copper(II) sulfate"),
        ("sodium carbonate-10-water", "sodium carbonate"),
        ("washing soda", "sodium carbonate"),
        ("dilute hydrochloric acid", "hydrochloric acid"),
        ("glacial acetic acid", "ethanoic acid"),
        ("solution of sodium hydroxide", "sodium hydroxide"),
        ("acidified potassium permanganate solution", "potassium manganate(VII)"),
        ("magnesium ribbon", "magnesium"),
        ("magnesium powder", "magnesium"),
        ("marble chips", "calcium carbonate"),
        ("NaOH", "sodium hydroxide"),
        ("H2SO4", "sulfuric acid"),
        ("Fehling’s solution A", "Fehling's solution A"),
        ("aluminum foil", "aluminium"),
        ("phenolphthalein indicator", "phenolphthalein"),
        ("0.880 ammonia", "aqueous ammonia"),
        ("potassium hydrogen phthalate", "potassium hydrogenphthalate"),
        ("Mohr's salt", "ammonium iron(II) sulfate"),
        ("distilled water", "water"),
    ],
)
def test_a_chemical_is_found_by_the_names_that_teachers_write(
    written: str, substance: str
) -> None:
    found = find_chemical(written)
    assert found is not None
    assert found.substance == substance


@pytest.mark.parametrize(
    "word", ["solution A", "unobtainium", "", "white solid", "the acid", "2 mol/dm3"]
)
def test_what_is_no_chemical_is_not_found(word: str) -> None:
    assert find_chemical(word) is None


def test_a_hydrate_that_is_named_brings_its_own_formula() -> None:
    for name, formula in [
        ("sodium carbonate", "Na2CO3"),
        ("sodium carbonate-10-water", "Na2CO3·10H2O"),
        ("copper(II) sulfate", "CuSO4·5H2O"),
        ("anhydrous iron(II) sulfate", "FeSO4"),
    ]:
        found = find_chemical(name)
        assert found is not None
        assert found.formula == parse_formula(formula)


def test_ammonia_and_its_solution_are_told_apart_by_state() -> None:
    formula = parse_formula("NH3")
    gas, solution = find_by_formula(formula, "g"), find_by_formula(formula, "aq")
    assert gas is not None
    assert solution is not None
    assert (gas.name, solution.name) == ("ammonia gas", "aqueous ammonia")


def test_a_formula_is_found_however_it_is_written() -> None:
    found = find_by_formula(parse_formula("C2H4O2"), "l")
    assert found is not None
    assert found.name == "ethanoic acid"


def test_isomers_are_not_taken_for_one_another() -> None:
    """C3H8O is propan-1-ol and propan-2-ol."""
    assert find_by_formula(parse_formula("C3H8O")) is None


def test_there_are_more_than_a_hundred_chemicals_each_with_a_source() -> None:
    assert len(chemicals()) >= 100
    for chemical in chemicals():
        assert chemical.source, chemical.name
        assert chemical.is_known, chemical.name


def test_no_two_chemicals_share_a_name() -> None:
    names = [name for c in chemicals() for name in (c.name, *c.also)]
    assert sorted(names) == sorted(set(names))


def test_every_ingredient_of_a_mixture_is_in_the_table() -> None:
    for chemical in chemicals():
        for ingredient in chemical.ingredients:
            assert find_chemical(ingredient.name) is not None, chemical.name


def test_every_cas_number_has_its_check_digit() -> None:
    """The last digit is the sum of the others times their place from the right, modulo 10."""
    for chemical in chemicals():
        if chemical.cas:
            *digits, check = [int(d) for d in chemical.cas if d != "-"]
            total = sum(n * d for n, d in enumerate(reversed(digits), 1))
            assert total % 10 == check, chemical.name


def test_formulas_agree_with_the_systematic_names_read_by_rule() -> None:
    """The reader of names knows nothing of this table; it writes sulfur S8."""
    for chemical in chemicals():
        by_rule = formula_of(chemical.name)
        if by_rule is None or chemical.formula is None or chemical.name == "sulfur":
            continue
        atoms = dict(chemical.formula.anhydrous.atoms)
        assert dict(by_rule.anhydrous.atoms) == atoms, chemical.name


def test_every_formula_has_a_molar_mass() -> None:
    for chemical in chemicals():
        if chemical.formula is not None:
            assert molar_mass(chemical.formula) > 0, chemical.name


STORE = store_of(
    [
        StoreEntry(
            "sodium hydroxide",
            formula="NaOH",
            supplied="pellets, purity 98 %, pack 500 g",
            also=("alkali pellets",),
            hazards=(
                StatedHazards(
                    "", None, ("H290", "H314"), "Danger", "data sheet, rev. 4"
                ),
                StatedHazards(
                    "up to 0.02 mol/dm3",
                    parse_quantity("0.02 mol/dm3"),
                    (),
                    None,
                    "data sheet",
                ),
            ),
            source="data sheet, rev. 4",
            disposal="sink",
        ),
        StoreEntry(
            "plant extract",
            hazards=(StatedHazards("", None, (), None, "assessed by the department"),),
        ),
        StoreEntry("copper(II) sulfate", supplied="CuSO4·5H2O, pack 1 kg"),
    ]
)


def test_the_store_goes_before_the_table_for_the_form_that_it_states() -> None:
    found = find_chemical("alkali pellets", STORE)
    assert found is not None
    assert found.substance == "sodium hydroxide"
    assert found.disposal == "sink"
    supplied = classify(found)
    assert supplied is not None
    assert supplied.h_statements == ("H290", "H314")
    assert supplied.signal_word == "Danger"


def test_outside_the_forms_that_the_store_states_the_table_stands() -> None:
    found = find_chemical("sodium hydroxide", STORE)
    assert found is not None
    weak = classify(found, parse_quantity("0.01 mol/dm3"))
    middling = classify(found, parse_quantity("0.4 mol/dm3"))
    assert weak is not None
    assert middling is not None
    assert weak.h_statements == ()
    assert weak.reason == "as the store states"
    # 0.4 x 39.997 / (10 x 1.016) = 1.57 %, between 0.5 and 2 %
    assert middling.h_statements == ("H315", "H319")


def test_a_chemical_of_the_store_alone_is_known() -> None:
    found = find_chemical("plant extract", STORE)
    assert found is not None
    known = classify(found)
    assert known is not None
    assert not known.is_classified


def test_the_form_that_the_store_keeps_is_read() -> None:
    found = find_chemical("copper sulfate", STORE)
    assert found is not None
    assert found.supply is not None
    assert found.supply.formula == parse_formula("CuSO4·5H2O")
    stock = parse_supply("37 % w/w, 1.18 g/cm3")
    assert stock.strength == parse_quantity("37 % w/w")
    assert stock.density == parse_quantity("1.18 g/cm3")
    assert parse_supply("2.00 mol/dm3").strength == parse_quantity("2.00 mol/dm3")
    pellets = parse_supply("pellets, purity 98 %, pack 500 g")
    assert pellets.formula is None
    assert pellets.purity == parse_quantity("98 %")
    assert pellets.pack == parse_quantity("500 g")


@given(st.text(max_size=60))
def test_no_text_makes_the_finder_fail(text: str) -> None:
    found = find_chemical(text)
    assert found is None or found.is_known
    assert parse_supply(text).words == text
