"""`manualgen solution`: how one solution is made, and what is said when it cannot be."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from molmass import Formula as Molecule

from manualgen.cli import main
from tests.preparation.weighing import grams_of

Run = pytest.CaptureFixture[str]


def asked(name: str, strength: str, volume: str, *more: str) -> int:
    return main(["solution", name, "--strength", strength, "--volume", volume, *more])


def answer(name: str, strength: str, volume: str, out: Run) -> dict[str, Any]:
    assert asked(name, strength, volume, "--format", "json") == 0
    found = json.loads(out.readouterr().out)
    assert isinstance(found, dict)
    return found


SCHEMA = json.loads(
    files("manualgen.data").joinpath("schemas", "solution.json").read_text("utf-8")
)

SOLUTIONS = [
    ("sodium hydroxide", "0.100 mol/dm3", "1.00 dm3"),
    ("hydrochloric acid", "2.0 mol/dm3", "500 cm3"),
    ("copper(II) sulfate", "0.0500 mol/dm3", "250 cm3"),
    ("sulfuric acid", "0.10 mol/dm3", "100 cm3"),
    ("iodine", "0.0500 mol/dm3", "500 cm3"),
    ("ethanol", "70 % v/v", "1 dm3"),
    ("hydrogen peroxide", "20 vol", "500 cm3"),
    ("potassium iodide", "20 g/dm3", "5 dm3"),
]


@pytest.mark.parametrize(("name", "strength", "volume"), SOLUTIONS)
def test_the_json_answer_keeps_to_its_schema(
    name: str, strength: str, volume: str, capsys: Run
) -> None:
    found = answer(name, strength, volume, capsys)
    jsonschema.validate(found, SCHEMA)
    assert next(iter(found)) == "version"
    assert (found["mass"] is None) != (found["stock_volume"] is None)


def test_the_contracts_own_example(capsys: Run) -> None:
    # The contract's figures; by hand, 0.1 mol of NaOH at 40.00 g/mol is 4.00 g.
    found = answer("sodium hydroxide", "0.100 mol/dm3", "1.00 dm3", capsys)
    assert found["strength"] == "0.100 mol/dm³"
    assert found["volume"] == "1.00 dm³"
    assert found["from"] == "solid"
    assert found["mass"] == {"value": pytest.approx(4.00, abs=0.005), "unit": "g"}
    assert found["percent_ww"] == pytest.approx(0.40, abs=0.005)
    assert found["hazards"]["statements"] == []


@pytest.mark.parametrize(
    ("name", "as_weighed", "strength", "volume_cm3"),
    [
        ("sodium thiosulfate", "Na2S2O3(H2O)5", "0.100", 500),
        ("potassium dichromate", "K2Cr2O7", "0.0200", 250),
        ("ammonium chloride", "NH4Cl", "1.00", 2000),
        ("zinc sulfate", "ZnSO4(H2O)7", "0.500", 500),
        ("sodium carbonate", "Na2CO3", "0.0500", 1000),
        ("potassium iodate(V)", "KIO3", "0.0500", 250),
        ("calcium chloride", "CaCl2", "0.200", 500),
        ("iron(III) chloride", "FeCl3(H2O)6", "0.100", 500),
    ],
)
def test_a_mass_is_what_molmass_works_out_of_what_is_said_to_be_weighed(
    name: str, as_weighed: str, strength: str, volume_cm3: int, capsys: Run
) -> None:
    found = answer(name, f"{strength} mol/dm3", f"{volume_cm3} cm3", capsys)
    expected = grams_of(as_weighed, float(strength), volume_cm3)
    assert found["mass"]["value"] == pytest.approx(expected, abs=0.006, rel=3e-4)


@pytest.mark.parametrize(
    ("strength", "volume", "water_cm3", "stock_cm3"),
    [
        # Two thirds of the water first, in steps of 10 cm³ (common practice, no
        # source); the stock by c₁V₁ = c₂V₂ with 98 % w/w and 1.84 g/cm³, by hand.
        ("1.0 mol/dm3", "1 dm3", 650, 54.5),
        ("2.0 mol/dm3", "250 cm3", 150, 27),
    ],
)
def test_acid_goes_into_two_thirds_of_the_water_and_cools_before_the_mark(
    strength: str, volume: str, water_cm3: int, stock_cm3: float, capsys: Run
) -> None:
    found = answer("sulfuric acid", strength, volume, capsys)
    told = " ".join(found["instructions"])
    water, acid = told.index("in cold water"), told.index("concentrated sulfuric")
    cool, made_up = told.index("cool to room temperature"), told.index("Only then")
    assert water < acid < cool < made_up
    assert f"about {water_cm3} cm³ of water" in told
    assert f"Measure {stock_cm3:g} cm³" in told
    assert "face shield" in " ".join(found["cautions"])


@pytest.mark.parametrize(
    "name", ["hydrochloric acid", "nitric acid", "ammonia solution"]
)
def test_what_fumes_is_poured_in_the_fume_cupboard(name: str, capsys: Run) -> None:
    found = answer(name, "1.0 mol/dm3", "500 cm3", capsys)
    assert "Fume cupboard." in found["cautions"]


def test_less_than_5_cm3_of_stock_goes_by_way_of_a_first_dilution(capsys: Run) -> None:
    # By hand: 0.1 mol in 1 dm³ is 10 mmol in 100 cm³, of 18.39 mol/dm³ 0.54 cm³;
    # so 10 cm³ are made up to 100 cm³, and of that 5.4 cm³ are taken.
    found = answer("sulfuric acid", "0.10 mol/dm3", "100 cm3", capsys)
    told = " ".join(found["instructions"])
    assert "Dilute it one in ten first" in told
    assert "Measure 10 cm³ of concentrated sulfuric acid" in told
    assert "Measure 5.4 cm³ of the first solution" in told


def test_hardly_any_of_a_solid_is_weighed_for_a_stronger_solution(capsys: Run) -> None:
    # By hand: 0.0100 mol/dm³ potassium chloride, 100 cm³ is 0.0746 g; ten times as
    # much in 100 cm³, of which 10 cm³ are taken.
    found = answer("potassium chloride", "0.0100 mol/dm3", "100 cm3", capsys)
    told = " ".join(found["instructions"])
    assert "Weigh 0.75 g of potassium chloride" in told
    assert "10 cm³ of the first solution with a 10 cm³ pipette" in told


def test_of_silver_no_stronger_solution_is_thrown_away(capsys: Run) -> None:
    # By hand: 50 cm³ of 0.0500 mol/dm³ at 169.87 g/mol is 0.4247 g.
    found = answer("silver nitrate", "0.0500 mol/dm3", "50 cm3", capsys)
    told = " ".join(found["instructions"])
    assert (
        "Weigh 0.425 g of silver nitrate, AgNO₃, on a balance reading to 0.001 g"
        in told
    )
    assert "first" not in told


def test_no_stronger_solution_is_asked_for_than_dissolves(capsys: Run) -> None:
    # Benzoic acid: 2.9 g in 1 dm³ at 20 °C (handbooks, from memory); ten times
    # 0.00500 mol/dm³ at 122.12 g/mol would be 6.1 g in 1 dm³.
    found = answer("benzoic acid", "0.00500 mol/dm3", "100 cm3", capsys)
    told = " ".join(found["instructions"])
    assert "Weigh 0.061 g of benzoic acid" in told


def test_what_is_no_primary_standard_is_about_right_and_its_found_value_written(
    capsys: Run,
) -> None:
    found = answer("sodium thiosulfate", "0.100 mol/dm3", "1 dm3", capsys)
    told = " ".join(found["instructions"])
    assert found["standardise"] is True
    assert "Standardise it against potassium iodate(V)" in told
    assert "Write the found value and the date on every label." in told


@pytest.mark.parametrize(
    ("name", "strength", "standard", "moles"),
    [
        # One to one; carbonate takes two of a monobasic acid; MnO4⁻ 5 C2O4²⁻ : 2; an
        # iodate sets free three iodine, which take six thiosulfate.
        ("sodium hydroxide", "0.100 mol/dm3", "C8H5KO4", 1),
        ("hydrochloric acid", "0.500 mol/dm3", "Na2CO3", 2),
        ("sulfuric acid", "0.500 mol/dm3", "Na2CO3", 1),
        ("potassium manganate(VII)", "0.100 mol/dm3", "Na2C2O4", 0.4),
        ("sodium thiosulfate", "0.500 mol/dm3", "KIO3", 6),
    ],
)
def test_the_found_strength_follows_from_a_mass_and_a_titre_alone(
    name: str, strength: str, standard: str, moles: float, capsys: Run
) -> None:
    found = answer(name, strength, "1 dm3", capsys)
    told = " ".join(found["instructions"])
    factor = re.search(r"is ([\d.]+) × the mass", told)
    assert factor
    expected = 1000 * moles / Molecule(standard).mass
    assert float(factor[1]) == pytest.approx(expected, rel=2e-4)
    mass = re.search(r"about ([\d.]+) g of it", told)
    assert mass
    titre = float(factor[1]) * float(mass[1]) / float(strength.split()[0])
    assert titre == pytest.approx(25, rel=0.1)


def test_hardly_any_standard_is_not_weighed_for_a_titre(capsys: Run) -> None:
    # 0.00500 mol/dm³ manganate(VII) takes 0.04 g of the ethanedioate for 25 cm³.
    found = answer("potassium manganate(VII)", "0.00500 mol/dm3", "1 dm3", capsys)
    assert "the mass in g" not in " ".join(found["instructions"])


def test_a_primary_standard_needs_no_standardising(capsys: Run) -> None:
    found = answer("potassium hydrogenphthalate", "0.100 mol/dm3", "250 cm3", capsys)
    assert found["standardise"] is False


def test_a_strength_of_two_figures_is_not_standardised(capsys: Run) -> None:
    found = answer("sodium hydroxide", "0.10 mol/dm3", "1 dm3", capsys)
    assert found["standardise"] is False


@pytest.mark.parametrize(
    ("name", "strength", "keeping"),
    [
        # Common practice, no source.
        ("silver nitrate", "0.10 mol/dm3", "brown"),
        ("potassium manganate(VII)", "0.020 mol/dm3", "brown"),
        ("sodium hydroxide", "1.0 mol/dm3", "plastic; no glass stopper"),
        ("iron(II) sulfate", "0.10 mol/dm3", "on the day"),
        ("hydrogen peroxide", "0.20 mol/dm3", "vented"),
    ],
)
def test_how_it_keeps_is_said(
    name: str, strength: str, keeping: str, capsys: Run
) -> None:
    found = answer(name, strength, "500 cm3", capsys)
    assert keeping in " ".join(found["keeping"])


@pytest.mark.parametrize(
    ("name", "strength", "volume", "told"),
    [
        ("sodium hydroxid", "1 mol/dm3", "1 dm3", "did you mean sodium hydroxide?"),
        ("unobtainium", "1 mol/dm3", "1 dm3", "write its name, as on the bottle"),
        ("sodium chloride", "20 mol/dm3", "1 dm3", "359 g of sodium chloride at most"),
        ("hydrochloric acid", "14 mol/dm3", "1 dm3", "too weak"),
        ("sodium chloride", "5 g", "1 dm3", "write it as 0.100 mol/dm3"),
        ("sodium chloride", "0 mol/dm3", "1 dm3", "write it as 0.100 mol/dm3"),
        ("sodium chloride", "-1 mol/dm3", "1 dm3", "0.100 mol/dm3"),
        ("sodium chloride", "1 foo/dm3", "1 dm3", "write it as 0.100 mol/dm3"),
        ("sodium chloride", "1 mol/dm3", "1 kg", "write it as 250 cm3 or 1 dm3"),
        ("sodium chloride", "1 mol/dm3", "lots", "write it as 250 cm3"),
        ("sodium chloride", "1 mol/dm3", "1000 m3", "write 10 cm3 to 50 dm3"),
        ("sodium chloride", "1 mol/kg", "1 dm3", "write mol/dm³"),
        ("sodium chloride", "70 % v/v", "1 dm3", "no strength of a solid"),
        ("sodium chloride", "20 vol", "1 dm3", "hydrogen peroxide"),
        (
            "bromine water",
            "0.02 mol/dm3",
            "1 dm3",
            "it is bought, or made by local rules",
        ),
        ("ethanol", "101 % v/v", "1 dm3", "too weak"),
    ],
)
def test_what_cannot_be_made_is_1_and_says_what_to_write(
    name: str, strength: str, volume: str, told: str, capsys: Run
) -> None:
    # argparse takes a word that begins with a minus for an option.
    words = [f"--strength={strength}", f"--volume={volume}"]
    assert main(["solution", name, *words]) == 1
    caught = capsys.readouterr()
    assert told in caught.err
    assert caught.out == ""
    assert "Traceback" not in caught.err


def test_a_formula_or_a_synonym_is_a_name_too(capsys: Run) -> None:
    found = answer("NaOH", "0.10 mol/dm3", "1 dm3", capsys)
    assert (found["name"], found["formula"]) == ("sodium hydroxide", "NaOH")
    same = answer("caustic soda", "0.10 mol/dm3", "1 dm3", capsys)
    assert same["mass"] == found["mass"]


def test_a_missing_strength_is_wrong_usage() -> None:
    with pytest.raises(SystemExit) as end:
        main(["solution", "sodium hydroxide", "--volume", "1 dm3"])
    assert end.value.code == 2


@pytest.mark.parametrize("form", ["text", "json"])
@pytest.mark.parametrize(("name", "strength", "volume"), SOLUTIONS)
def test_nothing_is_called_safe_and_everything_defers(
    name: str, strength: str, volume: str, form: str, capsys: Run
) -> None:
    asked(name, strength, volume, "--format", form)
    told = " ".join(capsys.readouterr().out.split()).casefold()
    assert not re.search(r"\b(?:un)?safe(?:ly)?\b|\bharmless\b", told)
    for whose in (
        "employer’s risk assessment",
        "local rules",
        "current safety data sheet",
    ):
        assert whose in told
