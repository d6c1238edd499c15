"""One source, printed as each department writes."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.quantities import (
    DecimalMark,
    HouseStyle,
    Quantity,
    Units,
    Volume,
    parse_quantity,
    parse_unit,
    printed,
    printed_unit,
)
from manualgen.quantities.style import AS_TYPED, printed_value

SOLIDUS = HouseStyle(units=Units.SOLIDUS)
ML = HouseStyle(volume=Volume.ML)
COMMA = HouseStyle(decimal=DecimalMark.COMMA)


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("text", "index", "solidus"),
    [
        ("25.0 cm3", "25.0 cm³", "25.0 cm³"),
        ("0.100 mol/dm3", "0.100 mol dm⁻³", "0.100 mol/dm³"),
        ("0.100 mol dm-3", "0.100 mol dm⁻³", "0.100 mol/dm³"),
        ("4.18 J/g/K", "4.18 J g⁻¹ K⁻¹", "4.18 J/(g K)"),
        ("0.05 s-1", "0.05 s⁻¹", "0.05 s⁻¹"),
        ("0.1 M", "0.1 mol dm⁻³", "0.1 mol/dm³"),
        ("-57.1 kJ/mol", "−57.1 kJ mol⁻¹", "−57.1 kJ/mol"),
        ("4.29e-5 mol", "4.29 × 10⁻⁵ mol", "4.29 × 10⁻⁵ mol"),
        ("0.0000429 mol", "0.0000429 mol", "0.0000429 mol"),
        ("10 %", "10 %", "10 %"),
        ("+0.34 V", "+0.34 V", "+0.34 V"),
        ("±0.05 cm3", "± 0.05 cm³", "± 0.05 cm³"),
        ("5 % w/v", "5 % w/v", "5 % w/v"),
        ("104.5°", "104.5°", "104.5°"),
        ("3 drops", "3 drops", "3 drops"),
        ("12", "12", "12"),
        ("2 min 30 s", "2 min 30 s", "2 min 30 s"),
        ("20 to 25 °C", "20 to 25 °C", "20 to 25 °C"),
        ("25.00 ± 0.06 cm3", "(25.00 ± 0.06) cm³", "(25.00 ± 0.06) cm³"),
        ("25.00 ± 0.02 (k=1) cm3", "(25.00 ± 0.02) cm³ (k = 1)", None),
    ],
)
def test_units_are_printed_with_indices_or_a_solidus(
    text: str, index: str | None, solidus: str | None
) -> None:
    """SI Brochure, 9th ed., 5.2 to 5.4: both are right."""
    if index:
        assert plain(printed(parse_quantity(text), HouseStyle())) == index
    if solidus:
        assert plain(printed(parse_quantity(text), SOLIDUS)) == solidus


@pytest.mark.parametrize(
    ("text", "cm3", "ml"),
    [
        ("25.0 cm3", "25.0 cm³", "25.0 mL"),
        ("25.0 mL", "25.0 cm³", "25.0 mL"),
        ("2 dm3", "2 dm³", "2 L"),
        ("2 L", "2 dm³", "2 L"),
        ("250 µL", "250 mm³", "250 µL"),
        ("0.10 mol/L", "0.10 mol dm⁻³", "0.10 mol L⁻¹"),
        ("0.10 mol dm-3", "0.10 mol dm⁻³", "0.10 mol L⁻¹"),
        ("0.789 g/mL", "0.789 g cm⁻³", "0.789 g mL⁻¹"),
        ("3.2 mol2 dm-6", "3.2 mol² dm⁻⁶", "3.2 mol² L⁻²"),
        ("2 cm2", "2 cm²", "2 cm²"),
        ("5 cm", "5 cm", "5 cm"),
        ("1 m3", "1 m³", "1 m³"),
    ],
)
def test_volumes_are_printed_in_the_symbols_of_the_house(
    text: str, cm3: str, ml: str
) -> None:
    """1 mL is 1 cm³ and 1 L is 1 dm³ by definition: SI Brochure, table 8."""
    assert plain(printed(parse_quantity(text), HouseStyle())) == cm3
    assert plain(printed(parse_quantity(text), ML)) == ml


def test_without_a_house_the_authors_volume_stands() -> None:
    assert plain(printed(parse_quantity("25 ml"), AS_TYPED)) == "25 mL"
    assert plain(printed(parse_quantity("25 cm3"), AS_TYPED)) == "25 cm³"


def test_a_decimal_comma_is_the_houses_choice() -> None:
    assert plain(printed(parse_quantity("25.0 cm3"), COMMA)) == "25,0 cm³"
    both = printed(parse_quantity("25.00 ± 0.06 cm3"), COMMA)
    assert plain(both) == "(25,00 ± 0,06) cm³"


def test_the_word_between_the_ends_of_a_range_is_the_languages() -> None:
    german = HouseStyle(to="bis", decimal=DecimalMark.COMMA)
    assert plain(printed(parse_quantity("2.5 to 5 g"), german)) == "2,5 bis 5 g"


def test_a_heading_has_the_unit_alone() -> None:
    assert plain(printed_unit(parse_unit("mol/dm3"), HouseStyle())) == "mol dm⁻³"
    assert printed_unit(parse_unit("1"), HouseStyle()) == ""


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("1.4E+2", "140"),
        ("0.000018", "1.8 × 10⁻⁵"),
        ("0.0018", "0.0018"),
        ("6.02E+23", "6.02 × 10²³"),
        ("0", "0"),
    ],
)
def test_a_computed_value_is_printed_with_a_power_where_it_saves_noughts(
    value: str, expected: str
) -> None:
    """Common practice, no source."""
    quantity = Quantity(Decimal(value), parse_unit("mol"))
    assert plain(printed_value(quantity, HouseStyle())) == expected


styles = st.builds(
    HouseStyle,
    st.sampled_from(Volume),
    st.sampled_from(Units),
    st.just(DecimalMark.POINT),
)
units = st.sampled_from(
    [
        "cm3",
        "mL",
        "mol/dm3",
        "g/mL",
        "J/(g K)",
        "°C",
        "%",
        "vol",
        "µL",
        "dm3/mol",
        "ppm",
    ]
)
values = st.decimals(
    min_value="-9999", max_value="9999", places=3, allow_nan=False, allow_infinity=False
)


@given(values, units, styles)
def test_print_is_never_broken_and_loses_no_figure(
    value: Decimal, unit: str, style: HouseStyle
) -> None:
    quantity = parse_quantity(f"{value} {unit}")
    text = printed(quantity, style)
    assert " " not in text
    again = parse_quantity(text)
    assert again.si_value == quantity.si_value
    assert again.significant_figures == quantity.significant_figures
