"""What the department's store keeps, and what is made and labelled from it."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping
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


def stock_rows(worked: Worked, made: Plan) -> list[Mapping[str, str]]:
    text = stock_list(worked, [made], writer_for(worked))
    return list(csv.DictReader(io.StringIO(text)))


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
