"""What stands on the bottles of the demonstration's year."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from manualgen.build import read_and_work
from manualgen.editions.technician import BottleLabel
from manualgen.preparation.bottle_labels import (
    class_labels,
    label_sheet,
    stock_labels,
)
from manualgen.preparation.plan import Plan
from manualgen.preparation.sheet import plans_of_year, writer_for
from manualgen.preparation.words import Writer

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def year() -> tuple[tuple[Plan, ...], Writer]:
    worked = read_and_work(CONTENT, None, datetime.date(2026, 9, 1))
    return plans_of_year(worked), writer_for(worked)


def of_the_class(plans: tuple[Plan, ...], writer: Writer) -> list[BottleLabel]:
    return [label for plan in plans for label in class_labels(plan, writer)]


def test_no_label_has_more_than_six_precautionary_statements(
    year: tuple[tuple[Plan, ...], Writer],
) -> None:
    # CLP, Article 28(3).
    plans, writer = year
    labels = [*stock_labels(plans, writer), *of_the_class(plans, writer)]
    assert labels
    assert max(len(label.precautions) for label in labels) <= 6


def test_a_label_with_statements_has_a_signal_word_or_a_supplement(
    year: tuple[tuple[Plan, ...], Writer],
) -> None:
    plans, writer = year
    for label in of_the_class(plans, writer):
        if label.pictograms:
            assert label.signal_word in ("Danger", "Warning"), label.name
            assert label.statements, label.name


def test_an_unknowns_labels_are_alike_and_tell_nothing(
    year: tuple[tuple[Plan, ...], Writer],
) -> None:
    plans, writer = year
    unknown = [
        label for label in of_the_class(plans, writer) if ", groups " in label.name
    ]
    assert unknown
    for label in unknown:
        assert (label.formula, label.strength, label.remark) == ("", "", "")
        same = {
            (x.pictograms, x.statements, x.signal_word)
            for x in unknown
            if x.name.partition(", ")[0] == label.name.partition(", ")[0]
        }
        assert len(same) == 1


def test_a_stock_bottle_has_one_label_however_many_classes_use_it(
    year: tuple[tuple[Plan, ...], Writer],
) -> None:
    plans, writer = year
    made = [(x.name, x.strength) for x in stock_labels(plans, writer)]
    assert len(made) == len(set(made))


@pytest.mark.parametrize(
    ("paper", "wide", "high"), [("A4", 210, 297), ("Letter", 215.9, 279.4)]
)
@pytest.mark.parametrize("small", [True, False])
def test_a_sheet_of_labels_fits_its_paper(
    paper: str, wide: float, high: float, small: bool
) -> None:
    # ISO 216 for A4; 8.5 in by 11 in for Letter.
    sheet = label_sheet(paper, small=small)
    width = float(sheet.left) + sheet.across * float(sheet.width)
    width += (sheet.across - 1) * float(sheet.gap)
    assert width <= wide
    assert float(sheet.top) + sheet.down * float(sheet.height) <= high
