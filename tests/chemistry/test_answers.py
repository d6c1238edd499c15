"""The answers of ``manualgen equation`` and ``manualgen formula``.

The keys are those of the commands' contract and its JSON Schemas; the figures
come from the sets of this folder, whose sources stand there.
"""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.chemistry.equation_answer import equation_answer, equation_lines
from manualgen.chemistry.formula_answer import formula_answer, formula_lines
from manualgen.chemistry.medium import Medium
from manualgen.cli import main

HERE = Path(__file__).parent


def _set(name: str) -> Any:
    text = HERE.joinpath(f"{name}.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=yaml.CBaseLoader)


BALANCING = _set("balancing")
OXIDATION = _set("oxidation")
WHOLE = [e for e in BALANCING["entries"] if not e["category"].startswith("half")]


def _checked(answer: Mapping[str, object], schema: str) -> Mapping[str, Any]:
    table = files("manualgen.data").joinpath("schemas", f"{schema}.json")
    jsonschema.validate(answer, json.loads(table.read_text(encoding="utf-8")))
    return answer


@pytest.mark.parametrize("entry", WHOLE, ids=[e["id"] for e in WHOLE])
def test_an_equation_of_the_set_is_answered(entry: Any) -> None:
    word = entry["given"].get("medium", "").split()
    medium = {"acid": "acid", "base": "base"}.get(word[0]) if word else None
    answer = _checked(equation_answer(entry["given"]["skeleton"], medium), "equation")  # type: ignore[arg-type]
    assert answer["status"] in ("balanced", "rebalanced")
    if "H3O^+" not in entry["expected"]["equation"]:
        assert _amounts(answer) == _amounts(
            equation_answer(entry["expected"]["equation"])
        )


def _amounts(answer: Mapping[str, Any]) -> list[tuple[str, int, str]]:
    return sorted(
        (side, species["coefficient"], species["formula"])
        for side in ("reactants", "products")
        for species in answer[side]
    )


@pytest.mark.parametrize(
    "entry", BALANCING["flagged"], ids=[e["id"] for e in BALANCING["flagged"]]
)
def test_a_flagged_equation_says_why(entry: Any) -> None:
    answer = _checked(equation_answer(entry["given"]["skeleton"]), "equation")
    impossible = entry["expected"]["status"] == "cannot be balanced"
    assert answer["status"] == ("impossible" if impossible else "ambiguous")
    assert answer["message"]
    assert entry["given"]["skeleton"] == answer["equation"]


def test_an_answer_has_the_keys_and_values_of_the_contract() -> None:
    """The example of the contract: aluminium burning."""
    assert equation_answer("Al(s) + O2(g) -> Al2O3(s)") == {
        "version": 1,
        "status": "rebalanced",
        "equation": "4 Al(s) + 3 O2(g) -> 2 Al2O3(s)",
        "reactants": [
            {
                "coefficient": 4,
                "formula": "Al",
                "state": "s",
                "charge": 0,
                "oxidation_numbers": {"Al": "0"},
            },
            {
                "coefficient": 3,
                "formula": "O2",
                "state": "g",
                "charge": 0,
                "oxidation_numbers": {"O": "0"},
            },
        ],
        "products": [
            {
                "coefficient": 2,
                "formula": "Al2O3",
                "state": "s",
                "charge": 0,
                "oxidation_numbers": {"Al": "+3", "O": "-2"},
            },
        ],
        "net_ionic": None,
        "spectators": [],
        "oxidised": ["Al"],
        "reduced": ["O2"],
        "half_equations": ["Al -> Al^3+ + 3 e^-", "O2 + 4 e^- -> 2 O^2-"],
        "independent": [],
        "suggestion": None,
        "message": None,
    }


def test_a_precipitation_has_its_net_ionic_form_and_spectators() -> None:
    """ION-01 of ionic.yaml, from OpenStax Chemistry 2e, section 4.1."""
    answer = equation_answer("CaCl2(aq) + 2 AgNO3(aq) -> Ca(NO3)2(aq) + 2 AgCl(s)")
    assert answer["status"] == "balanced"
    assert answer["net_ionic"] == "Ag^+(aq) + Cl^-(aq) -> AgCl(s)"
    assert set(answer["spectators"]) == {"Ca^2+", "NO3^-"}
    assert answer["oxidised"] == answer["reduced"] == []


def test_no_reaction_is_said() -> None:
    answer = equation_answer("NaCl(aq) + KNO3(aq) -> NaNO3(aq) + KCl(aq)")
    assert answer["net_ionic"] is None
    assert "no reaction" in str(answer["message"])


@pytest.mark.parametrize(
    ("text", "words", "suggestion"),
    [
        ("Fe2+ -> Fe^3+", "as Fe^2+ or as Fe2^+", "Fe^2+ -> Fe^3+"),
        (
            "Mg + H2O -> MgOH2 + H2",
            "MgOH2 do not add up to no charge; write Mg(OH)2",
            None,
        ),
        ("just words", "arrow", None),
        ("", "arrow", None),
    ],
)
def test_what_is_no_equation_is_invalid_and_says_why(
    text: str, words: str, suggestion: str | None
) -> None:
    answer = _checked(equation_answer(text), "equation")
    assert answer["status"] == "invalid"
    assert answer["suggestion"] == suggestion
    assert words in str(answer["message"])
    assert "invalid" in equation_lines(text)


def test_an_unknown_number_stands_in_a_coefficient_as_it_is_written() -> None:
    answer = _checked(
        equation_answer("Na2CO3·xH2O + HCl -> NaCl + CO2 + H2O"), "equation"
    )
    coefficients = [p["coefficient"] for p in answer["products"]]
    assert coefficients == [2, 1, "(x+1)"]


def test_a_reader_sees_the_equation_as_the_trade_prints_it() -> None:
    assert equation_lines("MnO2(s) + HCl(aq) -> MnCl2(aq) + Cl2(g) + H2O(l)") == (
        "  MnO₂(s) + 4 HCl(aq) → MnCl₂(aq) + Cl₂(g) + 2 H₂O(l)\n"
        "    status     rebalanced\n"
        "    net ionic  MnO₂(s) + 4 H⁺(aq) + 2 Cl⁻(aq) → Mn²⁺(aq) + Cl₂(g) + 2 H₂O(l)\n"
        "    spectators Cl⁻\n"
        "    oxidised   HCl (Cl −1 to 0)\n"
        "    reduced    MnO₂ (Mn +4 to +2)\n"
        "    half       2 Cl⁻(aq) → Cl₂(g) + 2 e⁻\n"
        "    half       MnO₂(s) + 4 H⁺(aq) + 2 e⁻ → Mn²⁺(aq) + 2 H₂O(l)"
    )


def test_a_reader_is_told_what_states_would_show_and_what_was_meant() -> None:
    assert "give the states" in equation_lines("NaOH + HCl -> NaCl + H2O")
    assert "Fe²⁺ → Fe³⁺ + e⁻" in equation_lines("Fe^2+ -> Fe^3+")


def test_a_formula_and_its_name_give_the_same_answer() -> None:
    """The example of the contract; masses added up by hand."""
    by_name = _checked(formula_answer("magnesium sulfate heptahydrate"), "formula")
    assert by_name == formula_answer("MgSO4.7H2O")
    assert by_name == {
        "version": 1,
        "status": "ok",
        "formula": "MgSO4·7H2O",
        "name": "magnesium sulfate heptahydrate",
        "charge": 0,
        "molar_mass": {"value": 246.47, "unit": "g/mol"},
        "mass_percent": {"Mg": 9.86, "S": 13.01, "O": 71.4, "H": 5.73},
        "ions": ["Mg^2+", "SO4^2-"],
        "oxidation_numbers": {"Mg": "+2", "S": "+6", "O": "-2", "H": "+1"},
        "suggestion": None,
        "message": None,
    }


@pytest.mark.parametrize(
    "entry", OXIDATION["entries"], ids=[e["id"] for e in OXIDATION["entries"]]
)
def test_a_species_of_the_set_is_answered_with_its_numbers(entry: Any) -> None:
    answer = _checked(formula_answer(entry["given"]["species"]), "formula")
    assert answer["oxidation_numbers"] == entry["expected"]["average"]


@pytest.mark.parametrize(
    ("text", "mass"),
    [("H2O", 18.015), ("NaOH", 39.997), ("H2", 2.016), ("C57H110O6", 891.5)],
)
def test_a_molar_mass_has_five_figures(text: str, mass: float) -> None:
    """Added up by hand from the abridged weights."""
    molar_mass = formula_answer(text)["molar_mass"]
    assert molar_mass is not None
    assert molar_mass["value"] == mass


@pytest.mark.parametrize(
    ("text", "words", "suggestion"),
    [
        ("Fe2+", "Fe^2+", "Fe^2+"),
        ("MgOH2", "do not add up", "Mg(OH)2"),
        ("nonesuch", "no substance of this name", None),
        ("iron chloride", "may mean FeCl2, FeCl3; say which", None),
        ("Xy2O", "no element", None),
        ("", "no formula", None),
    ],
)
def test_what_is_no_formula_is_invalid_and_says_why(
    text: str, words: str, suggestion: str | None
) -> None:
    answer = _checked(formula_answer(text), "formula")
    assert answer["status"] == "invalid"
    assert words in str(answer["message"])
    assert answer["suggestion"] == suggestion
    assert "invalid" in formula_lines(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("MgSO4·xH2O", "x is not known"),
        ("HIn", "many substances"),
        ("PH3", "convention"),
        ("e-", "electron"),
        ("C57H110O6", "not known"),
    ],
)
def test_what_cannot_be_told_of_a_formula_is_said(text: str, words: str) -> None:
    assert _checked(formula_answer(text), "formula")["status"] == "ok"
    assert words in formula_lines(text)


