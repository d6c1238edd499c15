"""`manualgen quantity`: what it says of one quantity."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict

import pytest
import yaml

from manualgen.quantities.answer import quantity_answer, quantity_lines


class Row(TypedDict):
    id: str
    given: str
    expected: dict[str, str]


TABLE = Path(__file__).with_name("units.yaml").read_text("utf-8")
ROWS: list[Row] = yaml.load(TABLE, Loader=yaml.CBaseLoader)

# Where the source gives more than one writing, a choice of words, or another
# number of figures than was typed; and the rows that are not a quantity alone.
OTHERWISE = {
    "UNT-05": "0.10 mol dm⁻³",
    "UNT-09": "50 g dm⁻³",
    "UNT-10": "5 % w/w",
    "UNT-11": "70 % v/v",
    "UNT-12": "15 ppm",
    "UNT-23": "101 kPa",
    "UNT-24": "101 kPa",
    "UNT-25": "100 kPa",
    "UNT-26": "1 bar",
    "UNT-28": "4.184 J g⁻¹ °C⁻¹",
    "UNT-29": "4.18 J g⁻¹ K⁻¹",
    "UNT-31": "4.18 J",
    "UNT-35": "20 drops",
    "UNT-36": "2 min 30 s",
    "UNT-41": "3 L",
    "UNT-59": "1.5 g",
    "UNT-60": "1200 cm³",
    "UNT-61": "20 to 25 cm³",
    "UNT-65": "0.1 nm",
}
NONE_ALONE = {"UNT-08", "UNT-19", "UNT-67"}


@pytest.mark.parametrize(
    "row", [r for r in ROWS if r["id"] not in NONE_ALONE], ids=lambda row: row["given"]
)
def test_the_preferred_writing_is_the_sources(row: Row) -> None:
    expected = OTHERWISE.get(row["id"], row["expected"]["preferred"])
    assert quantity_answer(row["given"])["preferred"] == expected


def test_a_quantity_is_answered_with_the_keys_of_the_contract() -> None:
    answer = quantity_answer("25.0 cm3")
    contract = {
        "version": 1,
        "status": "ok",
        "value": 25.0,
        "unit": "cm3",
        "si_value": 2.5e-05,
        "dimensions": {"length": 3},
        "significant_figures": 3,
        "preferred": "25.0 cm³",
        "message": None,
    }
    assert contract.items() <= answer.items()


def test_a_discouraged_writing_says_why() -> None:
    answer = quantity_answer("10 gms")
    assert answer["status"] == "discouraged"
    assert answer["preferred"] == "10 g"
    assert answer["message"] == "the symbol is g"


@pytest.mark.parametrize("row", [r for r in ROWS if r["id"] in NONE_ALONE])
def test_what_is_no_quantity_alone_is_invalid(row: Row) -> None:
    answer = quantity_answer(row["given"])
    assert answer["status"] == "invalid"
    assert answer["value"] is None
    assert answer["message"]


def test_an_unknown_unit_is_answered_with_the_nearest() -> None:
    answer = quantity_answer("25 cmm3")
    assert answer["status"] == "invalid"
    assert answer["preferred"] == "25 cm3"


def test_ranges_and_half_widths_are_answered_too() -> None:
    assert quantity_answer("20 to 25 °C")["upper"] == 25.0
    assert quantity_answer("25.00 ± 0.06 cm3")["half_width"] == 0.06


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("25.0 cm3", "25.0 cm³ (volume)\n  = 2.5 × 10⁻⁵ m³, 3 significant figures"),
        ("1 g", "1 g (mass)\n  = 0.001 kg, 1 significant figure"),
        (
            "20 to 25 °C",
            "20 to 25 °C (temperature)\n  = 293.15 to 298.15 K, 2 significant figures",
        ),
        (
            "10 gm",
            "10 gm (mass): the symbol is g; write 10 g\n"
            "  = 0.01 kg, 2 significant figures",
        ),
        ("25 cmm3", "25 cmm3: cmm is no unit; did you mean cm?; write 25 cm3"),
        (
            "concentrated",
            "concentrated: a quantity begins with a number, and concentrated does not",
        ),
    ],
)
def test_a_reader_gets_a_line_or_two(text: str, lines: str) -> None:
    assert quantity_lines(text) == lines
