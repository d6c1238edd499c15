"""Quantities: read as they are typed, and no figure lost in a conversion."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import TypedDict

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.quantities import (
    Quantity,
    QuantityError,
    Verdict,
    parse_quantity,
    parse_unit,
)
from manualgen.quantities.mend import mended, typed


class Row(TypedDict):
    id: str
    given: str
    expected: dict[str, str]


TABLE = Path(__file__).with_name("units.yaml").read_text("utf-8")
ROWS: list[Row] = yaml.load(TABLE, Loader=yaml.CBaseLoader)
COUNTED = [row for row in ROWS if row["expected"].get("sig_figs", "").isdecimal()]


@pytest.mark.parametrize(
    "row",
    [row for row in COUNTED if row["id"] not in {"UNT-08", "UNT-19"}],
    ids=lambda row: row["given"],
)
def test_the_figures_are_those_typed(row: Row) -> None:
    expected = int(row["expected"]["sig_figs"])
    assert parse_quantity(row["given"]).significant_figures == expected


@pytest.mark.parametrize(
    ("text", "value", "places"),
    [
        ("0.0000429 mol", "0.0000429", 7),
        ("4.29e-5 mol", "0.0000429", 7),
        ("4.29 × 10^-5 mol", "0.0000429", 7),
        ("4.29 x 10^-5 mol", "0.0000429", 7),
        ("4.29 × 10⁻⁵ mol", "0.0000429", 7),
        ("4.29·10^(-5) mol", "0.0000429", 7),
        ("−75 °C", "-75", 0),
        ("-75 °C", "-75", 0),
        ("+5 °C", "5", 0),
        ("1 200 cm3", "1200", 0),
        ("1,5 g", "1.5", 1),
        (".5 g", "0.5", 1),
        ("10^-3 mol/dm3", "0.001", 3),
        ("10⁻³ mol/dm3", "0.001", 3),
    ],
)
def test_every_way_of_writing_a_number_is_read(
    text: str, value: str, places: int
) -> None:
    quantity = parse_quantity(text)
    assert quantity.value == Decimal(value)
    assert quantity.decimal_places == places


@pytest.mark.parametrize(
    "text", ["20 to 25 °C", "20–25 °C", "20-25 °C", "20 °C to 25 °C", "20 – 25 °C"]
)
def test_a_range_has_a_lower_and_an_upper_end(text: str) -> None:
    quantity = parse_quantity(text)
    assert [quantity.value, quantity.upper] == [20, 25]
    assert quantity.si_upper == Fraction("298.15")
    assert quantity.unit == parse_unit("°C")


def test_a_range_may_begin_below_nought() -> None:
    quantity = parse_quantity("-5 to 5 °C")
    assert [quantity.value, quantity.upper] == [-5, 5]


@pytest.mark.parametrize(
    "text",
    [
        "25.00 ± 0.06 cm3",
        "(25.00 ± 0.06) cm3",
        "25.00 +/- 0.06 cm3",
        "25.00±0.06 cm3",
        "25.00 cm3 ± 0.06 cm3",
    ],
)
def test_a_half_width_stands_beside_the_value(text: str) -> None:
    quantity = parse_quantity(text)
    assert [quantity.value, quantity.half_width] == [25, Decimal("0.06")]
    assert quantity.si_half_width == Fraction(6, 10**8)
    assert not quantity.standard


@pytest.mark.parametrize(
    "text",
    ["25.00 ± 0.02 (k=1) cm3", "25.00 ± 0.02 cm3 (k=1)", "25.00 ± 0.02 (k = 1) cm3"],
)
def test_a_standard_uncertainty_says_so(text: str) -> None:
    quantity = parse_quantity(text)
    assert quantity.standard
    assert quantity.half_width == Decimal("0.02")
    assert quantity.unit == parse_unit("cm3")


def test_without_one_there_is_none() -> None:
    quantity = parse_quantity("25.00 cm3")
    assert quantity.si_half_width is quantity.si_upper is None


@pytest.mark.parametrize("text", ["(4.29 ± 0.02) × 10^-5 mol", "(4.29±0.02)×10⁻⁵ mol"])
def test_a_power_of_ten_behind_a_bracket_is_of_both(text: str) -> None:
    quantity = parse_quantity(text)
    widths = [quantity.value, quantity.half_width]
    assert widths == [Decimal("0.0000429"), Decimal("0.0000002")]


def test_a_half_width_may_stand_alone() -> None:
    quantity = parse_quantity("± 0.05 cm3")
    assert (quantity.value, quantity.sign) == (Decimal("0.05"), "±")
    assert parse_quantity("±0.5 °C").si_value == Fraction(1, 2)


def test_a_plus_is_kept_for_it_means_something_of_an_enthalpy_change() -> None:
    quantity = parse_quantity("+57.1 kJ/mol")
    assert quantity.sign == "+"
    assert quantity.to(parse_unit("J/mol")).sign == "+"


@pytest.mark.parametrize(
    "text",
    [
        "+57.1 kJ/mol",
        "± 0.05 cm3",
        "+0.34 ± 0.01 V",
        "(4.29 ± 0.02) × 10^-5 mol",
        "25.00 ± 0.02 (k=1) cm3",
        "20 to 25 °C",
        "25.00 cm3 (pipette)",
        "12",
    ],
)
def test_a_right_writing_is_typed_again_as_it_was(text: str) -> None:
    assert typed(parse_quantity(text)) == text


def test_a_half_width_in_celsius_gets_no_offset() -> None:
    assert parse_quantity("21.5 ± 0.5 °C").si_half_width == Fraction(1, 2)


def test_the_piece_that_a_tolerance_comes_from_is_named() -> None:
    quantity = parse_quantity("25.00 cm3 (pipette)")
    assert quantity.of == "pipette"
    assert quantity.unit == parse_unit("cm3")
    assert parse_quantity("250.0 cm3 (volumetric flask)").of == "volumetric flask"
    assert parse_quantity("4.18 J/(g K)").of is None


def test_times_may_stand_in_two_units() -> None:
    quantity = parse_quantity("2 min 30 s")
    assert quantity.si_value == 150
    assert parse_quantity("1 h 30 min").si_value == 5400
    assert parse_quantity("1 min 2.5 s").value == Decimal("62.5")


@pytest.mark.parametrize("text", ["5 g 3 mg", "30 s 2 min", "2 min 30 g", "2 min 3 x"])
def test_nothing_else_may(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_quantity(text)


@pytest.mark.parametrize(
    ("text", "kind", "words", "suggestion"),
    [
        ("", "empty", "", None),
        ("concentrated", "number", "concentrated", None),
        ("25 cmm3", "unknown-unit", "cmm", "cm"),
        ("  25 cmm3", "unknown-unit", "cmm", "cm"),
        ("0.1 mol/dm3 HCl", "unknown-unit", "HCl", None),
        ("1,200 cm3", "number", "1,200", "1200"),
        ("60 to 20 °C", "range", "60 to 20 °C", "20 to 60 °C"),
        ("5.0 g/", "syntax", "", None),
        ("(25.0 ± 0.1 cm3", "number", "(25.0 ± 0.1 cm3", None),
        ("(25.0 ± 0.1 x) cm3", "syntax", "(25.0 ± 0.1", None),
        ("1e120 g", "number", "1e120", None),
        ("7" * 30 + " g", "number", "7" * 30, None),
        ("5 " + "g" * 200, "too-long", "g" * 82, None),
    ],
)
def test_what_cannot_be_read_is_pointed_at(
    text: str, kind: str, words: str, suggestion: str | None
) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text)
    error = caught.value
    assert (error.kind, text[error.start : error.end]) == (kind, words)
    assert error.suggestion == suggestion


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ("10 gm", "10 g"),
        ("10 gms", "10 g"),
        ("5 cc", "5 cm3"),
        ("3 lit", "3 L"),
        ("30 secs", "30 s"),
        ("30 secs.", "30 s"),
        ("5 KG", "5 kg"),
        ("25 deg C", "25 °C"),
        ("20 to 25 deg C", "20 to 25 °C"),
        ("0.1 M", "0.1 mol/dm3"),
        ("0.100M", "0.100 mol/dm3"),
        ("5 mM", "5 mmol/dm3"),
        ("0.789 g/cc", "0.789 g/cm3"),
        ("2.5 x 10-3 mol dm-3", "2.5 × 10^-3 mol/dm3"),
        ("4.2 × 103 J", "4.2 × 10^3 J"),
        ("25.0 ± 0.1 cc", "25.0 ± 0.1 cm3"),
        ("298 °K", "298 K"),
        ("2 mins 30 secs", "2 min 30 s"),
        ("4.184 J/g°C", "4.184 J/(g °C)"),
    ],
)
def test_a_wrong_writing_is_mended_without_a_change_of_value(
    text: str, mend: str
) -> None:
    """The standards' symbols: SI Brochure 9th ed., 5.2 to 5.4 and table 8."""
    quantity = parse_quantity(text)
    assert quantity.verdict is Verdict.DISCOURAGED
    assert typed(mended(quantity)) == mend
    assert parse_quantity(mend).si_value == quantity.si_value
    assert parse_quantity(mend).significant_figures == quantity.significant_figures


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ("1 atm", "101 kPa"),
        ("750 torr", "100 kPa"),
        ("150 kcal", "628 kJ"),
        ("1 cal", "4.18 J"),
        ("77 °F", "25 °C"),
        ("1 Å", "0.1 nm"),
        ("5 inches", "12.7 cm"),
        ("5 % w/v", "50 g/dm3"),
    ],
)
def test_an_old_unit_is_converted(text: str, mend: str) -> None:
    """Sizes from NIST SP 811, B.8; 77 °F is 25 °C exactly."""
    assert typed(mended(parse_quantity(text))) == mend


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("25.0 cm3", "dm3", "0.0250"),
        ("0.0250 dm3", "cm3", "25.0"),
        ("0.10 mol/dm3", "mmol/dm3", "1.0E+2"),
        ("25.0 °C", "K", "298.2"),
        ("298 K", "°C", "25"),
        ("2.5 min", "s", "150"),
        ("90 s", "min", "1.50"),
    ],
)
def test_figures_survive_a_conversion(text: str, unit: str, expected: str) -> None:
    """By hand; 90 s to the second is 1.50 min to the hundredth."""
    assert str(parse_quantity(text).to(parse_unit(unit)).value) == expected