def test_a_reader_sees_name_masses_and_ions() -> None:
    assert formula_lines("Na2SO4") == (
        "  Na₂SO₄\n"
        "    name       sodium sulfate\n"
        "    molar mass 142.04 g/mol\n"
        "    by mass    Na 32.37 %, S 22.57 %, O 45.06 %\n"
        "    ions       Na⁺, SO₄²⁻\n"
        "    oxidation  Na +1, S +6, O −2"
    )


def test_lines_of_standard_input_are_answered_one_by_one(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("H2 + O2 -> H2O\n\nH2 -> He\n"))
    assert main(["equation", "-", "--format", "json"]) == 1
    answers = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [a["status"] for a in answers] == ["rebalanced", "impossible"]


def test_the_commands_end_with_the_status_of_their_contract(
    capsys: pytest.CaptureFixture[str],
) -> None:
    asked = {
        ("equation", "H2 + Cl2 -> 2 HCl"): 0,
        ("equation", "C + O2 -> CO + CO2"): 0,
        ("equation", "Zn -> Zn^2+", "--in", "acid"): 0,
        ("equation", "Zn -> Zn^2+"): 1,
        ("equation", "Zn"): 1,
        ("formula", "water"): 0,
        ("formula", "wat"): 1,
    }
    assert {words: main(words) for words in asked} == asked
    assert "Traceback" not in capsys.readouterr().err


pieces = st.sampled_from(
    [
        *(
            "H2",
            "O2",
            "H2O",
            "Fe^2+",
            "Fe3+",
            "MnO4^-",
            "e-",
            "CuSO4·5H2O",
            "MgSO4·xH2O",
        ),
        *(
            "(C2H4)n",
            "[O]",
            "In-",
            "2",
            "1/2",
            "x",
            "(aq)",
            "(s)",
            "+",
            "->",
            "<=>",
            " ",
        ),
        *("MgOH2", "copper", "(", ")", "^", "-", ".", "Å", "\x00", "·", "C2H5OH", "HA"),
    ]
)


@given(
    st.lists(pieces, max_size=12).map("".join), st.sampled_from((None, "acid", "base"))
)
def test_whatever_is_asked_is_answered(text: str, medium: Medium | None) -> None:
    _checked(equation_answer(text, medium), "equation")
    _checked(formula_answer(text), "formula")
    assert equation_lines(text, medium)
    assert formula_lines(text)
