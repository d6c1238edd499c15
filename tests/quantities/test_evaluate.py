"""What expressions are worth: numbers, dimensions, figures and refusals."""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.constants import physical_constants

from manualgen.quantities import Rounding, parse_quantity, parse_unit
from manualgen.quantities.constants import constants
from manualgen.quantities.evaluate import ResultUnitError, Scope, evaluate, result
from manualgen.quantities.expression import (
    Applied,
    Binary,
    Expression,
    ExpressionError,
    Function,
    Negative,
    Number,
    Operator,
    Symbol,
)
from manualgen.quantities.parser import parse_expression
from manualgen.quantities.refusals import (
    DimensionError,
    UndefinedError,
    UnknownNameError,
)
from manualgen.quantities.uncertainty import Combination, combined_uncertainty
from manualgen.quantities.value import Value, constant
from tests.quantities.sheet import last, number_in, shown, worked

# --- figures -------------------------------------------------------------------------

FIGURES = [
    # OpenStax Chemistry 2e, section 1.5, examples and exercises
    ("1.0023 + 4.383", "5.385"),
    ("486 - 421.23", "65"),
    ("2.334 + 0.31", "2.64"),
    ("56.533 - 55.8752", "0.658"),
    ("0.6238 * 6.6", "4.1"),
    ("421.23 / 486", "0.867"),
    ("2.334 * 0.320", "0.747"),
    ("55.8752 / 56.53", "0.9884"),
    ("13.44 * 5.920 * 2.54", "202"),
    ("31.1415 / 30.13", "1.034"),
    ("628 * 342", "2.15E+5"),
    ("5.63e2 * 7.4e3", "4.2E+6"),
    ("28.0 / 13.483", "2.08"),
    ("8119 * 0.000023", "0.19"),
    ("42.7 + 0.259", "43.0"),
]


@pytest.mark.parametrize(("sum_", "expected"), FIGURES)
def test_measured_numbers_keep_the_figures_that_the_rules_allow(
    sum_: str, expected: str
) -> None:
    left, operator, rest = sum_.partition(" ")[0], sum_.split()[1], sum_.split()[2::2]
    numbers = [left, *rest]
    lines = [f"x{i} = {number} m" for i, number in enumerate(numbers)]
    powers = {"+": "m", "-": "m", "/": "1", "*": f"m{len(numbers)}"}
    expression = f" {operator} ".join(f"x{i}" for i in range(len(numbers)))
    written = shown(*lines, f"y = {expression} -> {powers[operator]}")
    assert Decimal(written) == Decimal(expected)
    assert written == str(Decimal(expected))


def test_a_logarithm_has_as_many_decimal_places_as_its_argument_has_figures() -> None:
    # common practice; the pair 0.0100 mol/dm3, pH 2.000 follows from the rule
    lines = ("c = 0.0100 mol/dm3", "pH = -log10(c / (1 mol/dm3)) -> 1")
    assert shown(*lines) == "2.000"


def test_a_power_of_ten_has_as_many_figures_as_its_exponent_has_decimal_places() -> (
    None
):
    # D. Harvey, Modern Analytical Chemistry (2000), p. 68: pH 3.72 is 1.9e-4 mol/L
    lines = ("pH = 3.72", "c = 10^-pH * (1 mol/dm3) -> mol/dm3")
    assert shown(*lines) == "0.00019"


def test_a_whole_number_that_ends_in_nought_has_the_benefit_of_the_doubt() -> None:
    assert shown("V = 250 cm3", "c = 0.100 mol/dm3", "n = c * V -> mol") == "0.0250"


def test_a_power_of_ten_tells_how_many_noughts_count() -> None:
    # OpenStax Chemistry 2e, Example 5.5: 1.0e2 g warmed by 6.9 K takes 2.9e3 J
    lines = (
        "m = 1.0e2 g",
        "T1 = 22.0 °C",
        "T2 = 28.9 °C",
        "q = -m * (4.184 J/g/K) * (T2 - T1) -> J",
    )
    assert shown(*lines) == "-2.9E+3"


def test_a_bare_number_and_a_count_are_exact() -> None:
    assert shown("n = 0.1000 mol", "r = 2", "m = n / r / 3 -> mol") == "0.01667"


def test_the_unit_quantity_limits_nothing() -> None:
    assert shown("c = 0.1234 mol/dm3", "x = c / (1 mol/dm3) -> 1") == "0.1234"


