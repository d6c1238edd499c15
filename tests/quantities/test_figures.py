"""Significant figures and rounding, against a printed textbook."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal
from fractions import Fraction
from pathlib import Path
from typing import TypedDict

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.quantities import Rounding
from manualgen.quantities.figures import (
    leading_place,
    place,
    rounded_to_figures,
    rounded_to_place,
    significant_figures,
)


class Row(TypedDict):
    id: str
    given: dict[str, str]
    expected: dict[str, str]


TABLE = Path(__file__).with_name("figures.yaml").read_text("utf-8")
ROWS: list[Row] = yaml.load(TABLE, Loader=yaml.CBaseLoader)


def rows(category: str) -> list[Row]:
    return [row for row in ROWS if row["given"]["category"] == category]


@pytest.mark.parametrize("row", rows("count"), ids=lambda row: row["given"]["number"])
def test_figures_are_counted_as_the_book_counts_them(row: Row) -> None:
    number = Decimal(row["given"]["number"])
    assert significant_figures(number) == int(row["expected"]["sig_figs"])


@pytest.mark.parametrize("row", rows("round"), ids=lambda row: row["given"]["number"])
def test_numbers_are_rounded_as_the_book_rounds_them(row: Row) -> None:
    """The book rounds a dropped 5 to the even figure."""
    number, figures = Decimal(row["given"]["number"]), int(row["given"]["to"])
    rounded = rounded_to_figures(number, figures, Rounding.EVEN)
    expected = Decimal(row["expected"]["result"])
    assert rounded == expected
    assert place(rounded) == place(expected)


@pytest.mark.parametrize(
    ("number", "up", "even"),
    [("0.445", "0.45", "0.44"), ("0.435", "0.44", "0.44"), ("-2.5", "-2.5", "-2.5")],
)
def test_a_dropped_five_is_the_manuals_choice(number: str, up: str, even: str) -> None:
    """The two customs; ISO 80000-1:2022 annex B names both (from memory)."""
    assert rounded_to_figures(Decimal(number), 2) == Decimal(up)
    assert rounded_to_figures(Decimal(number), 2, Rounding.EVEN) == Decimal(even)


def test_rounding_may_gain_a_figure_at_the_front_and_drops_one_behind() -> None:
    assert str(rounded_to_figures(Decimal("9.996"), 3)) == "10.0"
    assert str(rounded_to_figures(Decimal("-0.0999"), 2)) == "-0.10"


def test_nought_has_a_place_and_no_sign() -> None:
    assert str(rounded_to_place(Decimal("-0.001"), -2)) == "0.00"
    assert str(rounded_to_figures(Decimal(0), 3)) == "0.00"
    assert significant_figures(Decimal("0.00")) == 1
    with pytest.raises(ValueError, match="nought"):
        leading_place(Fraction(0))


def test_what_is_no_number_has_no_figures() -> None:
    with pytest.raises(TypeError):
        place(Decimal("NaN"))


numbers = st.decimals(
    allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9, places=6
)


@given(numbers.filter(bool), st.integers(1, 9))
def test_rounding_agrees_with_the_decimal_module(number: Decimal, figures: int) -> None:
    """The General Decimal Arithmetic specification's half-up and half-even."""
    for rounding, theirs in (
        (Rounding.UP, ROUND_HALF_UP),
        (Rounding.EVEN, ROUND_HALF_EVEN),
    ):
        expected = Context(prec=figures, rounding=theirs).plus(number)
        assert rounded_to_figures(number, figures, rounding) == expected


@given(numbers.filter(bool), st.integers(1, 9))
def test_rounding_twice_changes_nothing(number: Decimal, figures: int) -> None:
    once = rounded_to_figures(number, figures)
    assert str(rounded_to_figures(once, figures)) == str(once)
    assert significant_figures(once) == figures


@given(st.fractions().filter(bool))
def test_the_first_figure_stands_at_the_leading_place(value: Fraction) -> None:
    assert 1 <= abs(value) / Fraction(10) ** leading_place(value) < 10
