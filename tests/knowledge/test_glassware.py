"""Volumetric glassware, against the tables of its standards."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import TypedDict

import pytest
import yaml

from manualgen.knowledge.glassware import glassware, tolerance
from manualgen.quantities import parse_quantity


class Row(TypedDict):
    id: str
    piece: str
    capacity: str
    division: str
    A: str
    B: str


TABLE = Path(__file__).with_name("glassware.yaml").read_text("utf-8")
ROWS: list[Row] = yaml.load(TABLE, Loader=yaml.CBaseLoader)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_the_table_is_the_standards(row: Row) -> None:
    piece = glassware(row["piece"])
    assert piece
    stated = [
        (str(size.capacity), str(size.division or ""), size.tolerances)
        for size in piece.sizes
    ]
    tolerances = {"A": Decimal(row["A"]), "B": Decimal(row["B"])}
    assert (row["capacity"], row["division"], tolerances) in stated
    assert piece.is_fixed == (not row["division"])
    assert piece.source.startswith("ISO")


@pytest.mark.parametrize(
    ("piece", "capacity", "glass_class", "expected"),
    [
        ("burette", "50 cm3", "B", "0.1"),
        ("burette", "50 cm3", "A", "0.05"),
        ("Burette", "50 mL", "B", "0.1"),
        ("pipette", "25 cm3", "B", "0.06"),
        ("volumetric pipette", "25.0 cm3", "A", "0.03"),
        ("volumetric flask", "0.250 dm3", "B", "0.3"),
        ("volumetric flask", "250 cm3", "A", "0.15"),
        ("measuring cylinder", "100 cm3", "B", "1.0"),
        ("burette", "25 cm3", "B", "0.1"),
    ],
)
def test_a_tolerance_is_found_by_piece_size_and_class(
    piece: str, capacity: str, glass_class: str, expected: str
) -> None:
    """ISO 385, 648, 1042 and 4788; of two scales the coarser."""
    found = tolerance(piece, parse_quantity(capacity), glass_class)
    assert found == parse_quantity(f"{expected} cm3")


def test_a_piece_listed_without_a_class_is_taken_as_class_b() -> None:
    """Common practice, no source."""
    found = tolerance("pipette", parse_quantity("25 cm3"))
    assert found == parse_quantity("0.06 cm3")


@pytest.mark.parametrize(
    ("piece", "capacity"),
    [("beaker", "250 cm3"), ("pipette", "7 cm3"), ("burette", "50 g")],
)
def test_what_the_standards_do_not_have_has_no_tolerance(
    piece: str, capacity: str
) -> None:
    assert tolerance(piece, parse_quantity(capacity)) is None


def test_class_a_is_the_narrower_and_both_grow_with_the_size() -> None:
    for name in {row["piece"] for row in ROWS}:
        piece = glassware(name)
        assert piece
        for glass_class in "AB":
            limits = [size.tolerances[glass_class] for size in piece.sizes]
            assert limits == sorted(limits)
        assert all(s.tolerances["A"] <= s.tolerances["B"] for s in piece.sizes)