def test_a_constant_in_an_expression_limits_the_figures() -> None:
    assert shown("m = 50.00 g", "C = m * (4.2 J/g/K) -> J/K") == "2.1E+2"


def test_figures_survive_a_conversion_that_is_no_power_of_ten() -> None:
    assert shown("t = 12.5 min", "s = t -> s") == "750"
    assert shown("t1 = 12.50 min", "t2 = 3.25 min", "dt = t1 - t2 -> min") == "9.25"


def test_a_result_that_rounds_up_to_the_next_ten_keeps_its_figures() -> None:
    assert shown("a = 3.332 cm", "b = 3.00 cm", "A = a * b -> cm2") == "10.0"


def test_an_exact_result_is_written_out_or_to_four_figures() -> None:
    assert shown("a = 1", "b = 4", "x = a / b -> 1") == "0.25"
    assert shown("a = 1", "b = 3", "x = a / b -> %") == "33.33"


def test_a_dropped_five_goes_as_the_manual_says() -> None:
    lines = ("a = 24.30 cm3", "b = 24.35 cm3", "V = (a + b) / 2 -> cm3")
    assert shown(*lines, rounding=Rounding.UP) == "24.33"
    assert shown(*lines, rounding=Rounding.EVEN) == "24.32"


# --- values and units ----------------------------------------------------------------


def test_units_are_converted_on_the_way() -> None:
    values = worked("c = 0.1000 mol/dm3", "V = 25.00 cm3", "n = c * V -> mmol")
    assert number_in(values["n"], "mmol") == 2.5


def test_a_ratio_can_be_stated_in_per_cent() -> None:
    assert shown("m = 1.073 g", "w = 1.240 g", "y = m / w -> %") == "86.53"


def test_a_root_halves_the_dimension() -> None:
    assert shown("K = 1.8e-5 mol2/dm6", "c = sqrt(K) -> mol/dm3") == "0.0042"


def test_the_constants_are_those_of_codata() -> None:
    # CODATA 2022, as scipy.constants has them
    names = {
        "R": ("molar gas constant", "J/(mol K)"),
        "F": ("Faraday constant", "C/mol"),
        "N_A": ("Avogadro constant", "1/mol"),
    }
    for symbol, (name, unit) in names.items():
        found = evaluate(parse_expression(symbol), Scope())
        assert number_in(found, unit) == pytest.approx(
            physical_constants[name][0], rel=1e-9
        )
        assert constants()[symbol].source


def test_the_gas_constant_gives_the_molar_volume_at_20_degrees() -> None:
    # R (293.15 K) / (101.325 kPa) = 24.05512 dm3/mol, computed from CODATA 2022
    lines = (
        "T = 20.00 °C",
        "p = 101.325 kPa",
        "T_K = T -> K",
        "V = R*T_K/p -> dm3/mol",
    )
    assert number_in(last(*lines), "dm3/mol") == pytest.approx(24.05512, abs=5e-6)


def test_a_symbol_of_the_author_s_own_comes_before_a_constant() -> None:
    assert shown("F = 12.0 N", "x = F -> N") == "12.0"


def test_a_molar_mass_comes_from_whoever_knows_chemistry() -> None:
    def weigh(formula: str) -> Value:
        return {"NaCl": constant(parse_quantity("58.44 g/mol"))}[formula]

    scope = Scope(worked("m = 5.844 g"), molar_mass=weigh)
    found = result(parse_expression("m / M(NaCl)"), parse_unit("mol"), scope)
    assert str(found.rounded_in(parse_unit("mol"))) == "0.1000"
    with pytest.raises(UndefinedError) as caught:
        evaluate(parse_expression("m / M(KCl)"), scope)
    assert (caught.value.start, caught.value.end) == (4, 10)


# --- temperatures --------------------------------------------------------------------

COLD, WARM = "T1 = 21.5 °C", "T2 = 28.9 °C"


def test_a_difference_of_temperatures_is_the_same_in_both_units() -> None:
    assert shown(COLD, WARM, "d = T2 - T1 -> °C") == "7.4"
    assert shown(COLD, WARM, "d = T2 - T1 -> K") == "7.4"


def test_a_temperature_in_celsius_becomes_kelvin_when_asked() -> None:
    assert shown(COLD, "T = T1 -> K") == "294.7"
    assert shown("T = 298.15 K", "t = T -> °C") == "25.00"


