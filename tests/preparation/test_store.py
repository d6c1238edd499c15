"""What the department's store keeps, and what is made and labelled from it."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from fractions import Fraction

import pytest

from manualgen.preparation.bottle_labels import stock_labels
from manualgen.preparation.needs import Order, Shape, Sitting
from manualgen.preparation.plan import Plan, plan
from manualgen.preparation.sheet import writer_for
from manualgen.preparation.stock import stock_list
from manualgen.working.worked import Worked

WorkOut = Callable[..., Worked]

METHOD = "\n---\n\n## Method\n\n1. Look.\n"
INDICATOR = "---\ntitle: T\nchemicals:\n  - {name}, 3 drops" + METHOD


def planned(worked: Worked, groups: int = 6) -> Plan:
    (work,) = worked.experiments
    return plan(Order((Sitting(work, groups),), Fraction(1, 10)))


def stock_rows(worked: Worked, made: Plan) -> list[dict[str, str]]:
    text = stock_list(worked, [made], writer_for(worked))
    *rows, notice = csv.DictReader(io.StringIO(text))
    assert "risk assessment" in notice["Chemical"]
    return rows


@pytest.mark.parametrize("name", ["phenolphthalein", "phenolphthalein solution"])
@pytest.mark.parametrize(
    "kept",
    ["formula: C20H14O4\n  supplied: powder, pack 25 g", "supplied: powder, pack 25 g"],
)
def test_an_indicator_kept_as_a_powder_is_made_into_its_solution(
    work_out: WorkOut, name: str, kept: str
) -> None:
    store = f"phenolphthalein:\n  {kept}\n  shelf: C2\n"
    text = INDICATOR.format(name=name)
    worked = work_out(text, files={"chemicals.yaml": store})
    made = planned(worked)
    (solution,) = made.solutions
    assert made.supplied == ()
    # A 0.5 % solution (common practice, no source); by hand 0.25 g for 50 cm³, which
    # is the least that holds six dropping bottles of 5 cm³.
    assert solution.making is not None
    assert solution.making.mass == Fraction(1, 4)
    assert solution.making.volume == 50
    (label,) = stock_labels([made], writer_for(worked))
    # More than half of it is ethanol, H225 (Annex VI, 603-002-00-5); of the solid's
    # H350 half a per cent is under its limit of 1 % (604-076-00-1).
    assert "Highly flammable liquid and vapour" in " ".join(label.statements)
    assert "cancer" not in " ".join(label.statements)
    rows = [r for r in stock_rows(worked, made) if r["Chemical"] == "phenolphthalein"]
    assert [(r["Pack"], r["shelf"]) for r in rows] == [("25 g", "C2")]


def test_an_indicator_kept_as_a_solution_is_poured(work_out: WorkOut) -> None:
    store = "phenolphthalein:\n  formula: C20H14O4\n  supplied: 1 %, pack 100 cm3\n"
    text = INDICATOR.format(name="phenolphthalein")
    made = planned(work_out(text, files={"chemicals.yaml": store}))
    assert made.solutions == ()
    assert [s.shape for s in made.supplied] == [Shape.LIQUID]


ACIDS = (
    "---\ntitle: T\nchemicals:\n  - hydrochloric acid, 2.0 mol/dm3, 50 cm3\n"
    "  - concentrated hydrochloric acid, 5 cm3" + METHOD
)


def test_concentrated_acid_of_the_stores_own_is_one_row_of_the_stock_list(
    work_out: WorkOut,
) -> None:
    store = "hydrochloric acid:\n  supplied: 36 % w/w, pack 2.5 dm3\n"
    worked = work_out(ACIDS, files={"chemicals.yaml": store})
    made = planned(worked, groups=4)
    (solution,) = made.solutions
    assert solution.making is not None
    assert solution.making.start.called == "concentrated hydrochloric acid"
    (row,) = stock_rows(worked, made)
    assert row["Chemical"] == "concentrated hydrochloric acid"
    assert row["Pack"] == "2.5 dm³"
    # By hand: 250 cm³ of 2.0 mol/dm³ is 0.500 mol, of 36 % w/w, 1.18 g/cm³ acid at
    # 36.46 g/mol 42.9 cm³; and 4 × 5 cm³ and a tenth, 22 cm³: 65 cm³ in all.
    assert row["Needed this year"].split()[0] == "65"


@pytest.mark.parametrize(
    ("name", "supplied", "called"),
    [
        ("hydrochloric acid", "37 % w/w, 1.19 g/cm3", "concentrated hydrochloric acid"),
        ("hydrochloric acid", "5.00 mol/dm3", "hydrochloric acid"),
        # Glacial is what freezes in a cold room, all but free of water (common
        # practice, no source).
        ("ethanoic acid", "99.8 % w/w, 1.05 g/cm3", "glacial ethanoic acid"),
        ("ethanoic acid", "80 % w/w, 1.07 g/cm3", "ethanoic acid"),
    ],
)
def test_the_stores_own_stock_is_called_by_its_strength(
    work_out: WorkOut, name: str, supplied: str, called: str
) -> None:
    text = f"---\ntitle: T\nchemicals:\n  - {name}, 0.50 mol/dm3, 50 cm3" + METHOD
    store = f"{name}:\n  supplied: {supplied}\n"
    (solution,) = planned(work_out(text, files={"chemicals.yaml": store})).solutions
    assert solution.making is not None
    assert solution.making.start.called == called