def test_ranges_and_half_widths_are_converted_too() -> None:
    moved = parse_quantity("20 to 25 °C").to(parse_unit("K"))
    assert [moved.value, moved.upper] == [293, 298]
    moved = parse_quantity("25.00 ± 0.06 cm3").to(parse_unit("dm3"))
    assert moved.half_width == Decimal("0.00006")


def test_unlike_units_are_not_converted() -> None:
    with pytest.raises(QuantityError, match="cannot be converted"):
        parse_quantity("25 cm3").to(parse_unit("g"))


values = st.decimals(
    min_value="-9999", max_value="9999", places=3, allow_nan=False, allow_infinity=False
)
families = st.sampled_from(
    [
        ("cm3", "dm3", "mL", "µL", "m3"),
        ("s", "min", "h"),
        ("Pa", "kPa", "atm", "mmHg"),
        ("°C", "K", "°F"),
        ("g", "mg", "kg"),
    ]
)


@given(
    values,
    families.flatmap(lambda f: st.tuples(st.sampled_from(f), st.sampled_from(f))),
)
def test_there_and_back_is_where_one_was(value: Decimal, pair: tuple[str, str]) -> None:
    here, there = (parse_unit(text) for text in pair)
    quantity = Quantity(value, here)
    back = quantity.to(there).to(here)
    assert abs(back.value - value) <= Decimal("0.0005")


@given(
    values,
    st.sampled_from(["cm3", "g", "mol/dm3", "°C", "kJ/mol", "% w/v", "drops", "1"]),
)
def test_what_is_typed_is_read_as_it_was(value: Decimal, unit: str) -> None:
    quantity = Quantity(value, parse_unit(unit))
    again = parse_quantity(typed(quantity))
    assert again == quantity
    assert again.decimal_places == quantity.decimal_places


@given(st.text(alphabet="0123456789.,e×10^-−± to()k=cm3gmol/%°C", max_size=60))
def test_any_text_is_a_quantity_or_an_error_with_a_place(text: str) -> None:
    error = refusal(text)
    assert error is None or 0 <= error.start <= error.end <= len(text)


def refusal(text: str) -> QuantityError | None:
    try:
        float(parse_quantity(text).si_value)
    except QuantityError as error:
        return error
    return None