def test_temperatures_may_be_averaged_and_moved() -> None:
    assert shown(COLD, WARM, "T = (T1 + T2) / 2 -> °C") == "25.2"
    assert shown(COLD, "d = 3.0 K", "T = T1 + d -> °C") == "24.5"


def test_a_difference_may_stand_in_a_product() -> None:
    lines = (COLD, WARM, "d = T2 - T1 -> °C", "m = 50.0 g")
    assert shown(*lines, "q = m * (4.18 J/g/K) * d -> kJ") == "1.5"


@pytest.mark.parametrize(
    ("expression", "words"),
    [
        ("T2 / T1", "T2"),
        ("p * V / T1", "T1"),
        ("m * (4.18 J/g/K) * T1", "T1"),
        ("exp(T1 / (1 K))", "T1"),
        ("T1^2", "T1"),
        ("abs(T1)", "(T1)"),
    ],
)
def test_celsius_is_refused_where_only_kelvin_have_a_meaning(
    expression: str, words: str
) -> None:
    values = worked(COLD, WARM, "p = 101 kPa", "V = 24 dm3", "m = 50.0 g")
    with pytest.raises(DimensionError) as caught:
        evaluate(parse_expression(expression), Scope(values))
    assert expression[caught.value.start : caught.value.end] == words
    assert "kelvin" in caught.value.message


def test_the_way_from_celsius_to_kelvin_is_spelt_out() -> None:
    scope = Scope(worked(COLD, "p = 101 kPa"))
    with pytest.raises(DimensionError) as caught:
        evaluate(parse_expression("p / T1"), scope)
    assert caught.value.suggestion == "T1_K, with T1_K = T1 -> K on a line before"


def test_a_logarithm_s_argument_is_offered_its_unit_to_divide_by() -> None:
    with pytest.raises(DimensionError) as caught:
        evaluate(parse_expression("log10(c)"), Scope(worked("c = 0.10 mol/dm3")))
    assert caught.value.suggestion == "c / (1 mol/dm3)"


def test_a_sum_of_temperatures_is_no_temperature() -> None:
    scope = Scope(worked(COLD, WARM))
    with pytest.raises(DimensionError):
        result(parse_expression("T1 + T2"), parse_unit("°C"), scope)


# --- refusals ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("expression", "words", "kind"),
    [
        ("c * (V + c)", "(V + c)", DimensionError),
        ("V - n * 2", "V - n * 2", DimensionError),
        ("log10(c)", "(c)", DimensionError),
        ("exp(V)", "(V)", DimensionError),
        ("2^V", "V", DimensionError),
        ("c^pH", "pH", DimensionError),
        ("c^0.3", "0.3", DimensionError),
        ("n / (V - V)", "(V - V)", UndefinedError),
        ("c * W", "W", UnknownNameError),
        ("mean(titres.Vt)", "mean(titres.Vt)", UnknownNameError),
        ("sqrt(n - 2 * n)", "sqrt(n - 2 * n)", UndefinedError),
        ("ln(0)", "ln(0)", UndefinedError),
        ("0^-1", "0^-1", UndefinedError),
        ("(0-8)^0.5", "(0-8)^0.5", UndefinedError),
        ("exp(9999)", "exp(9999)", UndefinedError),
        ("exp(-500)", "exp(-500)", UndefinedError),
        ("9^99 * 9^99", "9^99 * 9^99", UndefinedError),
    ],
)
def test_a_fault_names_the_part_of_the_expression_in_which_it_lies(
    expression: str, words: str, kind: type[ExpressionError]
) -> None:
    values = worked("c = 0.10 mol/dm3", "V = 25.0 cm3", "n = 0.0025 mol", "pH = 3.1")
    with pytest.raises(kind) as caught:
        evaluate(parse_expression(expression), Scope(values))
    assert expression[caught.value.start : caught.value.end] == words


def test_unlike_things_are_named_by_what_they_measure() -> None:
    values = worked("c = 0.10 mol/dm3", "V = 25.0 cm3")
    with pytest.raises(
        DimensionError, match="c is an amount concentration, V a volume"
    ):
        evaluate(parse_expression("c + V"), Scope(values))


def test_a_result_in_the_unit_of_something_else_says_what_it_is() -> None:
    values = worked("c = 0.10 mol/dm3", "V = 25.0 cm3")
    with pytest.raises(ResultUnitError, match="gives an amount of substance") as caught:
        result(parse_expression("c * V"), parse_unit("mol/dm3"), Scope(values))
    assert caught.value.dimension == parse_unit("mol").dimension


