"""Uncertainties, held against the worked examples of the guides."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from manualgen.quantities import parse_quantity
from manualgen.quantities.evaluate import Scope, evaluate
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.uncertainty import (
    Combination,
    Input,
    combined_uncertainty,
    contributions,
    correlated,
    rounded_uncertainty,
    rounded_with_uncertainty,
)
from manualgen.quantities.value import Value, datum
from tests.quantities.sheet import last, uncertainty_in

DATA = Path(__file__).with_name("uncertainty.yaml")
TRIGONOMETRIC = {"cos(phi)": math.cos, "sin(phi)": math.sin}


@cache
def examples() -> list[dict[str, Any]]:
    models: list[dict[str, Any]] = yaml.load(DATA.read_text("utf-8"), yaml.BaseLoader)[
        "models"
    ]
    return models


def worked_example(example: dict[str, Any]) -> Value:
    """The value of a model whose inputs are numerical values.

    A school calculation knows no angles: the two models that have one are given
    its cosine or sine as a value that depends on it.
    """
    uncertainties = {n: float(i["u"]) for n, i in example["inputs"].items()}
    pairs = [(a, b, float(r)) for a, b, r in example.get("correlations", ())]
    inputs = correlated(uncertainties, pairs)
    values = {
        name: Value(Fraction(row["value"]), sensitivities={inputs[name]: 1.0})
        for name, row in example["inputs"].items()
    }
    model = example["model"]
    for call, function in TRIGONOMETRIC.items():
        if call in model:
            model = model.replace(call, "turned")
            values["turned"] = turned(values["phi"], function)
    return evaluate(parse_expression(model), Scope(values))


def turned(angle: Value, function: Any) -> Value:
    x = float(angle.number)
    slope = -math.sin(x) if function is math.cos else math.cos(x)
    by_input = {datum: slope * s for datum, s in angle.sensitivities.items()}
    return Value(Fraction(function(x)), sensitivities=by_input)


def sigma(digits: str) -> float:
    """Half of one in the last digit of a printed number."""
    number = Decimal(digits)
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5001 * 10.0**exponent


@pytest.mark.parametrize("example", examples(), ids=lambda e: e["id"])
def test_the_guides_examples_are_reproduced_to_their_digits(
    example: dict[str, Any],
) -> None:
    found = worked_example(example)
    u = combined_uncertainty(found.sensitivities)
    assert float(found.number) == pytest.approx(
        float(example["value"]), abs=sigma(example["value"])
    )
    assert u == pytest.approx(float(example["u"]), abs=sigma(example["u"]))


@pytest.mark.parametrize("example", examples(), ids=lambda e: e["id"])
def test_every_input_contributes_what_the_guides_say(example: dict[str, Any]) -> None:
    parts = contributions(worked_example(example).sensitivities)
    assert parts is not None
    found = {datum.name: abs(part) for datum, part in parts.items()}
    for name, expected in example["contributions"].items():
        assert found[name] == pytest.approx(float(expected), rel=2e-3, abs=1e-12)


PRINTED = [
    # what the guides print (QUAM:2012.P1 A1 to A3; JCGM 100 H.1, H.2)
    ("QUAM-A1-table", "1002.7", "0.9"),
    ("QUAM-A2", "0.10214", "0.00010"),
    ("QUAM-A3", "0.10139", "0.00018"),
    ("QUAM-A3-variant", "0.10139", "0.00016"),
    ("PROP-1", "7.61", "0.26"),
    ("PROP-2", "0.557", "0.024"),
    ("PROP-3", "0.000191", "0.000013"),
]


@pytest.mark.parametrize(("name", "value", "u"), PRINTED)
def test_value_and_uncertainty_are_printed_as_the_guides_print_them(
    name: str, value: str, u: str
) -> None:
    example = next(e for e in examples() if e["id"] == name)
    found = worked_example(example)
    standard = combined_uncertainty(found.sensitivities)
    assert standard is not None
    printed = rounded_with_uncertainty(found.number, standard)
    assert tuple(format(number, "f") for number in printed) == (value, u)


def test_the_cadmium_standard_comes_out_with_its_units() -> None:
    # QUAM:2012.P1, A1: 100.28 mg of 99.99 % cadmium in 100 cm3; 1002.7 mg/L, u 0.835
    found = last(
        "m = 100.28 ± 0.05 (k=1) mg",
        "P = 0.9999 ± 0.0001 1",
        "V = 100.0 ± 0.0 cm3",
        "V_f = 0.0 ± 0.0408248 (k=1) cm3",
        "V_r = 0.0 ± 0.02 (k=1) cm3",
        "V_t = 0.0 ± 0.084 cm3",
        "c = m * P / (V + V_f + V_r + V_t) -> mg/dm3",
    )
    assert uncertainty_in(found, "mg/dm3") == pytest.approx(0.835, abs=5e-4)


def test_sodium_hydroxide_is_standardised_with_its_units() -> None:
    # QUAM:2012.P1, A2, summary table: 0.10214 mol/L, u 0.00010
    found = last(
        "rep = 1.0 ± 0.0005 (k=1) 1",
        "m = 0.3888 ± 0.00013 (k=1) g",
        "P = 1.0 ± 0.00029 (k=1) 1",
        "M_khp = 204.2212 ± 0.0038 (k=1) g/mol",
        "V = 18.64 ± 0.013 (k=1) cm3",
        "c = rep * m * P / (M_khp * V) -> mol/dm3",
    )
    assert uncertainty_in(found, "mol/dm3") == pytest.approx(9.8637e-5, rel=1e-4)


def test_a_half_width_is_rectangular_unless_it_says_k() -> None:
    # GUM 4.3.7: limits 0.40e-6 /°C either way, u = 0.23e-6 /°C
    found = datum("α", parse_quantity("16.52e-6 ± 0.40e-6 1/K"))
    assert uncertainty_in(found, "1/K") == pytest.approx(0.23e-6, abs=5e-9)
    stated = datum("α", parse_quantity("16.52e-6 ± 0.23e-6 (k=1) 1/K"))
    assert uncertainty_in(stated, "1/K") == pytest.approx(0.23e-6)


def test_a_symbol_used_twice_is_counted_once() -> None:
    # V_a stands squared in V_f / V_a^2: its relative uncertainty counts double
    data = ("V_f = 250.0 ± 0.3 cm3", "V_a = 25.00 ± 0.06 cm3")
    found = last(*data, "x = V_f / V_a / V_a -> 1/cm3")
    u_f, u_a = 0.3 / math.sqrt(3) / 250.0, 0.06 / math.sqrt(3) / 25.00
    expected = 0.4 * math.hypot(u_f, 2 * u_a)
    assert uncertainty_in(found, "1/cm3") == pytest.approx(expected, rel=1e-9)
    assert uncertainty_in(last(*data, "x = V_a / V_a -> 1"), "1") == 0


def test_derived_symbols_share_what_they_were_derived_from() -> None:
    data = ("c = 0.1000 ± 0.0002 mol/dm3", "V = 25.00 ± 0.06 cm3", "n = c * V -> mol")
    assert uncertainty_in(last(*data, "back = n / V -> mol/dm3"), "mol/dm3") == (
        pytest.approx(0.0002 / math.sqrt(3), rel=1e-9)
    )


def test_adding_percentages_is_the_courses_other_way() -> None:
    # common practice, no source: 0.2 % of the acid and 0.24 % of the pipette make 0.44 %
    found = last(
        "c = 0.1000 ± 0.0002 mol/dm3", "V = 25.00 ± 0.06 cm3", "n = c * V -> mol"
    )
    most = combined_uncertainty(found.sensitivities, Combination.SUM)
    assert most == pytest.approx(0.0025 * (0.002 + 0.0024), rel=1e-9)


def test_a_datum_without_uncertainty_leaves_the_result_without() -> None:
    found = last("c = 0.1000 ± 0.0002 mol/dm3", "V = 25.00 cm3", "n = c * V -> mol")
    assert combined_uncertainty(found.sensitivities) is None


def test_counts_and_constants_take_no_uncertainty_away() -> None:
    found = last("m = 50.0 ± 0.1 g", "r = 2", "C = r * m * (4.18 J/g/K) -> J/K")
    assert uncertainty_in(found, "J/K") == pytest.approx(
        2 * 4.18 * 0.1 / math.sqrt(3), rel=1e-9
    )


def test_a_constant_with_an_uncertainty_of_its_own_brings_it_in() -> None:
    found = last("m = 50.0 ± 0.0 g", "C = m * (4.18 ± 0.02 J/g/K) -> J/K")
    assert uncertainty_in(found, "J/K") == pytest.approx(1 / math.sqrt(3), rel=1e-9)


@pytest.mark.parametrize(
    ("u", "printed"),
    [
        ("0.835", "0.8"),
        ("0.14", "0.14"),
        ("0.24", "0.24"),
        ("0.0299", "0.03"),
        ("0.96", "1.0"),
        ("32", "3E+1"),
        ("0.00010049", "0.00010"),
    ],
)
def test_an_uncertainty_has_one_figure_or_two_that_start_small(
    u: str, printed: str
) -> None:
    # GUM 7.2.6: at most two significant figures
    assert str(rounded_uncertainty(Fraction(u))) == str(Decimal(printed))


def test_inputs_of_one_name_are_one_input() -> None:
    assert Input("V", 0.1) == Input("V", 0.2)


def test_a_contribution_out_of_all_measure_states_no_uncertainty() -> None:
    assert combined_uncertainty({Input("x", 1e200): 1.0}) is None