def test_a_misspelt_symbol_is_offered_its_nearest() -> None:
    values = worked("V_flask = 250.0 cm3")
    with pytest.raises(UndefinedError) as caught:
        evaluate(parse_expression("V_flsak"), Scope(values))
    assert caught.value.suggestion == "V_flask"


def test_a_chain_of_powers_cannot_fill_the_memory() -> None:
    tree = parse_expression("x^9 / 1.3333^8")
    x = Value(Fraction(4, 3))
    for _ in range(6):
        x = evaluate(tree, Scope({"x": x}))
    assert x.number.denominator.bit_length() <= 1200


def test_nought_adds_nothing_to_the_figures_of_a_sum() -> None:
    lines = (COLD, "T3 = 21.5 °C", "m = 50.0 g", "q = 12.34 J")
    total = "Q = q + m * (4.18 J/g/K) * (T3 - T1) -> J"
    assert shown(*lines, total) == "12.34"


def test_a_bare_number_may_stand_on_either_side_of_a_temperature() -> None:
    assert shown(COLD, WARM, "T = 0.5 * T1 + 0.5 * T2 -> °C") == "25.2"


def test_a_celsius_that_is_no_symbol_is_refused_without_a_name_for_it() -> None:
    scope = Scope(worked(COLD, WARM, "p = 101 kPa"))
    with pytest.raises(DimensionError) as caught:
        evaluate(parse_expression("p / (T1 + (3 K))"), scope)
    assert caught.value.suggestion is None


def test_a_whole_power_raises_the_unit_with_the_number() -> None:
    assert shown("a = 1.20 cm", "V = a^3 -> cm3") == "1.73"


def test_what_has_no_name_is_named_by_its_unit() -> None:
    values = worked("V = 25.0 cm3", "m = 2.0 g")
    with pytest.raises(
        DimensionError, match="a pure number, m \\* V a quantity in m³ kg"
    ):
        evaluate(parse_expression("3 + m * V"), Scope(values))


def test_a_molar_mass_needs_somebody_who_knows_it() -> None:
    with pytest.raises(UnknownNameError, match="NaCl is not known"):
        evaluate(parse_expression("M(NaCl)"), Scope())


# --- laws ----------------------------------------------------------------------------

POSITIVE = st.decimals("0.1", "10", allow_nan=False, places=3)


@given(POSITIVE, POSITIVE)
def test_arithmetic_is_that_of_the_numbers(a: Decimal, b: Decimal) -> None:
    values = worked(f"a = {a} m", f"b = {b} m")
    by_hand: dict[str, Callable[[float, float], float]] = {
        "a + b": lambda x, y: x + y,
        "a - b": lambda x, y: x - y,
        "a * b": lambda x, y: x * y,
        "a / b": lambda x, y: x / y,
        "exp(-a / b)": lambda x, y: math.exp(-x / y),
        "ln(a / b)": lambda x, y: math.log(x / y),
    }
    for text, function in by_hand.items():
        number = evaluate(parse_expression(text), Scope(values)).number
        assert float(number) == pytest.approx(function(float(a), float(b)), rel=1e-12)


HOSTILE = st.recursive(
    st.one_of(
        st.sampled_from("abn").map(Symbol),
        st.sampled_from(["0", "1", "99", "1e99", "1e-99", "0.5"]).map(
            lambda text: Number(text, Fraction(text))
        ),
    ),
    lambda inner: st.one_of(
        inner.map(Negative),
        st.builds(Binary, st.sampled_from(Operator), inner, inner),
        st.builds(Applied, st.sampled_from(Function), inner),
    ),
    max_leaves=12,
)


@settings(max_examples=400, deadline=None)
@given(HOSTILE)
def test_any_expression_has_a_value_or_a_fault(tree: Expression) -> None:
    values = worked("a = 1.3 ± 0.1 1", "b = 0.0 ± 0.1 1", "n = -2.0 ± 0.1 1")
    try:
        value = evaluate(tree, Scope(values))
    except ExpressionError:
        return
    for combination in Combination:
        u = combined_uncertainty(value.sensitivities, combination)
        assert u is None or 0 <= u < float("inf")
    value.rounded_in(parse_unit("1"))
